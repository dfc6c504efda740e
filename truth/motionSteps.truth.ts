/** Motion stepped in time, stiffening spring and squeezed film included: periods in closed form and other people's steps. */

import { motionSteps } from "../src/core/microphone/loudest/motionSteps.ts";
import type { MotionModel } from "../src/core/microphone/poles/motionModel.ts";
import { type Complex, complex, divide, multiply, subtract } from "../src/core/numerics/complex.ts";
import type { TruthRow } from "./row.ts";

/** w'' + friction w' + w = p + N, film of slow flow: w and friction w' as sums over the pole of the upper half plane. */
function oneMode(friction: number): MotionModel {
  const pole = complex(-friction / 2, Math.sqrt(1 - friction ** 2 / 4));
  // 1 / (s^2 + friction s + 1) = r / (s - a) + its mirror image, r = 1 / (a - a*); friction s times that.
  const moved = divide(complex(1), subtract(pole, { re: pole.re, im: -pole.im }));
  const pressed = multiply(multiply(moved, pole), complex(friction));
  const of = (residue: Complex) => ({ residues: [residue], constant: 0 });
  const both = (residue: Complex) => ({ sound: of(residue), plate: of(residue) });
  return { poles: [pole], moved: both(moved), slow: both(pressed), spring: both(complex(0)), phases: [] };
}

const spring = 0.8;

/** Time of ten swings from rest at w = 1, by the zeros between [-]. */
function period(step: number): number {
  const steps = motionSteps(oneMode(0), { stiffening: { square: 0, cube: spring }, closing: 0 }, step);
  // w = 1, w' = 0: half of it in the pole, half in its mirror image; i times the residue's conjugate direction.
  const { residues } = oneMode(0).moved.sound;
  steps.release([divide(complex(0.5), residues[0]!)]);
  const crossings: number[] = [];
  let before = steps.moved();
  while (crossings.length < 21) {
    steps.advance();
    const now = steps.moved();
    if (before * now < 0) crossings.push(steps.time() - (step * now) / (now - before));
    before = now;
  }
  return (crossings[20]! - crossings[0]!) / 10;
}

/** Amplitude that a tone on the backbone's curve comes to, over the one that it was reckoned for [-]. */
function onBackbone(): number {
  const [friction, amplitude] = [0.02, 0.1];
  const omega = Math.sqrt(1 + 0.75 * spring * amplitude ** 2);
  const step = 0.05;
  const steps = motionSteps(oneMode(friction), { stiffening: { square: 0, cube: spring }, closing: 0 }, step);
  steps.sound({ omega, amplitude: complex(friction * omega * amplitude) });
  let most = 0;
  for (let i = 0; i * step < 1000; i++) {
    steps.advance();
    if (i * step > 990) most = Math.max(most, Math.abs(steps.moved()));
  }
  return most / amplitude;
}

/** Place at a time, in a tone from rest that stops at 30 [-]. */
function place(time: number): number {
  const step = 0.01;
  const steps = motionSteps(oneMode(0.3), { stiffening: { square: 0, cube: 0.5 }, closing: 0.4 }, step);
  steps.sound({ omega: 0.6, amplitude: complex(0.5) });
  for (let i = 0; i < Math.round(time / step); i++) {
    if (i === 3000) steps.sound(null);
    steps.advance();
  }
  return steps.moved();
}

/** Where it is while the tone stands and after it [-]. */
const places: readonly (readonly [number, number])[] = [
  [10, 0.5342582292025305],
  [29, 0.02691808686213542],
  [31, 0.38664621274545685],
  [35, -0.08573615132120392],
  [45, -0.004567526624094996],
];

/** 4 K(k) / sqrt(1 + spring), k^2 = spring / (2 (1 + spring)): K = 1.6710043608219052. */
const exact = 4.9819724553284885;

export const rows: readonly TruthRow[] = [
  {
    what: "Duffing's spring w + 0.8 w^3, free from w = 1: period [-]",
    got: () => period(0.02),
    expected: exact,
    within: 1e-6,
    why: "steps of 0.02, the fourth power",
    origin: "exact",
    source: "complete elliptic integral, evaluated elsewhere; [nayfeh-mook-1979] ch. 2 (from memory, to be confirmed)",
  },
  {
    what: "Duffing's spring of low friction under the tone of its backbone, w^2 = 1 + 3 / 4 spring A^2: amplitude over A [-]",
    got: onBackbone,
    expected: 1,
    within: 2e-3,
    why: "the third harmonic's share, A^2 spring / 32, and the peak read at steps",
    origin: "exact",
    source: "[nayfeh-mook-1979] ch. 4 (from memory, to be confirmed)",
  },
  ...places.map(
    ([time, expected]): TruthRow => ({
      what: `spring and film, tone from rest that stops at 30: place at ${time} [-]`,
      got: () => place(time),
      expected,
      // Of the motion's size, 0.6, whatever the place.
      within: (2e-6 * 0.6) / Math.abs(expected),
      why: "steps of 0.01, and the second order of the two steps that begin anew where the tone stops",
      origin: "independent method",
      source: "steps of eighth order in time (another library's Dormand and Prince), to 1e-13",
    }),
  ),
];
