/**
 * A whole response of a device that is asked for once, from a few frequencies solved in the whole basis: their answers span a
 * reduced basis of the device's own (docs/theory/engine.md), in which the rest of the curve costs next to nothing.
 *
 * Galerkin's error is the square of what the span leaves out, so four to seven frequencies do where a rational function through
 * plain samples needs thirty. Each round is held against the whole basis at frequencies that it has not seen: where the curve is
 * largest, because a narrow resonance shows an error of its pole first, and in two gaps. Where they disagree they join the span.
 */

import { type Complex, complex } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { pow } from "../../numerics/power.ts";
import { type Curve, type CurveOptions, readCurve, sampleCurve } from "../response/curve.ts";
import { reducedAccelerationAt } from "../response/vibration.ts";
import {
  type CoupledSystem,
  filmPressure,
  plateAnswers,
  responseIn,
  setFrequency,
  stateAround,
} from "../system/coupled.ts";
import type { Line } from "../system/line.ts";
import { distance } from "./basisCheck.ts";
import { reducedResponseAt, reducedSystem, reduceLine } from "./reduced.ts";
import { addParts, basisFrom, stiffnessFactor, toEnergy } from "./reducedBasis.ts";

export interface OwnAnswer {
  readonly curve: Curve;
  /** Largest relative error at the frequencies of the last round that the basis had not seen [-]. */
  readonly checked: number;
  /** In the basis, one frequency [rad/s]. */
  readonly respond: (omega: Complex) => Complex;
  readonly accelerate: (omega: Complex) => Complex;
}

/**
 * Shares of the range that are solved first, and those that later rounds are held against besides what the curve itself points at:
 * in both the middle of it and its low end, where an overdamped film creeps.
 */
const begin = [0, 0.02, 0.3, 0.7, 1] as const;
const rounds = [
  [0.006, 0.52, 0.87],
  [0.06, 0.16, 0.94],
  [0.22, 0.42],
  [0.78, 0.11],
  [0.6, 0.36],
] as const;

/** Remainder of the answers that the first basis leaves out, over the tolerance: the error goes with its square. Each round takes a tenth. */
const spanned = 0.1;

/** The error found must lie so far below the tolerance: beside the frequencies looked at it is some times larger. */
const margin = 0.3;

/** null where five rounds do not bring the error below the tolerance: ask the whole basis. The device has no single hole in its wall. */
export function ownAnswer(system: CoupledSystem, line: Line, options: CurveOptions): OwnAnswer | null {
  const { prepared, microphone } = system;
  const { from, to, floor, tolerance } = options;
  const { factor, lower } = stiffnessFactor(prepared);
  const plates: Float64Array[] = [];
  const films: Float64Array[] = [];
  const keep = ({ re, im }: ComplexVector) => {
    addParts(plates, { re: toEnergy(lower, re), im: toEnergy(lower, im) });
    if (!prepared.film) return none;
    const pressure = filmPressure(system, prepared.film, { re, im });
    addParts(films, pressure);
    return pressure;
  };
  const solve = (frequency: number): Complex => {
    const omega = complex(2 * Math.PI * frequency);
    setFrequency(system, omega);
    const answers = plateAnswers(system, omega);
    const onFront = keep(answers.onFront);
    const onBack = answers.behind ? keep(answers.behind.q) : none;
    if (answers.behind && prepared.film) addParts(films, answers.behind.drop);
    const state = stateAround(system, answers, omega, microphone);
    return responseIn(system, line, state, omega, { onFront, onBack });
  };
  const solved = new Set<number>();
  const at = (share: number) => from + share * (to - from);
  for (const share of begin) {
    solved.add(at(share));
    solve(at(share));
  }
  let before: Curve | null = null;
  for (const [round, gaps] of rounds.entries()) {
    const leftOut = Math.max(1e-9, spanned * tolerance * pow(0.1, round));
    const basis = basisFrom(prepared, microphone, factor, { plates, films }, { most: 60, tolerance: leftOut });
    const own = reducedSystem(basis, microphone);
    const reduced = reduceLine(basis, line);
    const respond = (omega: Complex) => reducedResponseAt(own, reduced, omega);
    const values = new Map<number, Complex>();
    const curve = sampleCurve((frequency) => {
      const value = respond(complex(2 * Math.PI * frequency));
      values.set(frequency, value);
      return value;
    }, options);
    for (const frequency of solved) values.delete(frequency);
    const fresh = [...new Set([...pointedAt(values, before, floor), ...gaps.map(at)])];
    for (const frequency of fresh) solved.add(frequency);
    const checked = distance(respond, solve, { at: fresh, floor });
    if (checked <= margin * tolerance) {
      return { curve, checked, respond, accelerate: (omega) => reducedAccelerationAt(own, reduced, omega) };
    }
    before = curve;
  }
  return null;
}

const none: ComplexVector = { re: new Float64Array(0), im: new Float64Array(0) };

/** Where a curve is largest, and where it has changed most since the round before [Hz]. */
function pointedAt(values: ReadonlyMap<number, Complex>, before: Curve | null, floor: number): readonly number[] {
  const frequencies = [...values.keys()];
  const then = before && readCurve(before, Float64Array.from(frequencies));
  let [largest, most] = [0, 0];
  const points: [number, number] = [frequencies[0]!, frequencies[0]!];
  frequencies.forEach((frequency, i) => {
    const { re, im } = values.get(frequency)!;
    const size = Math.hypot(re, im);
    if (size > largest) [largest, points[0]] = [size, frequency];
    const change = then ? Math.hypot(re - then.re[i]!, im - then.im[i]!) / Math.max(size, floor) : 0;
    if (change > most) [most, points[1]] = [change, frequency];
  });
  return before ? points : [points[0]];
}
