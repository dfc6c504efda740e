/** Static sensitivity against guide position: where the best place is, and where there is none. */
import type { Microphone } from "../microphone.ts";
import { readLine, type StaticLines } from "./staticSensitivity.ts";

export interface SensitivityScan {
  /** Positions [m] and static sensitivities there [rad/Pa], for one guide of weight 1 like the first. */
  readonly at: readonly number[];
  readonly value: readonly number[];
  /** Place of the largest magnitude [m] (of two alike, the one at x > 0) and the sensitivity there [rad/Pa]. */
  readonly best: { readonly at: number; readonly value: number };
  /** Places without static sensitivity [m], ascending. */
  readonly nulls: readonly number[];
  /** Static sensitivity of this guide where it is [rad/Pa], in the scan's own resolution. */
  readonly here: number;
}

/** `points` positions from side to side, then the extremum and the sign changes refined. */
export function sensitivityScan(
  microphone: Microphone,
  plate: StaticLines,
  options: { points?: number } = {},
): SensitivityScan {
  const { diaphragm, guides, light } = microphone;
  const read = (at: number) => readLine(plate, diaphragm, { ...guides[0], at }, light.wavelength);
  const count = options.points ?? 101;
  const side = diaphragm.across;
  const at = Array.from({ length: count }, (_, i) => (side / 2) * ((2 * i) / (count - 1) - 1));
  const value = at.map(read);
  const nulls: number[] = [];
  for (let i = 1; i < count; i++) {
    if (value[i - 1]! * value[i]! < 0) nulls.push(crossing(read, at[i - 1]!, at[i]!, 1e-9 * side));
  }
  return { at, value, best: largest(read, at, value, 1e-5 * side), nulls, here: read(guides[0].at) };
}

/** Sign change by bisection. */
function crossing(f: (x: number) => number, from: number, to: number, within: number): number {
  let [low, high] = [from, to];
  const sign = Math.sign(f(low));
  while (high - low > within) {
    const middle = (low + high) / 2;
    if (Math.sign(f(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Values that differ by less are alike [of the value]. */
const level = 1e-11;

/** Largest magnitude at x >= 0, by golden section around the largest sample. */
function largest(f: (x: number) => number, at: readonly number[], value: readonly number[], within: number) {
  let index = at.length - 1;
  for (let i = 0; i < at.length; i++) {
    if (at[i]! >= 0 && Math.abs(value[i]!) > Math.abs(value[index]!)) index = i;
  }
  const sample = at[index]!;
  let [low, high] = [Math.max(0, at[index - 1] ?? 0), at[Math.min(at.length - 1, index + 1)]!];
  const golden = (Math.sqrt(5) - 1) / 2;
  const size = (x: number) => Math.abs(f(x));
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [size(left), size(right)];
  while (high - low > within) {
    if (atLeft > atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = size(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = size(right);
    }
  }
  // A flat top is level to round-off: the sample on it, the middle above all, stands for it.
  const candidates = [sample, low, (low + high) / 2, high];
  const best = candidates.reduce((a, b) => (size(b) > size(a) * (1 + level) ? b : a));
  return { at: best, value: f(best) };
}
