/** How straight the phase follows the pressure: where it leaves the line by 1 %, where a slow tone is distorted by 1 % and 3 %. */
import { pow } from "../../numerics/power.ts";
import type { PhaseCurve } from "./phaseCurve.ts";

export interface Straightness {
  /** Change of the phase = linear p + quadratic p^2 + cubic p^3, p the pressure across the diaphragm beyond its static one [rad/Pa^k]. */
  readonly series: PhaseCurve["series"];
  /** |p| at which the phase differs by 1 % of itself from the straight line, on the worse side [Pa]; null: not within `reach`. */
  readonly leavesLine: number | null;
  /** Amplitude at which all harmonics together are this share of the first [Pa]; null: not within `reach`. */
  readonly distorted: readonly { readonly share: number; readonly pressure: number | null }[];
  /** Which term makes the harmonics at 3 %: the even one of stretch, the odd one of stiffening; null where 3 % is not reached. */
  readonly limit: "stretch" | "stiffening" | null;
  /** Deflection at the center at 3 %, or at `reach` [m]. */
  readonly center: number;
  /** Largest pressure looked at [Pa]. */
  readonly reach: number;
  /** The curve: pressure [Pa], change of the phase and the straight line [rad]. */
  readonly curve: {
    readonly pressure: readonly number[];
    readonly phase: readonly number[];
    readonly line: readonly number[];
  };
}

const off = 0.01;
const shares = [0.01, 0.03] as const;
const drawn = 41;

export function straightnessOf(phase: PhaseCurve): Straightness {
  const { series, reach } = phase;
  const line = (p: number) => series.linear * p;
  const departure = (p: number) => Math.max(...[p, -p].map((at) => Math.abs(phase.at(at) / line(at) - 1)));
  const distortion = (p: number) => distortionOf(phase.harmonics(p));
  const distorted = shares.map((share) => ({ share, pressure: firstAbove(distortion, share, reach) }));
  const loudest = distorted.at(-1)?.pressure ?? null;
  const pressure = Array.from({ length: drawn }, (_, i) => reach * ((2 * i) / (drawn - 1) - 1));
  return {
    series,
    leavesLine: firstAbove(departure, off, reach),
    distorted,
    limit: loudest === null ? null : limitOf(phase.harmonics(loudest)),
    center: phase.center(loudest ?? reach),
    reach,
    curve: { pressure, phase: pressure.map(phase.at), line: pressure.map(line) },
  };
}

/** All harmonics over the first [-]; of amplitudes a_0, a_1, ... */
export function distortionOf(harmonics: Float64Array): number {
  let squares = 0;
  for (let k = 2; k < harmonics.length; k++) squares += harmonics[k]! ** 2;
  return Math.sqrt(squares) / Math.abs(harmonics[1]!);
}

function limitOf(harmonics: Float64Array): "stretch" | "stiffening" {
  let [even, odd] = [0, 0];
  for (let k = 2; k < harmonics.length; k++) {
    if (k % 2 === 0) even += harmonics[k]! ** 2;
    else odd += harmonics[k]! ** 2;
  }
  return even >= odd ? "stretch" : "stiffening";
}

/** Smallest pressure at which a measure passes a limit, by steps of a tenth of a decade and bisection; null: nowhere up to `reach`. */
function firstAbove(measure: (pressure: number) => number, limit: number, reach: number): number | null {
  const from = 1e-4 * reach;
  // Below the first step the curve's own accuracy speaks; what is crooked there already has no straight line.
  if (!(measure(from) < limit)) return null;
  let low = from;
  for (let high = from; low < reach; low = high) {
    high = Math.min(reach, low * pow(10, 0.1));
    if (measure(high) < limit) continue;
    while (high / low - 1 > 1e-6) {
      const middle = Math.sqrt(low * high);
      if (measure(middle) < limit) low = middle;
      else high = middle;
    }
    return high;
  }
  return null;
}
