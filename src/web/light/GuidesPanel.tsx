/** Several guides: where each lies, its weight in the sum, its drift, and what is left of the common one. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, formatQuantity, type LightAnswer } from "../../core/index.ts";
import { lightWords as words } from "../../words/en/light.ts";
import { Field } from "../shell/Field.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

export function GuidesPanel(): JSX.Element {
  const work = useWork();
  const said = () => work.project().file.microphone?.guide;
  const all = () => {
    const guides = said();
    return Array.isArray(guides) ? guides : [guides ?? {}];
  };
  const path = (i: number) => (Array.isArray(said()) ? `microphone.guide[${i}]` : "microphone.guide");
  const light = () => work.answer()?.prediction.light ?? null;
  function write(guides: readonly unknown[], says: string): void {
    const text = JSON.stringify(guides.length === 1 ? guides[0] : guides);
    const changed = changeValue(work.project(), "microphone.guide", text);
    if (changed.ok) work.replace(changed.value, says);
  }
  const added = () => [...all(), { ...all()[0], at: "0 mm", weight: -1 }];
  return (
    <Panel title={words.guides} aside={words.guidesAside}>
      <For each={all()}>
        {(_, i) => (
          <div class="light-fields" data-guide={i()}>
            <Field spec={{ path: `${path(i())}.at` }} bench={work} />
            <Field spec={{ path: `${path(i())}.weight` }} bench={work} />
          </div>
        )}
      </For>
      <Show when={light()}>{(found) => <Drifts light={found()} />}</Show>
      <p class="light-buttons">
        <button type="button" onClick={() => write(added(), words.addGuide)}>
          {words.addGuide}
        </button>
        <Show when={all().length > 1}>
          <button type="button" onClick={() => write(all().slice(0, -1), words.removeGuide)}>
            {words.removeGuide}
          </button>
        </Show>
      </p>
    </Panel>
  );
}

function Drifts(props: { readonly light: LightAnswer }): JSX.Element {
  const { guide, depth, bias, drift } = words.guideColumns;
  const angle = (value: number) => formatQuantity(value, "angle", { digits: 3 });
  return (
    <section class="scroll" tabindex="0" aria-label={words.guides}>
      <table class="light-table">
        <thead>
          <tr>
            <For each={[guide, depth, bias, drift]}>{(title) => <th scope="col">{title}</th>}</For>
          </tr>
        </thead>
        <tbody>
          <For each={props.light.guides}>
            {(one, i) => (
              <tr>
                <th scope="row">{i() + 1}</th>
                <td>{formatQuantity(one.depth, "length", { digits: 3 })}</td>
                <td>{angle(one.bias.inUse)}</td>
                <td>{angle(one.bias.perKelvin)}</td>
              </tr>
            )}
          </For>
          <Show when={props.light.guides.length > 1}>
            <tr>
              <th scope="row">{words.sum}</th>
              <td />
              <td />
              <td>{angle(props.light.drift.perKelvin)}</td>
            </tr>
          </Show>
        </tbody>
      </table>
    </section>
  );
}
