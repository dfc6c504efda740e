/** Where a response stays level. */
import { pow } from "../../numerics/power.ts";
import { type Curve, squaredIn } from "./curve.ts";

export interface Band {
  /** [Hz]; null: the response stays level down to, or up to, the end of what was computed. */
  readonly from: number | null;
  readonly to: number | null;
}

const pointsPerRange = 1600;

/**
 * Frequencies, next to the reference on either side, at which |S| leaves +-`within` [dB] of its level at `reference` [Hz].
 * Scanned at 1600 frequencies, or so many as given, half logarithmic and half linear, and those given besides (of narrow
 * peaks), then bisected to 1e-9.
 */
export function bandAround(
  curve: Curve,
  options: {
    readonly reference: number;
    readonly within: number;
    readonly points?: number;
    readonly besides?: readonly number[];
  },
): Band {
  const { reference, within, points = pointsPerRange, besides = [] } = options;
  const squaredAt = squaredIn(curve);
  const level = squaredAt(reference);
  const room = pow(10, within / 10);
  const isOff = (frequency: number) => {
    const squared = squaredAt(frequency);
    // Not a number is off as well.
    return !(squared <= level * room && squared * room >= level);
  };
  const edge = (end: number) => {
    const first = firstOff(isOff, { reference, end, points, besides });
    if (first === null) return null;
    let { inside, outside } = first;
    while (Math.abs(outside - inside) > 1e-9 * inside) {
      const middle = (inside + outside) / 2;
      if (isOff(middle)) outside = middle;
      else inside = middle;
    }
    return (inside + outside) / 2;
  };
  return { from: edge(curve.from), to: edge(curve.to) };
}

/** The first place that is off on the way from the reference to an end, and the one before it; null: none. */
function firstOff(
  isOff: (frequency: number) => boolean,
  given: {
    readonly reference: number;
    readonly end: number;
    readonly points: number;
    readonly besides: readonly number[];
  },
): { readonly inside: number; readonly outside: number } | null {
  const { reference, end, besides } = given;
  const half = Math.floor(given.points / 2);
  const rising = end > reference;
  const beyond = rising ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  const tops = besides
    .filter((top) => top > Math.min(reference, end) && top < Math.max(reference, end))
    .sort((a, b) => (rising ? a - b : b - a));
  const factor = pow(end / reference, 1 / half);
  const stride = (end - reference) / half;
  let inside = reference;
  // Three rows of places, each in its order, taken as one: in equal ratios, in equal steps, and those besides.
  let [ratio, ratios, steps, others] = [reference * factor, 1, 0, 0];
  for (let left = 2 * half + tops.length; left > 0; left--) {
    const inRatio = ratios < half ? ratio : ratios === half ? end : beyond;
    const inStep = steps < half ? reference + stride * (steps + 0.5) : beyond;
    const other = tops[others] ?? beyond;
    const next = rising ? Math.min(inRatio, inStep, other) : Math.max(inRatio, inStep, other);
    if (next === inRatio) {
      ratios++;
      ratio *= factor;
    } else if (next === inStep) steps++;
    else others++;
    if (isOff(next)) return { inside, outside: next };
    inside = next;
  }
  return null;
}
