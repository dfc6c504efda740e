/** Where a response stays level. */
import { equalRatios } from "../../numerics/power.ts";
import { type Curve, readCurve } from "./curve.ts";

export interface Band {
  /** [Hz]; null: the response stays level down to, or up to, the end of what was computed. */
  readonly from: number | null;
  readonly to: number | null;
}

const pointsPerRange = 1600;

/** Frequencies that are read at once: where the edge is found the rest is not asked. */
const atOnce = 100;

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
  const magnitude = (frequencies: Float64Array) => {
    const { re, im } = readCurve(curve, frequencies);
    return re.map((value, i) => Math.hypot(value, im[i]!));
  };
  const level = magnitude(Float64Array.of(reference))[0]!;
  const off = (size: number) => Math.abs(20 * Math.log10(size / level)) - within;
  const edge = (frequencies: Float64Array): number | null => {
    let sizes = new Float64Array(0);
    for (let i = 0; i < frequencies.length; i++) {
      const place = i % atOnce;
      if (place === 0) sizes = magnitude(frequencies.subarray(i, i + atOnce));
      if (off(sizes[place]!) <= 0) continue;
      let [inside, outside] = [i === 0 ? reference : frequencies[i - 1]!, frequencies[i]!];
      while (Math.abs(outside - inside) > 1e-9 * inside) {
        const middle = (inside + outside) / 2;
        if (off(magnitude(Float64Array.of(middle))[0]!) > 0) outside = middle;
        else inside = middle;
      }
      return (inside + outside) / 2;
    }
    return null;
  };
  const scanned = (end: number) => edge(ladder(reference, end, { points, besides }));
  return { from: scanned(curve.from), to: scanned(curve.to) };
}

/** Frequencies from one to another, without the first: half of them in equal ratios, half in equal steps, and those besides. */
function ladder(
  from: number,
  to: number,
  given: { readonly points: number; readonly besides: readonly number[] },
): Float64Array {
  const half = given.points / 2;
  const points = given.besides.filter((f) => f > Math.min(from, to) && f < Math.max(from, to));
  const ratios = equalRatios(from, to, half + 1);
  for (let i = 1; i <= half; i++) points.push(ratios[i]!, from + ((to - from) * (i - 0.5)) / half);
  // Numbers by themselves are sorted many times faster than by a rule.
  const rising = Float64Array.from(points).sort();
  return to > from ? rising : rising.reverse();
}
