/** The value of a dimension line: a click on it and it can be typed. */
import { createSignal, type JSX, Show } from "solid-js";
import { findPath } from "../../core/index.ts";
import { asGiven } from "../../words/asGiven.ts";
import { valueText } from "../shell/valueText.ts";
import { problemsAt, type Work } from "../shell/work.ts";

export function Dimension(props: {
  readonly bench: Work;
  readonly path: string;
  /** Before and after the value, left out where there is no room. */
  readonly before?: string;
  readonly after?: string;
  readonly x: number;
  readonly y: number;
  /** What lies at x: the middle of the value or its left end. */
  readonly anchor: "middle" | "start";
  readonly onTouch: () => void;
}): JSX.Element {
  const [typing, setTyping] = createSignal(false);
  let field: HTMLInputElement | undefined;
  let button: HTMLButtonElement | undefined;
  const draft = () => props.bench.drafts()[props.path];
  const wrong = () => draft() !== undefined || problemsAt(props.path, props.bench.failure()).length > 0;
  const label = () => {
    const found = findPath(props.path);
    return found.ok ? found.value.label : props.path;
  };
  // What was typed and refused stands in its field, and in the line of a person who types again.
  const shown = () => {
    const found = findPath(props.path);
    const value = found.ok ? found.value.read(props.bench.project()) : found;
    return found.ok && value.ok ? asGiven(value.value, found.value.kind) : "none";
  };
  const written = () =>
    [props.before, shown(), props.after].filter((part) => part !== undefined && part !== "").join(" ");
  const start = () => draft()?.text ?? valueText(props.bench.project(), props.path);

  function open(): void {
    props.onTouch();
    setTyping(true);
    field?.focus();
    field?.select();
  }
  function close(take: boolean, byKey: boolean): void {
    if (!typing()) return;
    const text = field?.value ?? "";
    setTyping(false);
    if (take && text !== start()) props.bench.type(props.path, text, { path: props.path, value: text }, true);
    // A click elsewhere has the focus already.
    if (byKey) button?.focus();
  }

  return (
    <div
      class="dimension"
      classList={{ wrong: wrong(), middle: props.anchor === "middle" }}
      data-dimension={props.path}
      style={{ left: `${props.x.toFixed(1)}px`, top: `${props.y.toFixed(1)}px` }}
    >
      <Show
        when={typing()}
        fallback={
          <button
            ref={(one) => {
              button = one;
            }}
            type="button"
            onClick={open}
            aria-label={`${written()}, ${label()}`}
          >
            {written()}
          </button>
        }
      >
        <input
          ref={(one) => {
            field = one;
          }}
          type="text"
          autocomplete="off"
          spellcheck={false}
          aria-label={label()}
          value={start()}
          onBlur={() => close(true, false)}
          onKeyDown={(event) => {
            if (event.key !== "Enter" && event.key !== "Escape") return;
            // Else the same key presses the button that takes the field's place.
            event.preventDefault();
            close(event.key === "Enter", true);
          }}
        />
      </Show>
    </div>
  );
}
