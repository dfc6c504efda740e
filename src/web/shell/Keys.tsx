/** Keys that work anywhere, and the map of all keys, shown with `?`. */
import { createSignal, type JSX, lazy, onCleanup, onMount, Show, Suspense } from "solid-js";
import { pageKeys } from "../../words/en/pages.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import { goTo, openPage } from "./route.ts";

const settingKey = "glassdrum.singleKeys";
const [single, setSingle] = createSignal(localStorage.getItem(settingKey) !== "off");

/** Comes when it is first asked for. */
const KeyMap = lazy(() => import("./KeyMap.tsx").then(({ KeyMap }) => ({ default: KeyMap })));

function keepSingle(wanted: boolean): void {
  setSingle(wanted);
  localStorage.setItem(settingKey, wanted ? "on" : "off");
}

export function Keys(): JSX.Element {
  /** Times the map was asked for. */
  const [asked, setAsked] = createSignal(0);
  const show = () => setAsked(asked() + 1);
  function key(event: KeyboardEvent): void {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || !single()) return;
    // A dialog that has just closed keeps the focus until the next frame: keys are the page's again at once.
    if (event.target instanceof Element && event.target.closest("input, select, textarea, dialog[open]") !== null)
      return;
    const here = pageKeys.indexOf(openPage());
    const wanted = /^[1-9]$/.test(event.key)
      ? Number(event.key) - 1
      : event.key === "["
        ? here - 1
        : event.key === "]"
          ? here + 1
          : null;
    const page = wanted === null ? undefined : pageKeys[wanted];
    if (event.key === "?") show();
    else if (page !== undefined) goTo(page);
    else return;
    event.preventDefault();
  }
  onMount(() => window.addEventListener("keydown", key));
  onCleanup(() => window.removeEventListener("keydown", key));
  return (
    <>
      <button type="button" class="word" title="?" onClick={() => show()}>
        {words.keys}
      </button>
      <Suspense>
        <Show when={asked() > 0}>
          <KeyMap asked={asked()} single={single()} setSingle={keepSingle} />
        </Show>
      </Suspense>
    </>
  );
}
