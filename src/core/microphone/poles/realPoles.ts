/** Real poles: how the film lets the diaphragm creep back where it overdamps it. */

import { absolute, type Complex, complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { effectiveViscosity } from "../../parts/film/slip.ts";
import { type ReducedSystem, setReducedFilm } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { firstSingularity, hasNetwork } from "../system/network.ts";
import { creepingStarts, filmCreeping } from "./creepingStarts.ts";
import { type CreepMotion, creepMotion } from "./creepMotion.ts";
import { polish } from "./oscillatingPoles.ts";
import { ownMotion } from "./ownMotion.ts";
import { type PoleModel, pivotsOf, probeCompliance } from "./poleModel.ts";

/** A thin closed film has hundreds of creeping modes; the slowest are what one can see. */
const mostRates = 8;

/** The search begins at this share of its end. */
const lowest = 1e-5;

/** How far up the axis inertia counts: to the limit, or to the first singularity that is no pole of the device. */
const axisEnd = ({ microphone }: PoleModel, upTo: number): number =>
  Math.min(upTo, 0.999 * Math.min(firstFilmSingularity(microphone), firstSingularity(microphone)));

/**
 * Rates of the slowest poles e^(-rate t), up to eight, below `upTo` and below the first singularity of film, holes or cavities themselves [1/s].
 * The model must be without structural loss: a constant loss factor is not causal, and off the real axis it has no meaning.
 * `small`: fewer functions of the same device, searched before the model itself is; `starts`: those of `creepingOf`, where they are known.
 */
export function realPoles(
  model: PoleModel,
  upTo: number,
  small: (() => PoleModel) | null = null,
  starts = creepingOf(model, upTo).starts,
): readonly number[] {
  if (!hasAir(model)) return [];
  const end = axisEnd(model, upTo);
  if (model.reduced?.basis.hole || hasNetwork(model.microphone)) return scanned(model, end);
  const axis: Axis = { model, end, atRest: inertiaAtRest(model, end * lowest), all: null };
  let found: Confirmed = { rates: [], complete: false };
  if (model.reduced) found = confirmed(axis, starts);
  // As many as at rest: only a pair that has just met may hide, and its rates are near the frequency that it had.
  const none = !found.complete && found.rates.length === 0 && allOn(axis) === 0;
  const from = none ? end / 30 : end * lowest;
  if (!found.complete && small) found = confirmed(axis, scanned(small(), end, found.rates, from));
  return found.complete ? found.rates : scanned(model, end, found.rates, from);
}

/** The imaginary axis of a model up to where the search ends, with the inertia where it begins and the change of it over all, once asked for. */
interface Axis {
  readonly model: PoleModel;
  readonly end: number;
  readonly atRest: number;
  all: number | null;
}

const allOn = (axis: Axis): number => {
  axis.all ??= Math.abs(inertia(axis.model, axis.end) - axis.atRest);
  return axis.all;
};

/** About where a device creeps [1/s]. */
export interface CreepingAbout {
  readonly starts: readonly CreepMotion[];
  /** Rates of those that are right to some per cent, and for each of them the rate of the film alone, under a plate that holds still. */
  readonly device: readonly number[];
  readonly film: readonly number[];
}

/**
 * Where plate and film creep together below `upTo`. Nothing for a model that is not of few functions, with a hole in its wall or
 * with air in front and behind. A loss factor changes none of it.
 */
export function creepingOf(model: PoleModel, upTo: number): CreepingAbout {
  const { reduced } = model;
  const isPlain = reduced && hasAir(model) && !reduced.basis.hole && !hasNetwork(model.microphone);
  const end = axisEnd(model, upTo);
  const starts = isPlain ? creepingStarts(reduced, end, frozenAt * end) : [];
  if (!isPlain || starts.length === 0) return { starts, device: [], film: [] };
  const alone = filmCreeping(reduced, frozenAt * end);
  // Both stand in order, and the film is slower under a plate that gives way.
  const [device, film]: [number[], number[]] = [[], []];
  for (const [i, start] of starts.entries()) {
    if (inertOf(reduced, start) > 0.1) continue;
    device.push(start.rate);
    if (alone[i] !== undefined) film.push(alone[i]);
  }
  return { starts, device, film };
}

/** About by how much of itself the plate's mass, which a start leaves out, moves it: its film stores 1, and this is its kinetic energy. */
function inertOf({ basis, scales }: ReducedSystem, { rate, plate }: CreepMotion): number {
  let inert = 0;
  for (let i = 0; i < plate.length; i++) inert += basis.mass[i]! * plate[i]! ** 2;
  return rate ** 2 * scales.lambda * inert;
}

/** Starts are computed with the coefficients of this share of the range: where the slowest ones are. */
const frozenAt = 0.01;

/** Estimated error of a rate [-]. */
const exactly = 1e-10;

/** `complete`: there are no others up to where the search ends, or as many as are wanted. */
interface Confirmed {
  readonly rates: readonly number[];
  readonly complete: boolean;
}

/**
 * Starts, slowest first, each polished by its motion. Where it was factored last, next to its pole, the inertia says how many
 * poles are slower: given are those before the first that is lost or not confirmed.
 */
function confirmed(axis: Axis, starts: readonly (CreepMotion | number)[]): Confirmed {
  const { model, end, atRest } = axis;
  const found: { readonly rate: number; readonly factoredAt: number; readonly slower: number }[] = [];
  let lost = false;
  for (const start of starts) {
    if (found.length === mostRates || lost) break;
    const motion = polished(model, start);
    lost = motion === null || motion.rate <= (found.at(-1)?.rate ?? 0);
    if (motion === null || lost || motion.rate > end) continue;
    found.push({ ...motion, slower: Math.abs(inertiaNow(model) - atRest) });
  }
  const doubted = found.findIndex(
    ({ factoredAt, slower }) => slower !== found.filter(({ rate }) => rate < factoredAt).length,
  );
  const rates = found.slice(0, doubted < 0 ? found.length : doubted).map(({ rate }) => rate);
  const last = found.at(-1);
  const slower = () => {
    if (last === undefined || rates.length < mostRates) return allOn(axis);
    // Factored beyond its own pole, the last one has been counted with the others.
    return last.factoredAt > last.rate ? last.slower : Math.abs(inertia(model, last.rate * (1 + 1e-6)) - atRest);
  };
  return { rates, complete: !lost && doubted < 0 && slower() === rates.length };
}

/** The real pole that a start leads to, from its motion or from its rate alone, and where the model was factored last for it. */
function polished(model: PoleModel, start: CreepMotion | number): { rate: number; factoredAt: number } | null {
  if (typeof start !== "number") {
    if (inertOf(model.reduced!, start) > mostInert) return null;
    const motion = creepMotion(model.reduced!, start, exactly);
    return motion && { rate: motion.rate, factoredAt: motion.factoredAt };
  }
  const motion = ownMotion(model.form, complex(0, start), { within: 1e-4, steps: 3 });
  if (motion === null || Math.abs(motion.omega.re) > 1e-6 * motion.omega.im) return null;
  return { rate: motion.omega.im, factoredAt: motion.factoredAt.im };
}

/**
 * With a mass m of `inertOf` the start's own pole lies where x - m x^3 = 1, x the rate over that of the start: beyond this m it has
 * met another and left the axis. Derivation here, for one motion.
 */
const mostInert = 4 / 27;

const hasAir = ({ microphone: { film, front, back } }: PoleModel): boolean =>
  film !== null || front !== null || back !== null;

/** Ratio of neighboring points where all of the axis is scanned. */
const scanRatio = 1.37;
/** Points over a shorter part of it. */
const scanPoints = 18;

/** By inertia alone, in steps of equal ratios up the axis, above those that are known. */
function scanned(
  model: PoleModel,
  end: number,
  known: readonly number[] = [],
  start = end * lowest,
): readonly number[] {
  const ratio = Math.min(scanRatio, pow(end / start, 1 / scanPoints));
  const rates = [...known];
  let from = Math.max((rates.at(-1) ?? 0) * (1 + 1e-5), start);
  let before = inertia(model, from);
  while (from < end && rates.length < mostRates) {
    const to = Math.min(end, from * ratio);
    const after = inertia(model, to);
    if (after !== before) collect(model, { from, atFrom: before, to, atTo: after }, rates);
    from = to;
    before = after;
  }
  return rates;
}

/**
 * The same with air in front and behind, whose holes and cavities have singularities of their own low on the axis: below the first
 * of them by inertia, above it from the rates of plate and film alone and from where the answer to the probe passes infinity, each
 * polished on the whole determinant. With pairs so near the axis that they show there [rad/s]: real poles have no real part.
 * `small`: fewer functions of the same device, for the starts.
 */
export function polesByAxis(model: PoleModel, alone: PoleModel, upTo: number, small = model): readonly Complex[] {
  const found = realPoles(model, upTo).map((rate) => complex(0, rate));
  const from = Math.max(axisEnd(model, upTo), lowest * upTo);
  for (const rate of [...passages(small, from, upTo), ...realPoles(alone, upTo)]) {
    // Again and again: what one pole hid, its deflation shows.
    while (found.filter(({ re }) => re === 0).length < mostRates) {
      const pole = polish(model, [], [...found, ...found.map(mirrored)], complex(0, rate));
      if (pole === null || pole.im > upTo) break;
      found.push(complex(Math.abs(pole.re) > 1e-6 * pole.im ? Math.abs(pole.re) : 0, pole.im));
    }
  }
  return found.sort((a, b) => absolute(a) - absolute(b));
}

const mirrored = ({ re, im }: Complex): Complex => complex(-re, im);

/** Ratio of neighboring points of the walk up the axis: where nothing happens, and where the inverse is no straight line. */
const stride = { longest: 1.2, shortest: 1.008, straight: 0.03 };

/**
 * Where the answer to the probe, which is real on the axis, passes infinity between two rates, or nearly reaches it. Beside a singularity of a hole or a
 * cavity pole and zero stand close together: they bend the inverse around them, and there the steps are halved.
 */
function passages(model: PoleModel, from: number, to: number): readonly number[] {
  const at = (rate: number) => ({ rate, value: 1 / probeCompliance(model, complex(0, rate)).re });
  type Point = ReturnType<typeof at>;
  const rates: number[] = [];
  const between = (low: Point, high: Point): void => {
    const middle = at((low.rate + high.rate) / 2);
    const bend = Math.abs(middle.value - (low.value + high.value) / 2);
    const same = low.value * high.value > 0 && low.value * middle.value > 0;
    if (same && Math.abs(middle.value) < 0.5 * Math.min(Math.abs(low.value), Math.abs(high.value)))
      rates.push(middle.rate);
    if (same && bend < stride.straight * Math.max(Math.abs(low.value), Math.abs(high.value))) return;
    if (high.rate > stride.shortest * low.rate) {
      between(low, middle);
      between(middle, high);
    } else if (!same) {
      // Past a zero of the answer its inverse grows as the interval shrinks.
      const [left, right] = low.value * middle.value < 0 ? [low, middle] : [middle, high];
      if (Math.abs(right.value - left.value) < Math.abs(high.value - low.value))
        rates.push((left.rate + right.rate) / 2);
    }
  };
  let before = at(from);
  while (before.rate < to) {
    const here = at(Math.min(to, before.rate * stride.longest));
    between(before, here);
    before = here;
  }
  return rates;
}

/**
 * Inertia of plate and film on the imaginary axis omega = i sigma, where both are real: negative pivots of the plate with the
 * film eliminated, plus film factors of positive compliance. It changes by one where a real pole is passed, and only there.
 */
function inertia(model: PoleModel, sigma: number): number {
  const ports = model.set(complex(0, sigma));
  return inertiaNow(model, pivotsOf(model, ports));
}

/**
 * The same where the axis begins: in energy the plate's own stiffness is 1, so that none of its pivots is negative while all that the
 * film gives way adds up to less.
 */
function inertiaAtRest(model: PoleModel, sigma: number): number {
  const { reduced, filmRe } = model;
  if (!reduced) return inertia(model, sigma);
  setReducedFilm(reduced, complex(0, sigma));
  const { count, filmCount, coupling } = reduced.basis;
  let [given, positive] = [0, 0];
  for (let j = 0; j < filmCount; j++) {
    const factor = filmRe[j]!;
    if (factor > 0) positive++;
    else for (let i = 0; i < count; i++) given -= factor * coupling[i * filmCount + j]! ** 2;
  }
  return given < 1 ? positive : inertia(model, sigma);
}

/** The same where the model was factored last, and what it has beside plate and film there. */
function inertiaNow({ work, filmRe }: PoleModel, beside: readonly Complex[] = []): number {
  let negative = 0;
  for (const pivot of work.pivotRe) if (pivot < 0) negative++;
  for (const pivot of beside) if (pivot.re < 0) negative++;
  for (const factor of filmRe) if (factor > 0) negative++;
  return negative;
}

interface Interval {
  readonly from: number;
  readonly atFrom: number;
  readonly to: number;
  readonly atTo: number;
}

/** Bisects an interval down to each single change of the inertia, from its slow end, until there are enough. */
function collect(model: PoleModel, { from, atFrom, to, atTo }: Interval, rates: number[]): void {
  if (atFrom === atTo || rates.length >= mostRates) return;
  if (to - from < 1e-7 * to) {
    const changes = Math.min(Math.abs(atTo - atFrom), mostRates - rates.length);
    for (let i = 0; i < changes; i++) rates.push((from + to) / 2);
    return;
  }
  // A single one in a narrow interval is read by its motion, and must lie inside.
  if (Math.abs(atTo - atFrom) === 1 && to < 1.5 * from) {
    const motion = ownMotion(model.form, complex(0, (from + to) / 2), { within: 1e-6 });
    if (
      motion &&
      Math.abs(motion.omega.re) < 1e-6 * motion.omega.im &&
      motion.omega.im > from &&
      motion.omega.im < to
    ) {
      rates.push(motion.omega.im);
      return;
    }
  }
  const middle = (from + to) / 2;
  const atMiddle = inertia(model, middle);
  collect(model, { from, atFrom, to: middle, atTo: atMiddle }, rates);
  collect(model, { from: middle, atFrom: atMiddle, to, atTo }, rates);
}

/** Rate at which tan k / k of the film's flow or heat first becomes infinite: k = pi / 2 [1/s]. */
function firstFilmSingularity({ film, air }: Microphone): number {
  if (!film) return Number.POSITIVE_INFINITY;
  const { gap } = film;
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const viscous = viscosity / air.density;
  const thermal = air.viscosity / (air.density * air.prandtl);
  return (Math.min(viscous, thermal) * Math.PI ** 2) / gap ** 2;
}
