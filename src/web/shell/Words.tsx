/** The glossary over the page: opened by its word, by the question mark beside a label, or by F1 in a field. */
import { createMemo, createSignal, For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { glossary, termOf, glossaryWords as words } from "../../words/en/glossary.ts";

export function Words(): JSX.Element {
  let dialog!: HTMLDialogElement;
  const [search, setSearch] = createSignal("");
  const [wanted, setWanted] = createSignal("");
  const shown = createMemo(() => {
    const text = search().trim().toLowerCase();
    return glossary.filter(({ term, means }) => `${term} ${means}`.toLowerCase().includes(text));
  });
  function show(term: string): void {
    setSearch("");
    setWanted(term);
    if (!dialog.open) dialog.showModal();
    dialog.querySelector<HTMLElement>(`[data-term="${CSS.escape(term)}"]`)?.scrollIntoView({ block: "center" });
  }
  function key(event: KeyboardEvent): void {
    if (event.key !== "F1" || !(event.target instanceof Element)) return;
    const path = event.target.closest<HTMLElement>("[data-path]")?.dataset["path"];
    event.preventDefault();
    show((path === undefined ? undefined : termOf(path)?.term) ?? "");
  }
  function asked(event: MouseEvent): void {
    const term = (event.target as Element).closest<HTMLElement>("[data-explain]")?.dataset["explain"];
    if (term !== undefined) show(term);
  }
  onMount(() => {
    window.addEventListener("keydown", key);
    window.addEventListener("click", asked);
  });
  onCleanup(() => {
    window.removeEventListener("keydown", key);
    window.removeEventListener("click", asked);
  });
  return (
    <>
      <button type="button" class="word" title="F1" onClick={() => show("")}>
        {words.open}
      </button>
      <dialog ref={dialog} class="glossary" aria-labelledby="glossary-title">
        <h2 id="glossary-title">
          {words.title}{" "}
          <button type="button" class="word" onClick={() => dialog.close()}>
            {words.close}
          </button>
        </h2>
        <label>
          {words.search}{" "}
          <input
            type="search"
            autocomplete="off"
            value={search()}
            onInput={(event) => setSearch(event.currentTarget.value)}
          />
        </label>
        <Show when={shown().length > 0} fallback={<p class="aside">{words.nothing}</p>}>
          <dl>
            <For each={shown()}>
              {({ term, means }) => (
                <div data-term={term} classList={{ wanted: wanted() === term }}>
                  <dt>{term}</dt>
                  <dd>{means}</dd>
                </div>
              )}
            </For>
          </dl>
        </Show>
      </dialog>
    </>
  );
}
