/** The head of every page: whose project it is, its past, a way to keep it, and how it looks. */
import { For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { projectText } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { BenchState } from "../bench/state.ts";
import { Past } from "./Past.tsx";
import { isPaper, keepPaper, paper, papers } from "./paper.ts";

export function Header(props: {
  readonly bench: BenchState;
  readonly name: string | null;
  /** Whether it differs from what was last kept. */
  readonly changed: boolean;
  readonly onSaved: () => void;
  readonly onOpen: (file: File) => Promise<void>;
}): JSX.Element {
  let picker!: HTMLInputElement;
  function save(): void {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([projectText(props.bench.project())], { type: "application/json" }));
    link.download = props.name ?? "microphone.glassdrum.json";
    link.click();
    URL.revokeObjectURL(link.href);
    props.onSaved();
  }
  function key(event: KeyboardEvent): void {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const pressed = event.key.toLowerCase();
    if (pressed === "s") save();
    else if (pressed === "o") picker.click();
    else return;
    event.preventDefault();
  }
  onMount(() => window.addEventListener("keydown", key));
  onCleanup(() => window.removeEventListener("keydown", key));
  const title = () => props.bench.project().file.title ?? words.untitled;
  return (
    <header class="head">
      <div class="title">
        <h1>{title()}</h1>
        <Show when={props.name ?? props.bench.project().file.notes}>{(text) => <p class="aside">{text()}</p>}</Show>
      </div>
      <div class="settings">
        <span class="aside">{props.changed ? words.changed : ""}</span>
        <Past bench={props.bench} />
        <input
          ref={picker}
          type="file"
          accept=".json,application/json"
          class="picker"
          tabindex="-1"
          aria-label={words.open}
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file !== undefined) void props.onOpen(file);
            event.currentTarget.value = "";
          }}
        />
        <button type="button" title="Ctrl+O" onClick={() => picker.click()}>
          {words.open}
        </button>
        <button type="button" title="Ctrl+S" onClick={save}>
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
