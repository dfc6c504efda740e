/**
 * A whole device in a few milliseconds, for thousands that differ in everything: sides, thickness, edges, tension, gap, air.
 *
 * Nothing is kept between devices. The coupled answer takes few functions, because the light is read through the influence
 * function of line.ts and needs deflections only: five a direction give the response to some 1e-5 where the engine's eight give
 * 1e-9. Each answer carries an estimate of its error; who needs more asks the engine (engine.ts).
 */

import {
  absolute,
  add,
  type Complex,
  complex,
  divide,
  multiply,
  scale,
  squareRoot,
  subtract,
} from "../../numerics/complex.ts";
import { bandSolve } from "../../numerics/kronecker.ts";
import { pow } from "../../numerics/power.ts";
import { type Rational, rationalPoles } from "../../numerics/rational.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { ownMatrices } from "../basis/ownMatrices.ts";
import { type ReducedSystem, reducedSystem } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { creepPartner } from "../poles/creepPartner.ts";
import { poleShare } from "../poles/shares.ts";
import { isVentPole } from "../poles/ventPole.ts";
import { bandAround } from "../response/band.ts";
import { type Curve, readCurve, sampleCurve } from "../response/curve.ts";
import { accelerationAt } from "../response/vibration.ts";
import { type CoupledSystem, coupledSystem, plateWithFewer, responseAt } from "../system/coupled.ts";
import { type Line, prepareLine } from "../system/line.ts";
import { type Functions, type Prepared, prepare, type Resolution, resolutionFor } from "../system/prepare.ts";
import { hasWallHole } from "../system/wallHole.ts";

export interface LeanResponse {
  /** What it was computed in, for other questions to the same device. */
  readonly prepared: Prepared;
  /** The plate's answer at rest to a uniform pressure, on the larger basis. */
  readonly static: Float64Array;
  readonly line: Line;
  readonly system: CoupledSystem;
  readonly curve: Curve;
  /** S [rad/Pa] at a frequency [rad/s], which may be complex. */
  readonly respond: (omega: Complex) => Complex;
  /** Phase per acceleration of the frame [rad/(m/s2)]. */
  readonly accelerate: (omega: Complex) => Complex;
  /** Estimate of the relative error of S: of the functions left out and of the curve [-]. */
  readonly estimate: number;
  /** Poles that the response shows, polished, with their share in the output at rest. */
  readonly resonances: readonly { readonly frequency: number; readonly dampingRatio: number; readonly share: number }[];
  /** `partner`: the other real pole that carries most beyond it; a guess, where predict asks the motion itself. */
  readonly decays: readonly { readonly rate: number; readonly share: number; readonly partner: number | null }[];
}

/** Three functions a direction fewer than the engine's, five at least; twice as many and two more for the line of light. */
export function leanResolution(microphone: Microphone): Resolution {
  const { across, along } = resolutionFor(microphone).functions;
  const functions: Functions = { across: Math.max(5, across - 3), along: Math.max(5, along - 3) };
  const most = Math.max(functions.across, functions.along);
  return {
    functions,
    fine: { across: 2 * functions.across + 2, along: 2 * functions.along + 2 },
    filmTerms: 2 * most + 4,
  };
}

/** Floor of relative errors, as a share of the static response. */
const floorShare = 1e-3;
/** So slow that every vent has let its air through [Hz]. */
const restFrequency = 1e-3;

/**
 * The microphone must not be buckled. `rangeOf` gives the range of the curve [Hz] for the first resonance in vacuum [Hz];
 * `tolerance` of the curve is relative to max(|S|, 1e-3 |S static|).
 */
