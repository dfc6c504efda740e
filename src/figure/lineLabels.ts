/** Where a label fits along a line without covering another. */
import type { Box } from "./labels.ts";

type Place = { readonly x: number; readonly y: number };

export interface LineLabel extends Place {
  /** Degrees, clockwise; it is never upside down. */
  readonly turn: number;
  /** Room that it takes, upright though it may be turned: lines are seen to belong to their labels only with air between. */
  readonly box: Box;
}

/** Half of a text's height, and the air round it [px]. */
const half = 8;
/** Places to try after the first, as shares of the line. */
const others = [0.5, 0.35, 0.65, 0.2, 0.8, 0.12, 0.88];

/** null: it fits nowhere. `width`: of the text [px]; `first`: the share of the line to try first. */
export function alongLine(
  points: readonly Place[],
  given: { readonly width: number; readonly first: number; readonly frame: Box; readonly taken: readonly Box[] },
): LineLabel | null {
  const { width, first, frame, taken } = given;
  const along = [0];
  for (const [i, point] of points.entries())
    if (i > 0) along.push(along[i - 1]! + Math.hypot(point.x - points[i - 1]!.x, point.y - points[i - 1]!.y));
  const whole = along.at(-1) ?? 0;
  if (whole < 1.15 * width) return null;
  const at = (length: number): Place => {
    const i = Math.min(
      points.length - 1,
      Math.max(
        1,
        along.findIndex((one) => one >= length),
      ),
    );
    const [a, b] = [points[i - 1]!, points[i]!];
    const share = (length - along[i - 1]!) / Math.max(1e-9, along[i]! - along[i - 1]!);
    return { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
  };
  for (const share of [first, ...others]) {
    const middle = Math.min(whole - width / 2 - 2, Math.max(width / 2 + 2, share * whole));
    const [from, to] = [at(middle - width / 2), at(middle + width / 2)];
    // A text is straight: where the line is not, it would lie beside it.
    if (Math.hypot(to.x - from.x, to.y - from.y) < 0.93 * width) continue;
    const here = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    let turn = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
    if (turn > 90) turn -= 180;
    if (turn < -90) turn += 180;
    const box = {
      left: Math.min(from.x, to.x) - half,
      right: Math.max(from.x, to.x) + half,
      top: Math.min(from.y, to.y) - half,
      bottom: Math.max(from.y, to.y) + half,
    };
    const fits =
      box.left >= frame.left - 4 &&
      box.right <= frame.right + 4 &&
      box.top >= frame.top - 4 &&
      box.bottom <= frame.bottom &&
      taken.every((o) => o.right < box.left || o.left > box.right || o.bottom < box.top || o.top > box.bottom);
    if (fits) return { ...here, turn, box };
  }
  return null;
}
