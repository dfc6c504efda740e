/** A ring that can be dragged, and stepped by key: the only thing in the accent color. */
import { createMemo, type JSX } from "solid-js";
import { findPath, formatQuantity } from "../../core/index.ts";
import { problemsAt, type Work } from "../shell/work.ts";
import { type Grip, rounded, stepped } from "./grips.ts";

const keys: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

export function Ring(props: {
  readonly bench: Work;
  readonly grip: Grip;
  readonly x: number;
  readonly y: number;
  readonly onTouch: () => void;
}): JSX.Element {
  const field = createMemo(() => {
    const found = findPath(props.grip.path);
    return found.ok ? found.value : null;
  });
  const value = createMemo(() => {
    const read = field()?.read(props.bench.project());
    return read?.ok === true ? read.value : 0;
  });
  const wrong = () => problemsAt(props.grip.path, props.bench.failure()).length > 0;
  let start: { x: number; y: number; value: number; grip: Grip } | null = null;

  function take(event: PointerEvent & { currentTarget: SVGGElement }): void {
    if (event.button !== 0) return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus();
    start = { x: event.clientX, y: event.clientY, value: value(), grip: props.grip };
    props.onTouch();
    // A finger comes without having hovered.
    void props.bench.expectHand(props.grip.path);
    props.bench.grab();
  }
  function move(event: PointerEvent): void {
    if (start === null) return;
    const { perPixel } = start.grip;
    const wanted = start.value + (event.clientX - start.x) * perPixel.x + (event.clientY - start.y) * perPixel.y;
    props.bench.drag(start.grip.path, rounded(wanted, start.grip));
  }
  function leave(): void {
    if (start === null) return;
    start = null;
    props.bench.release();
  }
  function press(event: KeyboardEvent): void {
    const steps = keys[event.key];
    const end = event.key === "Home" ? props.grip.least : event.key === "End" ? props.grip.most : null;
    if (steps === undefined && end === null) return;
    event.preventDefault();
    props.onTouch();
    props.bench.step(props.grip.path, end ?? stepped(value(), (steps ?? 0) * (event.shiftKey ? 10 : 1), props.grip));
  }

  return (
    <g
      class="ring"
      classList={{ wrong: wrong(), flat: props.grip.perPixel.y === 0 }}
      role="slider"
      tabindex="0"
      data-grip={props.grip.path}
      aria-label={field()?.label}
      aria-orientation={props.grip.perPixel.y === 0 ? "horizontal" : "vertical"}
      aria-valuemin={props.grip.least}
      aria-valuemax={props.grip.most}
      aria-valuenow={value()}
      aria-valuetext={formatQuantity(value(), field()?.kind ?? "number")}
      transform={`translate(${props.x.toFixed(2)} ${props.y.toFixed(2)})`}
      onPointerEnter={() => void props.bench.expectHand(props.grip.path)}
      onPointerDown={take}
      onPointerMove={move}
      onPointerUp={leave}
      onPointerCancel={leave}
      onLostPointerCapture={leave}
      onKeyDown={press}
    >
      <circle class="reach" r="17" />
      <circle class="rim" r="6.5" />
    </g>
  );
}
