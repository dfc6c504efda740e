/** The solid body on the page: turned by drag or by arrow keys. */
import { createEffect, createSignal, type JSX, onCleanup, onMount, untrack } from "solid-js";
import type { Field } from "../../core/index.ts";
import { motionWords as words } from "../../words/en/motion.ts";
import { paper } from "../shell/paper.ts";
import type { Body } from "./body.ts";
import { atPhase, type ColorOf, colorAt, colored, drawnShare, paperInk, paperScale } from "./moment.ts";

export function BodyView(props: {
  readonly field: Field;
  /** [degrees] */
  readonly phase: number;
  readonly color: ColorOf;
  readonly peak: number;
  readonly colorPeak: number;
  readonly turn: number;
  readonly tilt: number;
  readonly cut: number | null;
  readonly says: string;
  readonly onTurn: (turn: number, tilt: number) => void;
  readonly onRun: () => void;
  readonly onMissing: () => void;
}): JSX.Element {
  let canvas!: HTMLCanvasElement;
  const [body, setBody] = createSignal<Body | null>(null);
  let ended = false;

  function draw(): void {
    const drawn = body();
    if (drawn === null) return;
    const { field, phase, color, peak, colorPeak, turn, tilt, cut } = props;
    const radians = (phase * Math.PI) / 180;
    const scale = paperScale(canvas);
    // Down is into the device.
    const heights = atPhase(field.deflection, radians).map((value) => (-drawnShare * value) / (peak || 1));
    const shown = atPhase(colored(field, color), radians);
    const colors = Array.from(shown, (value) => colorAt(scale, value / (colorPeak || 1)));
    const aspect = field.along / field.across;
    drawn.draw({ points: field.points, aspect, heights, colors, turn, tilt, cut, ink: paperInk(canvas) });
  }
  onMount(async () => {
    const { createBody } = await import("./body.ts");
    if (ended) return;
    const made = createBody(canvas);
    if (made === null) return props.onMissing();
    const observer = new ResizeObserver(() => {
      made.resize(canvas.clientWidth, canvas.clientHeight);
      setBody(made);
      untrack(draw);
    });
    observer.observe(canvas);
    onCleanup(() => observer.disconnect());
  });
  createEffect(() => {
    paper();
    draw();
  });
  onCleanup(() => {
    ended = true;
    body()?.end();
  });

  let from: { x: number; y: number } | null = null;
  function move(event: PointerEvent): void {
    if (from === null) return;
    props.onTurn(-(event.clientX - from.x) / 2, (event.clientY - from.y) / 2);
    from = { x: event.clientX, y: event.clientY };
  }
  function key(event: KeyboardEvent): void {
    const by = event.shiftKey ? 15 : 5;
    const turns: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-by, 0],
      ArrowRight: [by, 0],
      ArrowUp: [0, by],
      ArrowDown: [0, -by],
    };
    const turn = turns[event.key];
    if (turn !== undefined) props.onTurn(...turn);
    else if (event.key === " ") props.onRun();
    else return;
    event.preventDefault();
  }
  return (
    <canvas
      ref={canvas}
      class="body"
      role="img"
      tabindex="0"
      aria-label={`${props.says} ${words.bodyKeys}`}
      onPointerDown={(event) => {
        from = { x: event.clientX, y: event.clientY };
        canvas.setPointerCapture(event.pointerId);
      }}
      onPointerMove={move}
      onPointerUp={() => {
        from = null;
      }}
      onKeyDown={key}
    />
  );
}
