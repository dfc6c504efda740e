/** The transfer curve with the operating point as a ring: dragged along it, or stepped by key; beside it step buttons. */
import { createEffect, createSignal, type JSX } from "solid-js";
import type { LightAnswer } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import type { Figure } from "../../figure/curveFigure.ts";
import { outputAt, sayTransfer, transferColumns, transferFigure } from "../../figure/lightFigures.ts";
import { lightWords as words } from "../../words/en/light.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";

export function TransferChart(props: {
  /** As it was drawn at rest, and as it is now. */
  readonly rested: LightAnswer;
  readonly now: LightAnswer;
  readonly outputs: "one" | "both";
  /** The bias as the project has it [degrees]. */
  readonly bias: number;
  readonly onGrab: () => void;
  readonly onDrag: (degrees: number) => void;
  readonly onRelease: () => void;
  readonly onStep: (degrees: number) => void;
}): JSX.Element {
  let place!: HTMLDivElement;
  let ring!: HTMLButtonElement;
  const [figure, setFigure] = createSignal<Figure | null>(null);
  createEffect(() => {
    const drawn = figure();
    const height = outputAt(props.now, props.outputs, props.bias);
    ring.hidden = drawn === null;
    if (drawn === null) return;
    const px = drawn.xScale.place(props.bias);
    const py = drawn.yScale.place(height);
    ring.hidden =
      px < drawn.frame.left - 1 ||
      px > drawn.frame.right + 1 ||
      py < drawn.frame.top - 1 ||
      py > drawn.frame.bottom + 1;
    ring.style.setProperty("left", `${px.toFixed(1)}px`);
    ring.style.setProperty("top", `${py.toFixed(1)}px`);
  });
  let holding = false;
  function down(event: PointerEvent): void {
    holding = true;
    ring.setPointerCapture(event.pointerId);
    props.onGrab();
  }
  function move(event: PointerEvent): void {
    const drawn = figure();
    if (!holding || drawn === null) return;
    const px = event.clientX - place.getBoundingClientRect().left;
    const degrees = drawn.xScale.value(Math.min(drawn.frame.right, Math.max(drawn.frame.left, px)));
    props.onDrag(Math.round(2 * degrees) / 2);
  }
  function up(): void {
    if (!holding) return;
    holding = false;
    props.onRelease();
  }
  const step = (by: number) => props.onStep(Math.round(props.bias + by));
  function key(event: KeyboardEvent): void {
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 15, PageDown: -15 }[event.key];
    if (by === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    step(event.shiftKey ? 10 * by : by);
  }
  return (
    <>
      <div class="with-ring" ref={place}>
        <Chart
          name={words.transfer}
          draw={(room) => transferFigure(props.rested, props.outputs, { ...room, height: 280, colors: pageColors })}
          live={null}
          say={sayTransfer}
          onDrawn={setFigure}
        />
        <button
          type="button"
          class="figure-ring bias-ring"
          ref={ring}
          role="slider"
          aria-label={words.ring}
          aria-valuemin={Math.round(props.bias) - 180}
          aria-valuemax={Math.round(props.bias) + 180}
          aria-valuenow={Math.round(10 * props.bias) / 10}
          aria-valuetext={`${Math.round(10 * props.bias) / 10}°`}
          onPointerDown={down}
          onPointerMove={move}
          onPointerUp={up}
          onPointerCancel={up}
          onKeyDown={key}
        />
      </div>
      <p class="bias-steps">
        <button type="button" onClick={() => step(-1)}>
          {words.less}
        </button>
        <button type="button" onClick={() => step(1)}>
          {words.more}
        </button>
      </p>
      <ChartTable caption={words.transfer} columns={transferColumns(props.rested, props.outputs)} />
    </>
  );
}
