/** What to be careful about where it is made or measured, by the precautions of the project. */
import { For, type JSX, Show } from "solid-js";
import { precautionsOf } from "../../core/index.ts";
import { type CarePage, careNotes, careWords as words } from "../../words/en/care.ts";
import { Panel } from "./PageFrame.tsx";
import { useWork } from "./work.ts";
import "./care.css";

export function CareNotes(props: { readonly page: CarePage }): JSX.Element {
  const work = useWork();
  const notes = () =>
    careNotes(
      props.page,
      precautionsOf(work.project()).map(({ precaution }) => precaution),
    );
  return (
    <Panel title={words.title} aside={words.aside} class="care">
      <dl>
        <For each={notes()}>
          {({ about, says }) => (
            <>
              <Show when={about}>{(text) => <dt>{text()}</dt>}</Show>
              <dd>{says}</dd>
            </>
          )}
        </For>
      </dl>
      <p class="aside">{words.defers}</p>
    </Panel>
  );
}