export function leanResponse(
  microphone: Microphone,
  rangeOf: (first: number) => { readonly from: number; readonly to: number },
  tolerance: number,
): LeanResponse {
  const prepared = prepare(microphone, leanResolution(microphone));
  const question = rangeOf(Math.sqrt(prepared.first / plateScales(microphone.diaphragm).lambda) / (2 * Math.PI));
  const line = prepareLine(prepared, microphone);
  const system = coupledSystem(prepared, microphone);
  const respond = (omega: Complex) => responseAt(system, line, omega);
  const floor = Math.max(floorShare * Math.abs(line.static), Number.MIN_VALUE);
  const curve = sampleCurve((frequency) => respond(complex(2 * Math.PI * frequency)), {
    ...question,
    tolerance,
    floor,
    begin: 17,
    most: 121,
  });
  const middle = complex(2 * Math.PI * Math.sqrt(question.from * question.to));
  const { value, fewer } = plateWithFewer(system, line, middle);
  const ofFunctions = absolute(subtract(fewer, value)) / Math.max(absolute(value), floor);
  const atRest = respond(complex(2 * Math.PI * restFrequency)).re;
  // A loss factor makes no heat in creeping: without it S is real on the imaginary axis.
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const creep = coupledSystem(prepared, lossless);
  const poles = polesShown(
    curve,
    {
      respond,
      lossless: (rate) => responseAt(creep, line, complex(0, rate)).re,
      ...(hasWallHole(microphone)
        ? { isVent: (rate: number) => isVentPole(microphone, rate) }
        : { partner: partnerIn(prepared, lossless) }),
    },
    atRest === 0 ? 1 : atRest,
  );
  const accelerate = (omega: Complex) => accelerationAt(system, line, omega);
  const estimate = Math.max(ofFunctions, curve.error);
  return {
    prepared,
    static: bandSolve(prepared.fineFactor, prepared.fine.load),
    line,
    system,
    curve,
    respond,
    accelerate,
    estimate,
    ...poles,
  };
}

/** The partner of a slow pole (creepPartner.ts) in the whole basis, made ready when it is first asked for. */
function partnerIn(prepared: Prepared, lossless: Microphone): (rate: number) => number | null {
  let system: ReducedSystem | null = null;
  return (rate) => {
    system ??= reducedSystem(ownMatrices(prepared), lossless);
    return creepPartner(system, rate);
  };
}

/** A pole with less of the output than this is left to the exact search. */
const leastShare = 1e-4;
/** Of the strongest one's share; a quarter competes for the name of resonance (mainResonance.ts). */
const weakShare = 0.15;

/**
 * Poles of the interpolant within its range, each polished on the device itself by the secant method on 1 / S, which gives its
 * residue as well. `lossless`: S of the device without a loss factor on the axis of decay; `partner`: see `decays`; `isVent`: which of
 * them never has one.
 */
export function polesShown(
  curve: Curve,
  device: {
    readonly respond: (omega: Complex) => Complex;
    readonly lossless: (rate: number) => number;
    readonly partner?: (rate: number) => number | null;
    readonly isVent?: (rate: number) => boolean;
  },
  atRest: number,
): Pick<LeanResponse, "resonances" | "decays"> {
  const { respond, lossless } = device;
  const resonances: { frequency: number; dampingRatio: number; share: number }[] = [];
  const decays: { rate: number; share: number }[] = [];
  const shown = rationalPoles(curve.rational).flatMap((found) => {
    const size = absolute(found);
    // What nothing damps may lie a hair below the axis.
    if (!(found.im > -1e-6 * size && size > curve.from && size < 1.5 * curve.to)) return [];
    const slow = Math.abs(found.re) < 0.02 * size;
    if (!slow && found.re < 0) return [];
    const start = scale(slow ? { re: 0, im: size } : found, 2 * Math.PI);
    const residue = scale(residueOf(curve.rational, found), 2 * Math.PI);
    const share = poleShare(residue, start, atRest);
    return Math.abs(share) > leastShare ? [{ start, share, size, damping: found.im / size }] : [];
  });
  // What is slower than the range has answered there no longer; what is faster has not begun.
  const within = respond(complex(2 * Math.PI * curve.from)).re / atRest;
  const sizeOf = (poles: readonly { readonly share: number }[]) =>
    poles.reduce((size, { share }) => Math.max(size, Math.abs(share)), 0);
  const seen = shown.reduce((sum, { share }) => sum + share, 0);
  const creep = () => creepingPoles(lossless, [curve.from, 2 * curve.to], atRest);
  // What creeps is asked without the loss factor, which would turn its pole off the axis.
  const creeps = shown.some(({ start, share }) => start.re === 0 && Math.abs(share) >= heard);
  const creeping = creeps || Math.abs(within - seen) > missingShare ? creep() : null;
  const lost: typeof resonances = [];
  const most = sizeOf([...shown, ...(creeping ?? [])]);
  for (const { start, share, size, damping } of shown) {
    const shownAs = { frequency: size, dampingRatio: Math.max(0, damping), share };
    if (start.re === 0) {
      if (Math.abs(share) >= heard) lost.push(shownAs);
      continue;
    }
    // What carries little is nobody's resonance: the interpolant's pole will do.
    const weak = Math.abs(share) < weakShare * most;
    const polish = weak ? { pole: start, residue: null } : polished(respond, start);
    if (polish === null) {
      lost.push(shownAs);
      continue;
    }
    const { pole, residue } = polish;
    const frequency = absolute(pole) / (2 * Math.PI);
    if (resonances.some((other) => Math.abs(other.frequency - frequency) < 1e-6 * frequency)) continue;
    resonances.push({
      frequency,
      dampingRatio: Math.max(0, pole.im / absolute(pole)),
      share: residue === null ? share : poleShare(residue, pole, atRest),
    });
  }
  decays.push(...(creeping ?? []));
  const missing = () =>
    Math.abs(within - [...resonances, ...decays].reduce((sum, { share }) => sum + share, 0)) > missingShare;
  // Two that are about to meet on the axis lead the steps away: they may have met, or else the interpolant knows them best.
  if (lost.length > 0 && creeping === null && missing()) decays.push(...creep());
  if (lost.length > 0 && missing()) {
    for (const one of lost) {
      const pair = parted(respond, one, atRest);
      if (!pair) resonances.push(one);
      else if (!resonances.some((other) => Math.abs(other.frequency - pair.frequency) < 1e-6 * pair.frequency))
        resonances.push(pair);
    }
  }
  // A vent's, which carries what the range lacks; with little it is nobody's resonance.
  if (Math.abs(1 - within) > ventShare * sizeOf([...resonances, ...decays]))
    decays.push(...creepingPoles(lossless, [slowest, curve.from], atRest));
  return {
    resonances: resonances.sort((a, b) => a.frequency - b.frequency),
    decays: device.partner
      ? decays.map((slow) => ({ ...slow, partner: Math.abs(slow.share) >= heard ? device.partner!(slow.rate) : null }))
      : withPartners(decays).map((slow) => (device.isVent?.(slow.rate) ? { ...slow, partner: null } : slow)),
  };
}

