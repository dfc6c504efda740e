/** Undo, redo, and the list of earlier projects. */
import { For, type JSX, onCleanup, onMount } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import { useWork } from "./work.ts";

export function Past(): JSX.Element {
  const work = useWork();
  let list!: HTMLDetailsElement;
  const entries = () => work.history.entries();
  const index = () => work.history.index();
  const go = (to: number) => {
    if (to >= 0 && to < entries().length) work.go(to);
  };
  function key(event: KeyboardEvent): void {
    if (event.key === "Escape") list.open = false;
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return;
    event.preventDefault();
    // What is half typed is undone first, by leaving it.
    if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
    go(index() + (event.shiftKey ? 1 : -1));
  }
  function elsewhere(event: PointerEvent): void {
    if (list.open && event.target instanceof Node && !list.contains(event.target)) list.open = false;
  }
  onMount(() => {
    window.addEventListener("keydown", key);
    window.addEventListener("pointerdown", elsewhere);
  });
  onCleanup(() => {
    window.removeEventListener("keydown", key);
    window.removeEventListener("pointerdown", elsewhere);
  });
  return (
    <>
      <button type="button" title="Ctrl+Z" disabled={index() === 0} onClick={() => go(index() - 1)}>
        {words.undo}
      </button>
      <button
        type="button"
        title="Ctrl+Shift+Z"
        disabled={index() === entries().length - 1}
        onClick={() => go(index() + 1)}
      >
        {words.redo}
      </button>
      <details ref={list} class="past">
        <summary>{words.past}</summary>
        <ol>
          <For each={entries()}>
            {(entry, i) => (
              <li>
                <button
                  type="button"
                  class="word"
                  aria-current={i() === index() ? "step" : undefined}
                  onClick={() => go(i())}
                >
                  {entry.says}
                </button>
              </li>
            )}
          </For>
        </ol>
      </details>
    </>
  );
}
