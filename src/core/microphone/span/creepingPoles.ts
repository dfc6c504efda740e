/** Poles on the axis of decay, where S of a device without loss factor is real and 1 / S changes its sign at each of them. */
import { pow } from "../../numerics/power.ts";

/** S = weight / (r - rate) near it, at omega = i r [1/s], [rad/Pa 1/s]. */
export interface Creeping {
  readonly rate: number;
  readonly weight: number;
}

/** S on the axis of decay at omega = i r, r [1/s], [rad/Pa]. */
type Decaying = (rate: number) => number;

/** S without some of its poles. */
const without =
  (lossless: Decaying, poles: readonly Creeping[]): Decaying =>
  (at) =>
    poles.reduce((rest, { rate, weight }) => rest - weight / (at - rate), lossless(at));

/**
 * A pole near a start, by Newton's rule with the weight of the start and the secant method after that; null where the steps lead away.
 * `others`: those found before, which are taken out of S so that none of them is found again; `reach`: how far it may lie, of its rate.
 */
export function settled(
  lossless: Decaying,
  start: Creeping,
  others: readonly Creeping[],
  reach = 0.2,
): Creeping | null {
  const rest = without(lossless, others);
  let { rate, weight } = start;
  let before: { readonly rate: number; readonly value: number } | null = null;
  for (let step = 0; step < 8; step++) {
    const here = { rate, value: 1 / rest(rate) };
    // 1 / S = (r - rate) / weight
    if (before) weight = (here.rate - before.rate) / (here.value - before.value);
    const move = here.value * weight;
    rate -= move;
    if (!(Math.abs(rate - start.rate) < reach * start.rate)) return null;
    // Next to two that have not met 1 / S is nearly zero, and bends.
    if (Math.abs(move) < shortStep * rate)
      return Math.abs(weight) > 0.05 * Math.abs(start.weight) ? { rate, weight } : null;
    before = here;
  }
  return null;
}

/** Steps shorter than this leave a hundredth of them: so well the start knows the weight, or the chord. */
const shortStep = 1e-4;

/**
 * Two or more that a response from afar can't tell apart: about a rate, what those found leave of the weight that is shown there, at the
 * center of it.
 */
export function settledApart(
  lossless: Decaying,
  about: number,
  { shown, found }: { readonly shown: readonly Creeping[]; readonly found: readonly Creeping[] },
): Creeping | null {
  const isNear = ({ rate }: Creeping) => Math.abs(rate - about) < 0.2 * about;
  const near = found.filter(isNear);
  let [weight, moment] = [0, 0];
  for (const one of shown.filter(isNear)) [weight, moment] = [weight + one.weight, moment + one.weight * one.rate];
  for (const one of near) [weight, moment] = [weight - one.weight, moment - one.weight * one.rate];
  const center = moment / weight;
  if (!(Math.abs(center - about) < 0.4 * about)) return null;
  // Between two alike S is next to nothing.
  for (const aside of near.length > 0 ? [1, 0.95, 1.05] : [0.95, 1.05]) {
    const one = settled(lossless, { rate: aside * center, weight }, found);
    if (one) return one;
  }
  return null;
}

/** Of the slow end of the range: where S is read for the rates of what is slower. */
const readAt = 0.01;

/**
 * The poles slower than a rate, the strongest first, until what they leave of S at rest is less than a share `heard` of what the strongest
 * carries, of these or of others; null where the steps lead away. On the other side of the axis, where r < 0 and nothing has a pole, one alone would give
 *
 *     S(r) - fast = (S(0) - fast) / (1 - r / rate)
 *
 * `fast`: what is faster gives [rad/Pa].
 */
export function slowPoles(
  lossless: Decaying,
  {
    rest,
    fast,
    before,
    strongest,
    heard,
  }: {
    readonly rest: number;
    readonly fast: number;
    readonly before: number;
    readonly strongest: number;
    readonly heard: number;
  },
): readonly Creeping[] | null {
  const slow: Decaying = (at) => lossless(at) - fast;
  const at = -readAt * before;
  const found: Creeping[] = [];
  for (;;) {
    const carried = found.reduce((size, { rate, weight }) => size + weight / rate, rest - fast);
    const most = found.reduce((size, { rate, weight }) => Math.max(size, Math.abs(weight / rate)), strongest);
    if (Math.abs(carried) < heard * most) return found;
    const mean = at / (1 - carried / without(slow, found)(at));
    if (found.length === mostSlow || !(mean > 0 && mean < before)) return null;
    const from = (rate: number) => settled(slow, { rate, weight: -carried * rate }, found, 0.6);
    // One of two lies well below.
    const one = from(mean) ?? from(mean / 2);
    if (one === null) return null;
    found.push(one);
  }
}

/** More than vent, leak and the air of a cavity make. */
const mostSlow = 4;

/** Steps of the search in each decade. */
const perDecade = 4;

/** All between two frequencies [Hz]. One that lies within one step of the search of another, or of a zero of S, is not seen. */
export function creepingPoles(lossless: Decaying, [from, to]: readonly [number, number]): readonly Creeping[] {
  const [low, high] = [2 * Math.PI * from, 2 * Math.PI * to];
  const rungs = 1 + Math.max(2, Math.ceil(perDecade * Math.log10(high / low)));
  const inverse = (rate: number) => 1 / lossless(rate);
  const rates = Array.from({ length: rungs }, (_, i) => low * pow(high / low, i / (rungs - 1)));
  const values = rates.map(inverse);
  const found: Creeping[] = [];
  for (let i = 0; i + 1 < rungs; i++) {
    if (values[i]! * values[i + 1]! > 0) continue;
    const rate = crossing(inverse, [rates[i]!, values[i]!], [rates[i + 1]!, values[i + 1]!]);
    if (rate === null) continue;
    // From the slope of 1 / S.
    const step = 1e-4 * rate;
    found.push({ rate, weight: (2 * step) / (inverse(rate + step) - inverse(rate - step)) });
  }
  return found;
}

/** Zero of a function between two points of other sign, by the Illinois rule; null where it is a pole of it instead. */
function crossing(
  f: (x: number) => number,
  start: readonly [x: number, value: number],
  end: readonly [x: number, value: number],
): number | null {
  let [[low, atLow], [high, atHigh]] = [start, end];
  const size = Math.max(Math.abs(atLow), Math.abs(atHigh));
  let inside = low;
  let value = atLow;
  for (let step = 0; step < 25 && Math.abs(high - low) > 1e-7 * Math.abs(high); step++) {
    inside = low - (atLow * (high - low)) / (atHigh - atLow);
    value = f(inside);
    if (Math.abs(value) < 1e-7 * size) break;
    // A pole of it: no zero.
    if (Math.abs(value) > 30 * size) return null;
    // `high` is the newest point; the old end's value is halved where it stays, so that it moves next time.
    if (value * atHigh < 0) [low, atLow] = [high, atHigh];
    else atLow /= 2;
    [high, atHigh] = [inside, value];
  }
  return Math.abs(value) < 1e-3 * size ? inside : null;
}
