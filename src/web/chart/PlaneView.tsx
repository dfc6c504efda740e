/** The plane drawn for its width, with the design as a ring that is dragged or moved by arrow keys. */
import { createEffect, createSignal, type JSX, onCleanup, onMount } from "solid-js";
import type { ChartPlane } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { type PlaneFigure, planeFigure } from "../../figure/planeFigure.ts";
import type { PlaneLines } from "../../figure/planeLines.ts";
import { chartWords as words } from "../../words/en/chartPage.ts";

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export function PlaneView(props: {
  readonly plane: ChartPlane;
  readonly lines: PlaneLines;
  /** Kept designs, where they lie [SI]. */
  readonly kept: readonly (Spot & { readonly name: string })[];
  /** Where the design is [SI]. */
  readonly here: Spot | null;
  readonly onGrab: () => void;
  readonly onDrag: (spot: Spot) => void;
  readonly onRelease: () => void;
  readonly onStep: (spot: Spot) => void;
}): JSX.Element {
  let place!: HTMLDivElement;
  let ring!: HTMLButtonElement;
  const [width, setWidth] = createSignal(0);
  const [figure, setFigure] = createSignal<PlaneFigure | null>(null);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  createEffect(() => {
    if (width() <= 0) return;
    const drawn = planeFigure({
      plane: props.plane,
      lines: props.lines,
      kept: props.kept,
      document,
      width: width(),
      height: Math.round(Math.min(620, Math.max(340, 0.66 * width()))),
      colors: pageColors,
    });
    place.replaceChildren(drawn.svg);
    setFigure(drawn);
  });
  createEffect(() => {
    const [drawn, here] = [figure(), props.here];
    ring.hidden = drawn === null || here === null;
    if (drawn === null || here === null) return;
    const at = drawn.placeOf(here.x, here.y);
    const { frame } = drawn;
    ring.hidden = at.x < frame.left - 1 || at.x > frame.right + 1 || at.y < frame.top - 1 || at.y > frame.bottom + 1;
    ring.style.setProperty("left", `${at.x}px`);
    ring.style.setProperty("top", `${at.y}px`);
  });

  const spotOf = (event: PointerEvent): Spot | null => {
    const drawn = figure();
    if (drawn === null) return null;
    const outer = place.getBoundingClientRect();
    const { frame } = drawn;
    const x = Math.min(frame.right, Math.max(frame.left, event.clientX - outer.left));
    const y = Math.min(frame.bottom, Math.max(frame.top, event.clientY - outer.top));
    return drawn.valueAt(x, y);
  };
  let holding = false;
  function down(event: PointerEvent): void {
    holding = true;
    ring.setPointerCapture(event.pointerId);
    props.onGrab();
  }
  function move(event: PointerEvent): void {
    const spot = holding ? spotOf(event) : null;
    if (spot !== null) props.onDrag(spot);
  }
  function up(): void {
    if (!holding) return;
    holding = false;
    props.onRelease();
  }
  function key(event: KeyboardEvent): void {
    const { here } = props;
    if (here === null) return;
    // A hundredth of the axis, with Shift a tenth.
    const share = event.shiftKey ? 0.1 : 0.01;
    const step = {
      x: (props.plane.x.to / props.plane.x.from) ** share,
      y: (props.plane.y.to / props.plane.y.from) ** share,
    };
    const moves: Readonly<Record<string, Spot>> = {
      ArrowRight: { x: here.x * step.x, y: here.y },
      ArrowLeft: { x: here.x / step.x, y: here.y },
      ArrowUp: { x: here.x, y: here.y * step.y },
      ArrowDown: { x: here.x, y: here.y / step.y },
    };
    const next = moves[event.key];
    if (next === undefined) return;
    event.preventDefault();
    props.onStep(next);
  }
  return (
    <div class="plane">
      <div class="plane-figure" ref={place} />
      <button
        type="button"
        class="figure-ring plane-ring"
        ref={ring}
        aria-label={words.handle}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
        onKeyDown={key}
      />
    </div>
  );
}
