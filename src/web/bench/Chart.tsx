/**
 * A chart drawn for the room it has. It is drawn anew at rest only; under a hand its curve moves along axes that stand still.
 * Read by pointer or arrow keys, zoomed by a box, by + and − or by the wheel where it has the focus.
 */
import { createEffect, createMemo, createSignal, type JSX, on, onCleanup, onMount, Show } from "solid-js";
import type { Figure } from "../../figure/curveFigure.ts";
import type { View } from "../../figure/curveInput.ts";
import type { Points } from "../../figure/responseFigures.ts";
import { benchWords as words } from "../../words/en/bench.ts";

export interface ChartRoom {
  readonly document: Document;
  readonly width: number;
  readonly view: View | undefined;
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Least size of a zoom box [px]. */
const leastBox = 8;

export function Chart(props: {
  readonly name: string;
  readonly draw: (room: ChartRoom) => Figure;
  /** Where the curve is now; null: as drawn. */
  readonly live: Points | null;
  /** A point that a hand moves along; null: none. What was written at the old one goes until the next drawing. */
  readonly point?: { readonly x: number; readonly y: number } | null;
  readonly say: (x: number, y: number | null) => string;
  /** What lies over the drawing and goes along with its axes. */
  readonly over?: (figure: () => Figure) => JSX.Element;
  /** Hears of each drawing: for a handle that keeps the focus while the chart is drawn anew. */
  readonly onDrawn?: (figure: Figure) => void;
}): JSX.Element {
  let place!: HTMLDivElement;
  let box!: HTMLDivElement;
  let cross!: HTMLDivElement;
  let dot!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  const [view, setView] = createSignal<View | undefined>();
  const [read, setRead] = createSignal<number | null>(null);
  const [figure, setFigure] = createSignal<Figure | null>(null);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  createEffect(() => {
    if (width() <= 0) return;
    const drawn = props.draw({ document, width: width(), view: view() });
    place.replaceChildren(drawn.svg);
    setFigure(drawn);
    props.onDrawn?.(drawn);
  });
  createEffect(
    on(
      () => props.live,
      (points) => {
        if (points !== null) figure()?.move(points.x, points.y);
      },
    ),
  );
  createEffect(() => {
    const [drawn, point] = [figure(), props.point ?? null];
    const [px, py] =
      drawn === null || point === null ? [0, 0] : [drawn.xScale.place(point.x), drawn.yScale.place(point.y)];
    const seen =
      drawn !== null &&
      point !== null &&
      px >= drawn.frame.left &&
      px <= drawn.frame.right &&
      py >= drawn.frame.top &&
      py <= drawn.frame.bottom;
    dot.hidden = !seen;
    if (drawn === null || point === null) return;
    drawn.move(drawn.curve.x, drawn.curve.y);
    dot.style.setProperty("transform", `translate(${px.toFixed(1)}px, ${py.toFixed(1)}px)`);
  });
  const points = createMemo<Points>(() => props.live ?? figure()?.curve ?? { x: [], y: [] });
  const said = () => {
    const i = read();
    const x = i === null ? undefined : points().x[i];
    return i === null || x === undefined ? "" : props.say(x, points().y[i] ?? null);
  };
  createEffect(() => {
    const [i, drawn] = [read(), figure()];
    const x = i === null ? undefined : points().x[i];
    const y = i === null ? undefined : points().y[i];
    const shown = drawn !== null && x !== undefined && y !== null && y !== undefined;
    cross.hidden = !shown;
    if (!shown) return;
    const px = drawn.xScale.place(x);
    const py = drawn.yScale.place(y);
    cross.hidden = !(px >= drawn.frame.left - 1 && px <= drawn.frame.right + 1);
    cross.style.setProperty("left", `${px}px`);
    cross.style.setProperty("top", `${drawn.frame.top}px`);
    cross.style.setProperty("height", `${drawn.frame.bottom - drawn.frame.top}px`);
    cross.style.setProperty(
      "--dot",
      `${Math.min(Math.max(py, drawn.frame.top), drawn.frame.bottom) - drawn.frame.top}px`,
    );
  });

  /** The point of the curve nearest to a place across. */
  function nearest(px: number): number | null {
    const drawn = figure();
    if (drawn === null) return null;
    let best: number | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const [i, x] of points().x.entries()) {
      const away = Math.abs(drawn.xScale.place(x) - px);
      if (away < least) [best, least] = [i, away];
    }
    return best;
  }
  const placeOf = (event: MouseEvent): Place => {
    const outer = place.getBoundingClientRect();
    return { x: event.clientX - outer.left, y: event.clientY - outer.top };
  };

