/** The few shapes that a figure is made of, as SVG elements: paths, circles, and a window that nothing stands out of. */
import type { Box } from "./labels.ts";

type Attributes = Readonly<Record<string, string | number>>;

const space = "http://www.w3.org/2000/svg";

/** An element with its attributes; numbers to a hundredth of a pixel. */
export function mark<Name extends keyof SVGElementTagNameMap>(
  document: Document,
  name: Name,
  attributes: Attributes,
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(space, name);
  for (const [key, value] of Object.entries(attributes))
    element.setAttribute(key, typeof value === "number" ? String(Number(value.toFixed(2))) : value);
  return element;
}

/** A group of one class. */
export function group(document: Document, attributes: Attributes, ...inside: readonly SVGElement[]): SVGGElement {
  const element = mark(document, "g", attributes);
  element.append(...inside);
  return element;
}

/** What lies outside the box is not seen; places inside keep their numbers. */
export function seenThrough(document: Document, box: Box, ...inside: readonly SVGElement[]): SVGSVGElement {
  const [width, height] = [Math.max(box.right - box.left, 0), Math.max(box.bottom - box.top, 0)];
  const view = `${box.left} ${box.top} ${width} ${height}`;
  const element = mark(document, "svg", { x: box.left, y: box.top, width, height, viewBox: view });
  element.append(...inside);
  return element;
}

/** Straight lines, all in one path. */
export const lines = (all: readonly (readonly [x1: number, y1: number, x2: number, y2: number])[]): string =>
  all.map(([x1, y1, x2, y2]) => `M${x1.toFixed(2)},${y1.toFixed(2)}L${x2.toFixed(2)},${y2.toFixed(2)}`).join("");
