/** The same device read another way: what the alternatives give beside the present one. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, type Project, projectText } from "../../core/index.ts";
import { readoutRow, lightWords as words } from "../../words/en/light.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";

const ways = ["polarimetric", "TE", "TM"] as const;
type Way = (typeof ways)[number];

export function OtherReadouts(props: { readonly wide: boolean }): JSX.Element {
  const work = useWork();
  const present = (): Way => {
    const said = work.project().file.microphone?.readout;
    return said?.kind === "interferometric" ? (said.arm === "TM" ? "TM" : "TE") : "polarimetric";
  };
  const other = (which: number) => ways.filter((way) => way !== present())[which] ?? "TE";
  const answers = [0, 1].map((which) => ({
    way: () => other(which),
    answer: taskAnswer(
      "predict",
      () => {
        const changed = read(work.project(), other(which));
        return changed === null ? null : { text: projectText(changed), frequencies: [1000] };
      },
      `readout-${which}`,
    ),
  }));
  return (
    <Panel title={words.otherReadout} aside={words.otherAside} wide={props.wide}>
      <For each={answers}>
        {({ answer, way }) => (
          <Show when={answer.state() !== "current"}>
            <TaskState answer={answer} what={words.kinds[way()]} />
          </Show>
        )}
      </For>
      <section class="scroll" tabindex="0" aria-label={words.otherReadout}>
        <table class="light-table stacks">
          <thead>
            <tr>
              <For each={Object.values(words.columns)}>{(title) => <th scope="col">{title}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <Show when={work.answer()?.prediction}>
              {(found) => (
                <tr>
                  <th scope="row">
                    {words.kinds[present()]}, {words.kinds.now}
                  </th>
                  <Cells of={readoutRow(found())} />
                </tr>
              )}
            </Show>
            <For each={answers}>
              {({ answer, way }) => (
                <Show when={answer.value()}>
                  {(found) => (
                    <tr>
                      <th scope="row">
                        <button
                          type="button"
                          class="word"
                          onClick={() => {
                            const changed = read(work.project(), way());
                            if (changed !== null) work.replace(changed, words.kinds[way()]);
                          }}
                        >
                          {words.kinds[way()]}
                        </button>
                      </th>
                      <Cells of={readoutRow(found())} />
                    </tr>
                  )}
                </Show>
              )}
            </For>
          </tbody>
        </table>
      </section>
    </Panel>
  );
}

function Cells(props: { readonly of: readonly string[] }): JSX.Element {
  const titles = Object.values(words.columns).slice(1);
  return <For each={props.of}>{(cell, i) => <td data-of={titles[i()]}>{cell}</td>}</For>;
}

function read(project: Project, way: Way): Project | null {
  const kind = way === "polarimetric" ? way : "interferometric";
  const changed = changeValue(project, "microphone.readout.kind", kind);
  const armed =
    changed.ok && way !== "polarimetric" ? changeValue(changed.value, "microphone.readout.arm", way) : changed;
  return armed.ok ? armed.value : null;
}
