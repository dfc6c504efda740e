/** Where a response stays level. */
import { equalRatios, pow } from "../../numerics/power.ts";
import { squaredAt } from "../../numerics/rational.ts";
import type { Curve } from "./curve.ts";

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
  { rational, from, to }: Curve,
  options: {
    readonly reference: number;
    readonly within: number;
    readonly points?: number;
    readonly besides?: readonly number[];
  },
): Band {
  const { reference, within, points = pointsPerRange, besides = [] } = options;
  const level = squaredAt(rational, reference);
  const room = pow(10, within / 10);
  const isOff = (frequency: number) => {
    const squared = squaredAt(rational, frequency);
    // Not a number is off as well.
    return !(squared <= level * room && squared * room >= level);
  };
  const edge = (end: number): number | null => {
    const places = ladder(reference, end, { points, besides });
    for (let i = 0; i < places.length; i++) {
      if (!isOff(places[i]!)) continue;
      let [inside, outside] = [i === 0 ? reference : places[i - 1]!, places[i]!];
      while (Math.abs(outside - inside) > 1e-9 * inside) {
        const middle = (inside + outside) / 2;
        if (isOff(middle)) outside = middle;
        else inside = middle;
      }
      return (inside + outside) / 2;
    }
    return null;
  };
  return { from: edge(from), to: edge(to) };
}

/** Frequencies from one to another, without the first: half of them in equal ratios, half in equal steps, and those besides. */
function ladder(
  from: number,
  to: number,
  given: { readonly points: number; readonly besides: readonly number[] },
): Float64Array {
  const half = Math.floor(given.points / 2);
  const [rising, beyond] = [to > from, to > from ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY];
  const ratios = equalRatios(from, to, half + 1);
  const tops = Float64Array.from(given.besides.filter((f) => f > Math.min(from, to) && f < Math.max(from, to))).sort();
  if (!rising) tops.reverse();
  const places = new Float64Array(2 * half + tops.length);
  // Three rows, each in its order, become one.
  for (let i = 0, r = 1, s = 0, t = 0; i < places.length; i++) {
    const ratio = r <= half ? ratios[r]! : beyond;
    const step = s < half ? from + ((to - from) * (s + 0.5)) / half : beyond;
    const top = t < tops.length ? tops[t]! : beyond;
    const next = rising ? Math.min(ratio, step, top) : Math.max(ratio, step, top);
    if (next === ratio) r++;
    else if (next === step) s++;
    else t++;
    places[i] = next;
  }
  return places;
}
