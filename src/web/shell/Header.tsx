/** The head of every page: whose project it is, its past, a way to keep it, and how it looks. */
import { For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { projectText } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { shellWords } from "../../words/en/shell.ts";
import { setWalkStep } from "../walk/walkStep.ts";
import { KeepingWord } from "./KeepingState.tsx";
import { Keys } from "./Keys.tsx";
import { Past } from "./Past.tsx";
import { isPaper, keepPaper, paper, papers } from "./paper.ts";
import { Words } from "./Words.tsx";
import { useWork } from "./work.ts";

export function Header(props: { readonly onOpen: (file: File) => Promise<void> }): JSX.Element {
  const work = useWork();
  let picker!: HTMLInputElement;
  function save(): void {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([projectText(work.project())], { type: "application/json" }));
    link.download = work.name() ?? "microphone.glassdrum.json";
    link.click();
    URL.revokeObjectURL(link.href);
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
  const title = () => work.project().file.title ?? words.untitled;
  return (
    <header class="head">
      <div class="title">
        <h1>{title()}</h1>
        <Show when={work.name() ?? work.project().file.notes}>{(text) => <p class="aside">{text()}</p>}</Show>
      </div>
      <div class="settings">
        <KeepingWord />
        <Past />
        <input
          ref={picker}
          type="file"
          accept=".json,.zip,application/json,application/zip"
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
        <button type="button" class="word" onClick={() => setWalkStep(0)}>
          {shellWords.walk}
        </button>
        <Words />
        <Keys />
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
