/** Keys that work anywhere, and the map of all keys, shown with `?`. */
import { createSignal, For, type JSX, onCleanup, onMount } from "solid-js";
import { keyMap, keyWords as words } from "../../words/en/keys.ts";
import { pageKeys } from "../../words/en/pages.ts";
import { goTo, openPage } from "./route.ts";

const settingKey = "glassdrum.singleKeys";
const [single, setSingle] = createSignal(localStorage.getItem(settingKey) !== "off");

export function Keys(): JSX.Element {
  let map!: HTMLDialogElement;
  function key(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || !single()) return;
    if (event.target instanceof Element && event.target.closest("input, select, textarea, dialog") !== null) return;
    const here = pageKeys.indexOf(openPage());
    const wanted = /^[1-9]$/.test(event.key)
      ? Number(event.key) - 1
      : event.key === "["
        ? here - 1
        : event.key === "]"
          ? here + 1
          : null;
    const page = wanted === null ? undefined : pageKeys[wanted];
    if (event.key === "?") map.showModal();
    else if (page !== undefined) goTo(page);
    else return;
    event.preventDefault();
  }
  onMount(() => window.addEventListener("keydown", key));
  onCleanup(() => window.removeEventListener("keydown", key));
  return (
    <>
      <button type="button" class="word" title="?" onClick={() => map.showModal()}>
        {words.open}
      </button>
      <dialog ref={map} class="keys" aria-labelledby="keys-title">
        <h2 id="keys-title">
          {words.title}{" "}
          <button type="button" class="word" onClick={() => map.close()}>
            {words.close}
          </button>
        </h2>
        <For each={keyMap}>
          {(group) => (
            <section>
              <h3>{group.where}</h3>
              <dl>
                <For each={group.keys}>
                  {({ key, does }) => (
                    <div>
                      <dt>{key}</dt>
                      <dd>{does}</dd>
                    </div>
                  )}
                </For>
              </dl>
            </section>
          )}
        </For>
        <label>
          <input
            type="checkbox"
            checked={single()}
            onChange={(event) => {
              setSingle(event.currentTarget.checked);
              localStorage.setItem(settingKey, event.currentTarget.checked ? "on" : "off");
            }}
          />{" "}
          {words.single}
        </label>
        <p class="aside">{words.singleHint}</p>
      </dialog>
    </>
  );
}