  let from: Place | null = null;
  function down(event: PointerEvent): void {
    if (event.button !== 0 || event.pointerType === "touch") return;
    from = placeOf(event);
    place.setPointerCapture(event.pointerId);
  }
  function move(event: PointerEvent): void {
    const to = placeOf(event);
    setRead(nearest(to.x));
    if (from === null) return;
    box.hidden = Math.abs(to.x - from.x) < leastBox;
    box.style.setProperty("left", `${Math.min(from.x, to.x)}px`);
    box.style.setProperty("width", `${Math.abs(to.x - from.x)}px`);
    box.style.setProperty("top", `${Math.min(from.y, to.y)}px`);
    box.style.setProperty("height", `${Math.abs(to.y - from.y)}px`);
  }
  function up(event: PointerEvent): void {
    const [start, to, drawn] = [from, placeOf(event), figure()];
    from = null;
    box.hidden = true;
    if (start === null || drawn === null || Math.abs(to.x - start.x) < leastBox) return;
    const { frame, xScale, yScale } = drawn;
    const inside = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);
    const across = [start.x, to.x].map((px) => xScale.value(inside(px, frame.left, frame.right))).sort((a, b) => a - b);
    const flat = Math.abs(to.y - start.y) < leastBox;
    const up = [start.y, to.y].map((py) => yScale.value(inside(py, frame.top, frame.bottom))).sort((a, b) => a - b);
    const [left = 0, right = 0] = across;
    const [low = 0, high = 0] = up;
    if (right > left) setView({ ...view(), x: [left, right], ...(flat || high <= low ? {} : { y: [low, high] }) });
  }
  /** Makes the axis `by` times as long around a place. */
  function zoom(by: number, px: number): void {
    const drawn = figure();
    if (drawn === null) return;
    const { frame, xScale } = drawn;
    const middle = Math.min(Math.max(px, frame.left), frame.right);
    const ends = [frame.left, frame.right].map((end) => xScale.value(middle + (end - middle) / by));
    const [left = 0, right = 0] = ends;
    const whole = points().x;
    const [first, last] = [Math.min(...whole), Math.max(...whole)];
    const [low, high] = [Math.max(left, first), Math.min(right, last)];
    if (low <= first && high >= last) setView(undefined);
    else if (high > low) setView({ ...view(), x: [low, high] });
  }
  function wheel(event: WheelEvent): void {
    // A page that scrolls must not stop at each chart.
    if (document.activeElement !== place && !event.ctrlKey) return;
    event.preventDefault();
    zoom(event.deltaY < 0 ? 1.25 : 0.8, placeOf(event).x);
  }
  function key(event: KeyboardEvent): void {
    const drawn = figure();
    if (drawn === null || event.ctrlKey || event.metaKey || event.altKey) return;
    const count = points().x.length;
    const steps: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowLeft: -1, PageUp: 20, PageDown: -20 };
    const step = steps[event.key];
    const present = read() ?? nearest((drawn.frame.left + drawn.frame.right) / 2) ?? 0;
    if (step !== undefined) {
      const by = step * (event.shiftKey ? 10 : 1);
      setRead(read() === null ? present : Math.min(Math.max(present + by, 0), count - 1));
    } else if (event.key === "Home" || event.key === "End") setRead(event.key === "Home" ? 0 : count - 1);
    else if (event.key === "+" || event.key === "=") zoom(1.5, drawn.xScale.place(points().x[present] ?? 0));
    else if (event.key === "-" || event.key === "−") zoom(1 / 1.5, drawn.xScale.place(points().x[present] ?? 0));
    else if (event.key === "0" || event.key === "Escape") setView(undefined);
    else return;
    event.preventDefault();
  }

  return (
    <div class="chart">
      {/* biome-ignore lint/a11y/useSemanticElements: no element is a drawing that can be read along */}
      <div
        ref={place}
        class="plot"
        role="group"
        tabindex="0"
        aria-label={`${props.name}. ${words.chartKeys}`}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerLeave={() => from === null && document.activeElement !== place && setRead(null)}
        onDblClick={() => setView(undefined)}
        on:wheel={{ handleEvent: wheel, passive: false }}
        onKeyDown={key}
        onBlur={() => setRead(null)}
      />
      <div ref={cross} class="cross" hidden />
      <div ref={dot} class="moving-point" hidden />
      <Show when={props.over !== undefined && figure()}>{(drawn) => props.over?.(drawn)}</Show>
      <div ref={box} class="zoom-box" hidden />
      <p class="readout">
        {/* Before what is read, which goes when the chart loses the focus: the word must not move away under a click. */}
        <Show when={view() !== undefined}>
          <button type="button" class="word" onClick={() => setView(undefined)}>
            {words.wholeChart}
          </button>
        </Show>
        <output>{said()}</output>
      </p>
    </div>
  );
}
