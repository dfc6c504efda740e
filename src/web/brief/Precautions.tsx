/** What the site demands: marked here, and each says what to do and which standard to read. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, fileValue } from "../../core/index.ts";
import { briefWords as words } from "../../words/en/brief.ts";
import { type Precaution, precautions } from "../../words/en/precautions.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

export function Precautions(): JSX.Element {
  const work = useWork();
  const marked = (): readonly string[] => {
    const found = fileValue(work.project(), ["brief", "site", "precautions"]);
    return Array.isArray(found) ? found.filter((one) => typeof one === "string") : [];
  };
  /** All that are known here, then those that only the file names. */
  const keys = () => [...Object.keys(precautions), ...marked().filter((key) => precautions[key] === undefined)];
  function mark(key: string, wanted: boolean): void {
    const next = wanted ? [...marked(), key] : marked().filter((one) => one !== key);
    const changed = changeValue(work.project(), "brief.site.precautions", JSON.stringify(next));
    const label = precautions[key]?.label ?? key;
    if (changed.ok) work.replace(changed.value, wanted ? words.precautionAdded(label) : words.precautionDropped(label));
  }
  return (
    <Panel title={words.precautions} aside={words.precautionsHint} class="precautions">
      <Show when={marked().length === 0}>
        <p class="aside">{words.noPrecautions}</p>
      </Show>
      <ul>
        <For each={keys()}>
          {(key) => (
            <li data-precaution={key}>
              <label>
                <input
                  type="checkbox"
                  checked={marked().includes(key)}
                  onChange={(event) => mark(key, event.currentTarget.checked)}
                />
                {precautions[key]?.label ?? key}
              </label>
              <Show when={marked().includes(key)}>
                <Show when={precautions[key]} fallback={<p class="aside">{words.ownPrecaution}</p>}>
                  {(known) => <Says precaution={known()} />}
                </Show>
              </Show>
            </li>
          )}
        </For>
      </ul>
      <p class="aside">{words.defers}</p>
    </Panel>
  );
}

function Says(props: { readonly precaution: Precaution }): JSX.Element {
  return (
    <p>
      {props.precaution.says}{" "}
      <Show when={props.precaution.standard}>
        {(standard) => (
          <span class="aside">
            {words.standard} {standard()}.
          </span>
        )}
      </Show>
    </p>
  );
}
