/** A figure drawn for the width that it has; nothing in it is moved by hand. */
import { createEffect, createSignal, type JSX, onCleanup, onMount } from "solid-js";
import { pageColors } from "../../figure/colors.ts";
import type { FigureRoom } from "../../figure/responseFigures.ts";

export function FigureOf(props: {
  readonly draw: (room: FigureRoom) => { readonly svg: SVGSVGElement };
  /** Height for a width [px]; 0.55 of it, 220 to 420, where absent. */
  readonly height?: (width: number) => number;
}): JSX.Element {
  let place!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  createEffect(() => {
    const wide = width();
    if (wide <= 0) return;
    const height = props.height?.(wide) ?? Math.round(Math.min(420, Math.max(220, 0.55 * wide)));
    place.replaceChildren(props.draw({ document, width: wide, height, colors: pageColors }).svg);
  });
  return <div class="figure-of" ref={place} />;
}
