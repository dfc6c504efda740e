/** The head of every page: whose project it is, how it looks, and a way to keep it. */
import { For, type JSX, Show } from "solid-js";
import { type Project, projectText } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { isPaper, keepPaper, paper, papers } from "./paper.ts";

export function Header(props: {
  readonly project: Project;
  readonly name: string | null;
  /** Whether it differs from what was last kept. */
  readonly changed: boolean;
  readonly onSaved: () => void;
}): JSX.Element {
  function save(): void {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([projectText(props.project)], { type: "application/json" }));
    link.download = props.name ?? "microphone.glassdrum.json";
    link.click();
    URL.revokeObjectURL(link.href);
    props.onSaved();
  }
  return (
    <header class="head">
      <div class="title">
        <h1>{props.project.file.title ?? words.untitled}</h1>
        <Show when={props.name ?? props.project.file.notes}>{(text) => <p class="aside">{text()}</p>}</Show>
      </div>
      <div class="settings">
        <span class="aside">{props.changed ? words.changed : ""}</span>
        <button type="button" onClick={save}>
          {words.save}
        </button>
        <label>
          {words.paper}
          <select
            onChange={(event) => {
              const { value } = event.currentTarget;
              if (isPaper(value)) keepPaper(value);
            }}
          >
            <For each={papers}>
              {(one) => (
                <option value={one} selected={one === paper()}>
                  {words.papers[one]}
                </option>
              )}
            </For>
          </select>
        </label>
      </div>
    </header>
  );
}