function withPartners(decays: readonly { readonly rate: number; readonly share: number }[]): LeanResponse["decays"] {
  const sorted = [...decays].sort((a, b) => a.rate - b.rate);
  return sorted.map((slow) => {
    const beyond = sorted.filter(({ rate }) => rate > slow.rate);
    const most = beyond.reduce((size, { share }) => Math.max(size, Math.abs(share)), 0);
    return { ...slow, partner: beyond.find(({ share }) => Math.abs(share) === most)?.rate ?? null };
  });
}

/** A creeping pole with less is no resonance (mainResonance.ts), and needs no partner. */
const heard = 0.05;
/** Of the strongest one's share; a quarter competes for the name of resonance (mainResonance.ts). */
const ventShare = 0.2;
/** Where so much of the output within the range is missing something creeps that the response hardly shows: a quarter competes. */
const missingShare = 0.2;
/** Steps of the search along the imaginary axis in each decade, and where it begins [Hz]: slower than any vent. */
const perDecade = 4;
const slowest = 1e-3;

/**
 * Real poles between two frequencies [Hz]: on the imaginary axis S is real, and 1 / S changes its sign at each of them. Two that
 * lie within one step of the search are not seen.
 */
function creepingPoles(
  lossless: (rate: number) => number,
  [from, to]: readonly [number, number],
  atRest: number,
): readonly { readonly rate: number; readonly share: number }[] {
  const [low, high] = [2 * Math.PI * from, 2 * Math.PI * to];
  const rungs = 1 + Math.max(2, Math.ceil(perDecade * Math.log10(high / low)));
  const inverse = (rate: number) => 1 / lossless(rate);
  const rates = Array.from({ length: rungs }, (_, i) => low * pow(high / low, i / (rungs - 1)));
  const values = rates.map(inverse);
  const decays: { rate: number; share: number }[] = [];
  for (let i = 0; i + 1 < rungs; i++) {
    if (values[i]! * values[i + 1]! > 0) continue;
    const rate = crossing(inverse, [rates[i]!, values[i]!], [rates[i + 1]!, values[i + 1]!]);
    if (rate === null) continue;
    // Residue of S at i rate, from the slope of 1 / S: R = i / (d (1 / S) / d rate).
    const step = 1e-4 * rate;
    const slope = (inverse(rate + step) - inverse(rate - step)) / (2 * step);
    decays.push({ rate, share: poleShare({ re: 0, im: 1 / slope }, { re: 0, im: rate }, atRest) });
  }
  return decays;
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

/** Residue of the interpolant at one of its poles: N / D' of its barycentric form. */
export function residueOf({ x, re, im, weightRe, weightIm }: Rational, z: Complex): Complex {
  let [numerator, slope] = [complex(0), complex(0)];
  for (let j = 0; j < x.length; j++) {
    const step = { re: z.re - x[j]!, im: z.im };
    const term = divide({ re: weightRe[j]!, im: weightIm[j]! }, step);
    const one = divide(term, step);
    numerator = {
      re: numerator.re + term.re * re[j]! - term.im * im[j]!,
      im: numerator.im + term.re * im[j]! + term.im * re[j]!,
    };
    slope = subtract(slope, one);
  }
  return divide(numerator, slope);
}

/** A zero of 1 / S near a start, and the residue there; null where the steps lead away. A start on the imaginary axis stays there. */
function polished(
  respond: (omega: Complex) => Complex,
  start: Complex,
): { readonly pole: Complex; readonly residue: Complex } | null {
  const real = start.re === 0;
  const inverse = (omega: Complex): Complex => divide(complex(1), respond(omega));
  let before = { re: start.re * (1 + 1e-4), im: start.im * (1 - 1e-4) };
  let here = start;
  let [valueBefore, value] = [inverse(before), inverse(here)];
  for (let step = 0; step < 12; step++) {
    const slope = divide(subtract(value, valueBefore), subtract(here, before));
    const move = divide(value, slope);
    if (!Number.isFinite(move.re) || !Number.isFinite(move.im)) return null;
    [before, valueBefore] = [here, value];
    here = { re: real ? 0 : here.re - move.re, im: here.im - move.im };
    if (absolute(subtract(here, start)) > 0.2 * absolute(start) || here.im <= 0) return null;
    if (absolute(move) < 1e-5 * absolute(here)) return { pole: here, residue: divide(complex(1), slope) };
    value = inverse(here);
  }
  return null;
}

/**
 * One of two poles about to meet on the axis, which lead the steps of a straight line astray: a parabola through three points has
 * both. null where it does not settle. Source: Muller 1956 (from memory, to be confirmed).
 */
function parted(
  respond: (omega: Complex) => Complex,
  { frequency, dampingRatio }: { readonly frequency: number; readonly dampingRatio: number },
  atRest: number,
): { readonly frequency: number; readonly dampingRatio: number; readonly share: number } | null {
  const size = 2 * Math.PI * frequency;
  const start = complex(size * Math.max(0.02, Math.sqrt(Math.max(0, 1 - dampingRatio ** 2))), size * dampingRatio);
  const at = (omega: Complex) => ({ omega, value: divide(complex(1), respond(omega)) });
  let points = [scale(start, 1.01), scale(start, 0.99), start].map(at) as [Point, Point, Point];
  for (let step = 0; step < 15; step++) {
    const [first, second, here] = points;
    const last = subtract(here.omega, second.omega);
    const slope = divide(subtract(here.value, second.value), last);
    const before = divide(subtract(second.value, first.value), subtract(second.omega, first.omega));
    const bend = divide(subtract(slope, before), subtract(here.omega, first.omega));
    const tangent = add(slope, multiply(bend, last));
    const root = squareRoot(subtract(multiply(tangent, tangent), scale(multiply(bend, here.value), 4)));
    const [plus, minus] = [add(tangent, root), subtract(tangent, root)];
    const move = divide(scale(here.value, -2), absolute(plus) > absolute(minus) ? plus : minus);
    const pole = add(here.omega, move);
    if (!Number.isFinite(pole.re + pole.im)) return null;
    if (absolute(subtract(pole, start)) > 0.2 * absolute(start) || pole.im <= 0) return null;
    if (absolute(move) < 1e-6 * absolute(pole)) {
      if (pole.re <= 0) return null;
      const share = poleShare(divide(complex(1), tangent), pole, atRest);
      return { frequency: absolute(pole) / (2 * Math.PI), dampingRatio: pole.im / absolute(pole), share };
    }
    // Each of the two leads to the other's side of the axis; what rings is on this one.
    points = [second, here, at(complex(Math.abs(pole.re), pole.im))];
  }
  return null;
}

interface Point {
  readonly omega: Complex;
  readonly value: Complex;
}

/** Level edges about a reference [Hz], as `bandAround`, and |S| there [rad/Pa]. */
export function leanBand(curve: Curve, options: { readonly reference: number; readonly within: number }) {
  const { re, im } = readCurve(curve, Float64Array.of(options.reference));
  const magnitude = Math.hypot(re[0]!, im[0]!);
  const edges = magnitude > 0 ? bandAround(curve, options) : { from: null, to: null };
  return { magnitude, ...edges };
}
