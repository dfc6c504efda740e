/** The word that opens the glossary, and the other ways to it: the question mark beside a label, F1 in a field. */
import { createSignal, type JSX, lazy, onCleanup, onMount, Show, Suspense } from "solid-js";
import { termOf, termWords as words } from "../../words/en/terms.ts";

/** Comes when it is first asked for. */
const Glossary = lazy(() => import("./Glossary.tsx").then(({ Glossary }) => ({ default: Glossary })));

/** What was asked for; each question is a new one. */
export interface Asked {
  /** Empty: all words. */
  readonly term: string;
}

export function Words(): JSX.Element {
  const [asked, setAsked] = createSignal<Asked | null>(null);
  const show = (term: string) => setAsked({ term });
  function key(event: KeyboardEvent): void {
    if (event.key !== "F1" || !(event.target instanceof Element)) return;
    const path = event.target.closest<HTMLElement>("[data-path]")?.dataset["path"];
    event.preventDefault();
    show((path === undefined ? undefined : termOf(path)) ?? "");
  }
  function click(event: MouseEvent): void {
    const term = (event.target as Element).closest<HTMLElement>("[data-explain]")?.dataset["explain"];
    if (term !== undefined) show(term);
  }
  onMount(() => {
    window.addEventListener("keydown", key);
    window.addEventListener("click", click);
  });
  onCleanup(() => {
    window.removeEventListener("keydown", key);
    window.removeEventListener("click", click);
  });
  return (
    <>
      <button type="button" class="word" title="F1" onClick={() => show("")}>
        {words.open}
      </button>
      <Suspense>
        <Show when={asked() !== null}>
          <Glossary asked={asked()} />
        </Show>
      </Suspense>
    </>
  );
}
