/** The part of a plane where there is no such microphone: hatched, with its name in it where there is room. */
import type { Colors } from "./colors.ts";
import { type Box, textWidth } from "./labels.ts";
import { mark } from "./marks.ts";

type Ring = readonly { readonly x: number; readonly y: number }[];

const hatch = "plane-without";

/** The hatched area [px]; nothing where there are no rings. */
export function withoutMarks(document: Document, rings: readonly Ring[], colors: Colors): readonly SVGElement[] {
  if (rings.length === 0) return [];
  const pattern = mark(document, "pattern", {
    id: hatch,
    width: 8,
    height: 8,
    patternUnits: "userSpaceOnUse",
    patternTransform: "rotate(45)",
  });
  pattern.append(mark(document, "path", { d: "M0 0V8", stroke: colors.soft, "stroke-opacity": 0.4, fill: "none" }));
  const d = rings.map((ring) => `M${ring.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join("L")}Z`).join("");
  return [
    pattern,
    mark(document, "path", { class: "without", d, fill: `url(#${hatch})`, "fill-rule": "evenodd", stroke: "none" }),
  ];
}

/** Middle of a text that lies inside one of the areas and on nothing that is there already; null: no room. */
export function roomWithin(rings: readonly Ring[], said: string, fontSize: number, taken: readonly Box[]) {
  const [wide, high] = [textWidth(said, fontSize) / 2 + 4, 0.8 * fontSize];
  const tries = 12;
  let best: { readonly x: number; readonly y: number; readonly air: number } | null = null;
  for (const ring of rings) {
    const [xs, ys] = [ring.map(({ x }) => x), ring.map(({ y }) => y)];
    const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    for (let k = 1; k < tries * tries; k++) {
      const x = left + ((right - left) * (k % tries)) / tries;
      const y = top + ((bottom - top) * Math.floor(k / tries)) / tries;
      const box = { left: x - wide, right: x + wide, top: y - high, bottom: y + high };
      const corners = [box.left, x, box.right].flatMap((px) => [box.top, box.bottom].map((py) => ({ x: px, y: py })));
      if (!corners.every((corner) => encloses(ring, corner))) continue;
      if (taken.some((o) => o.right > box.left && o.left < box.right && o.bottom > box.top && o.top < box.bottom))
        continue;
      // Where it lies farthest from the rim.
      const air = Math.min(
        ...corners.map((corner) => Math.min(...ring.map((p) => Math.hypot(p.x - corner.x, p.y - corner.y)))),
      );
      if (best === null || air > best.air) best = { x, y, air };
    }
  }
  return best;
}

/** Counts the sides that a ray to the right crosses. */
function encloses(ring: Ring, { x, y }: { readonly x: number; readonly y: number }): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [a, b] = [ring[i]!, ring[j]!];
    if (a.y > y !== b.y > y && x < ((b.x - a.x) * (y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}
