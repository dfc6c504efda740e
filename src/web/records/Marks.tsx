/** The part that is used, between two lines over a picture: dragged, or stepped with the arrow keys. */
import { createSignal, type JSX, Show } from "solid-js";
import { formatQuantity } from "../../core/index.ts";
import type { Figure } from "../../figure/curveFigure.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { changed, type LaidRecord } from "./table.ts";

type End = "from" | "to";

/** Which options the two lines set: the part that a fit uses, or the time that a response is taken from. */
export type Marked = Readonly<Record<End, "from" | "to" | "since" | "until">>;
export const markedUse: Marked = { from: "from", to: "to" };
export const markedTime: Marked = { from: "since", to: "until" };

export function Marks(props: {
  readonly record: LaidRecord;
  readonly marked: Marked;
  readonly axis: "time" | "frequency";
  /** Places of the points, ascending. */
  readonly x: readonly number[];
  /** What the fit chose where nothing was told. */
  readonly found: Readonly<Record<End, number>> | null;
  readonly figure: Figure;
}): JSX.Element {
  /** Where a hand holds a line. */
  const [held, setHeld] = createSignal<{ readonly end: End; readonly value: number } | null>(null);
  const ends = () => {
    const { x } = props;
    return { from: Math.min(x[0] ?? 0, x.at(-1) ?? 1), to: Math.max(x[0] ?? 0, x.at(-1) ?? 1) };
  };
  const value = (end: End) => {
    const now = held();
    return now?.end === end
      ? now.value
      : (props.record.options[props.marked[end]] ?? props.found?.[end] ?? ends()[end]);
  };
  /** Inside the record, and the two never past each other. */
  const inside = (end: End, wanted: number) => {
    const { from, to } = ends();
    const least = (to - from) / 1000;
    return end === "from"
      ? Math.min(Math.max(wanted, from), value("to") - least)
      : Math.max(Math.min(wanted, to), value("from") + least);
  };
  function set(end: End, wanted: number): void {
    const settled = inside(end, wanted);
    // At the end of the record nothing is told; but of what a fit chose, its own end is another one.
    const whole = settled === ends()[end] && props.found === null;
    const key = props.marked[end];
    const other = end === "from" ? "to" : "from";
    const kept = props.found === null ? {} : { [props.marked[other]]: value(other) };
    const { [key]: _, ...rest } = props.record.options;
    changed(props.record.id, { options: whole ? rest : { ...kept, ...rest, [key]: settled } });
  }
  const place = (end: End) => {
    const { left, right } = props.figure.frame;
    return Math.min(Math.max(props.figure.xScale.place(value(end)), left), right);
  };
  const said = (end: End) => formatQuantity(value(end), props.axis, { digits: 5 });

  function key(end: End, event: KeyboardEvent): void {
    const { from, to } = ends();
    const step = ((to - from) / 200) * (event.shiftKey ? 10 : 1);
    const by: Readonly<Record<string, number>> = {
      ArrowRight: step,
      ArrowUp: step,
      ArrowLeft: -step,
      ArrowDown: -step,
      PageUp: 10 * step,
      PageDown: -10 * step,
    };
    const move = by[event.key];
    if (move !== undefined) set(end, value(end) + move);
    else if (event.key === "Home" || event.key === "End") set(end, event.key === "Home" ? from : to);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  function grab(end: End, event: PointerEvent & { readonly currentTarget: HTMLElement }): void {
    if (event.button !== 0) return;
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    setHeld({ end, value: value(end) });
  }
  function drag(end: End, event: PointerEvent & { readonly currentTarget: HTMLElement }): void {
    if (held()?.end !== end) return;
    const left = event.currentTarget.parentElement!.getBoundingClientRect().left;
    setHeld({ end, value: inside(end, props.figure.xScale.value(event.clientX - left)) });
  }
  function release(end: End): void {
    const now = held();
    setHeld(null);
    if (now?.end === end) set(end, now.value);
  }
  const line = (end: End) => (
    // biome-ignore lint/a11y/useFocusableInteractive: it has tabindex, which the rule looks for in another spelling
    <div
      class="mark"
      classList={{ "mark-to": end === "to" }}
      role="slider"
      tabindex="0"
      data-mark={end}
      aria-label={end === "from" ? words.markFrom : words.markTo}
      aria-valuemin={ends().from}
      aria-valuemax={ends().to}
      aria-valuenow={value(end)}
      aria-valuetext={said(end)}
      title={`${end === "from" ? words.markFrom : words.markTo}: ${said(end)}`}
      style={{
        left: `${place(end)}px`,
        top: `${props.figure.frame.top}px`,
        height: `${props.figure.frame.bottom - props.figure.frame.top}px`,
      }}
      onKeyDown={(event) => key(end, event)}
      onPointerDown={(event) => grab(end, event)}
      onPointerMove={(event) => drag(end, event)}
      onPointerUp={() => release(end)}
      onPointerCancel={() => setHeld(null)}
    >
      <Show when={held()?.end === end}>
        <span class="mark-value">{said(end)}</span>
      </Show>
    </div>
  );
  const shade = (from: number, to: number) => ({
    left: `${from}px`,
    width: `${Math.max(0, to - from)}px`,
    top: `${props.figure.frame.top}px`,
    height: `${props.figure.frame.bottom - props.figure.frame.top}px`,
  });
  return (
    <>
      <div class="unused" style={shade(props.figure.frame.left, place("from"))} />
      <div class="unused" style={shade(place("to"), props.figure.frame.right)} />
      {line("from")}
      {line("to")}
    </>
  );
}
