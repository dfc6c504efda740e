/** The part of a record that is used, between two lines over its picture: dragged, or stepped with the arrow keys. */
import { createSignal, type JSX, Show } from "solid-js";
import { formatQuantity, type RecordAnswer } from "../../core/index.ts";
import type { Figure } from "../../figure/curveFigure.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { changed, type LaidRecord } from "./table.ts";

type End = "from" | "to";

export function Marks(props: {
  readonly record: LaidRecord;
  readonly picture: NonNullable<RecordAnswer["picture"]>;
  readonly figure: Figure;
}): JSX.Element {
  /** Where a hand holds a line. */
  const [held, setHeld] = createSignal<{ readonly end: End; readonly value: number } | null>(null);
  const ends = () => {
    const { x } = props.picture;
    return { from: x[0] ?? 0, to: x.at(-1) ?? 1 };
  };
  const value = (end: End) => {
    const now = held();
    return now?.end === end ? now.value : (props.record.options[end] ?? ends()[end]);
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
    const whole = settled === ends()[end];
    const { [end]: _, ...rest } = props.record.options;
    changed(props.record.id, { options: whole ? rest : { ...rest, [end]: settled } });
  }
  const place = (end: End) => {
    const { left, right } = props.figure.frame;
    return Math.min(Math.max(props.figure.xScale.place(value(end)), left), right);
  };
  const kind = () => (props.picture.axis === "frequency" ? "frequency" : "time");
  const said = (end: End) => formatQuantity(value(end), kind(), { digits: 5 });

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
