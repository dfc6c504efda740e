/** The sheet that a figure is drawn on: its size, its type, what it says to those who can't see it. */
import type { Colors } from "./colors.ts";
import { mark } from "./marks.ts";

/** Room round the axes [px]. */
export const margins = { top: 28, right: 14, bottom: 42, left: 44 };
/** [px] */
export const fontSize = 12;

/**
 * An empty sheet of `width` by `height` [px].
 * Style stands in attributes only: a page's content security policy forbids style elements, and files need no page.
 */
export function sheet(
  document: Document,
  size: { readonly width: number; readonly height: number },
  { description, colors }: { readonly description: string; readonly colors: Colors },
): SVGSVGElement {
  return mark(document, "svg", {
    ...size,
    viewBox: `0 0 ${size.width} ${size.height}`,
    xmlns: "http://www.w3.org/2000/svg",
    "font-family": "Inter, sans-serif",
    "font-size": fontSize,
    "font-variant": "tabular-nums",
    fill: colors.ink,
    role: "img",
    "aria-label": description,
  });
}
