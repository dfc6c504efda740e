/** The glossary over the page. */
import { createEffect, createMemo, createSignal, For, type JSX, on, Show } from "solid-js";
import { glossary, glossaryWords as words } from "../../words/en/glossary.ts";
import type { Asked } from "./Words.tsx";

export function Glossary(props: { readonly asked: Asked | null }): JSX.Element {
  let dialog!: HTMLDialogElement;
  const [search, setSearch] = createSignal("");
  const shown = createMemo(() => {
    const text = search().trim().toLowerCase();
    return glossary.filter(({ term, means }) => `${term} ${means}`.toLowerCase().includes(text));
  });
  const wanted = () => props.asked?.term ?? "";
  createEffect(
    on(
      () => props.asked,
      () =>
        // After the dialog is in the page.
        queueMicrotask(() => {
          setSearch("");
          if (!dialog.open) dialog.showModal();
          dialog.querySelector(`[data-term="${CSS.escape(wanted())}"]`)?.scrollIntoView({ block: "center" });
        }),
    ),
  );
  return (
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
  );
}
