/** What the linear device does at one tone: what distortion is made from. Derivation: docs/theory/loudest.md. */
import { absolute, add, type Complex, complex, divide, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { valuesAt } from "../../parts/diaphragm/polynomials.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { type FilmLayer, filmLayer, layerCoefficients } from "../../parts/film/coefficients.ts";
import type { ShapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { type CoupledSystem, coupledSystem, setFrequency, solveLoad } from "../system/coupled.ts";
import { type Line, prepareLine } from "../system/line.ts";
import { type DeviceState, readState, stateAt } from "../system/state.ts";
import type { Multiple } from "./harmonicBalance.ts";
import { type Stretch, stretchFor } from "./phaseSeries.ts";

/** What a device does at one tone and its multiples, linear in each. */
export interface Tone {
  /** Phase of each guide at the tone [rad per Pa of sound]. */
  readonly phase: readonly Complex[];
  /** Phase of each guide per pascal on the plate, at every multiple of the tone from 0 on [rad/Pa]. */
  readonly plate: readonly (readonly Complex[])[];
  /** Plate and film at those multiples. */
  readonly multiples: readonly Multiple[];
  /** Share of the gap that is taken away by the deflection of 1 Pa at rest, where the film is squeezed [1/Pa]; 0 without film. */
  readonly closing: number;
  /** Mean deflection at the tone over that of the plate at rest, without a static load [-], and deflection at the center [m/Pa]. */
  readonly moved: number;
  readonly center: number;
  /** Pressure before the diaphragm [Pa/Pa]. */
  readonly front: Complex;
}

/** A diaphragm's stretch and each guide's line, kept with the shape while the diaphragm and the guides stay. */
export interface LoudestParts {
  readonly key: string;
  readonly lines: readonly Line[];
  readonly stretch: Stretch;
}

/** What is needed of a shape. */
export type LoudestEntry = Pick<ShapeEntry, "prepared" | "static" | "loudest">;

export function partsOf(entry: LoudestEntry, microphone: Microphone): LoudestParts {
  const { diaphragm, guides, light, load } = microphone;
  const key = JSON.stringify([diaphragm, guides, light.wavelength, load?.difference ?? 0]);
  if (entry.loudest?.key === key) return entry.loudest;
  const made = {
    key,
    lines: guides.map((guide) => prepareLine(entry.prepared, { ...microphone, guides: [{ ...guide, weight: 1 }] })),
    stretch: stretchFor(microphone, null),
  };
  entry.loudest = made;
  return made;
}

/** So slow that every vent has let its air through [Hz]. */
export const restFrequency = 1e-3;
/** Multiples of a tone that first terms are made of. */
export const multiplesToThird = 3;

/** `parts.lines`: those of the guides one by one, each with weight 1; `highest`: the last multiple of the tone that is asked. */
export function toneAt(
  entry: Pick<LoudestEntry, "prepared" | "static">,
  microphone: Microphone,
  parts: Pick<LoudestParts, "lines">,
  frequency: number,
  highest = multiplesToThird,
): Tone {
  const answers = deviceAnswers(entry, microphone, parts);
  const { system, atRest, flat } = answers;
  const zero = complex(0);
  let tone: Pick<Tone, "phase" | "closing" | "moved" | "center" | "front"> | null = null;
  const plate: (readonly Complex[])[] = [];
  const multiples: Multiple[] = [];
  for (let k = 0; k <= highest; k++) {
    const omega = 2 * Math.PI * (k === 0 ? restFrequency : k * frequency);
    const { pressed, slow, bySound } = answers.at(omega);
    const sound = k === 1 ? bySound() : null;
    plate.push(pressed.phase);
    multiples.push({
      moved: { sound: sound?.moved ?? zero, plate: k === 0 ? complex(pressed.moved.re) : pressed.moved },
      film: { sound: sound?.film ?? zero, plate: k === 0 ? complex(pressed.film.re) : pressed.film },
      slow,
    });
    if (sound) {
      tone = {
        phase: sound.phase,
        closing: closingBy(system, sound.state.q, sound.moved),
        moved: (absolute(sound.moved) * atRest) / flat,
        center: absolute(sound.moved) * centerPerMoved(entry, microphone, atRest),
        front: sound.state.front,
      };
    }
  }
  return { ...tone!, plate, multiples };
}

/** Deflection at the center while x is 1 Pa [m/Pa]. */
const centerPerMoved = (entry: Pick<LoudestEntry, "prepared" | "static">, { diaphragm }: Microphone, atRest: number) =>
  (plateScales(diaphragm).deflection * atRest * centerOverMean(entry)) / 4;

/** Deflection at the center while x is 1 Pa [m/Pa], and the room that the load at rest leaves to the wall [m]; null: no wall. */
export function centerAtRest(
  entry: LoudestEntry,
  microphone: Microphone,
): { readonly center: number; readonly room: number | null } {
  const { atRest } = deviceAnswers(entry, microphone, partsOf(entry, microphone));
  return { center: centerPerMoved(entry, microphone, atRest), room: roomToWall(microphone) };
}

/** Null: no film. */
export function roomToWall({ film, load }: Microphone): number | null {
  const settled = load?.settled;
  if (!film) return null;
  return settled ? (settled.gap ?? film.gap) - settled.center : film.gap;
}

/** What one drive moves: x and the film's mean pressure per pascal of it, and the phase of each guide [rad/Pa]. */
export interface Answer {
  readonly moved: Complex;
  readonly film: Complex;
  readonly phase: readonly Complex[];
}

/** The linear device made ready for any frequency. */
export interface DeviceAnswers {
  readonly system: CoupledSystem;
  /** What 1 Pa sweeps of the plate at rest, about its static load and without one. */
  readonly atRest: number;
  readonly flat: number;
  /** At omega [rad/s]: per pascal on the plate and, when asked, per pascal of sound; the share of slow flow in the film. */
  at(omega: number): {
    readonly pressed: Answer;
    readonly slow: Complex;
    bySound(): Answer & { readonly state: DeviceState };
  };
}

export function deviceAnswers(
  { prepared, static: answer }: Pick<LoudestEntry, "prepared" | "static">,
  microphone: Microphone,
  { lines }: Pick<LoudestParts, "lines">,
): DeviceAnswers {
  const system = coupledSystem(prepared, microphone);
  const { load } = prepared.plate;
  const flat = dot(prepared.fine.load, answer);
  const atRest = microphone.load ? sweptAtRest(prepared, microphone) : flat;
  const even = { re: load, im: new Float64Array(load.length) };
  const slow = slowShareOf(microphone);
  const answerOf = (state: DeviceState, read = state): Answer => ({
    moved: scale({ re: dot(load, state.q.re), im: dot(load, state.q.im) }, 1 / atRest),
    film:
      state.film && system.ones
        ? { re: dot(system.ones, state.film.re) / 4, im: dot(system.ones, state.film.im) / 4 }
        : complex(0),
    phase: lines.map((line) => readState(system, line, read)),
  });
  return {
    system,
    atRest,
    flat,
    at: (value) => {
      const omega = complex(value);
      setFrequency(system, omega);
      const onPlate = stateAt(system, omega, { load: even });
      return {
        // What the influence function reads of an even load on the plate comes by the pushes.
        pressed: answerOf(onPlate, { ...onPlate, pushes: { ...onPlate.pushes, plate: complex(1) } }),
        slow: slow(omega),
        bySound: () => {
          const state = stateAt(system, omega, { sound: complex(1) });
          return { ...answerOf(state), state };
        },
      };
    },
  };
}

/** What a pressure of 1 sweeps of the plate about its static load, at rest, without film. */
function sweptAtRest(prepared: LoudestEntry["prepared"], microphone: Microphone): number {
  const alone = coupledSystem({ ...prepared, film: null }, { ...microphone, film: null });
  setFrequency(alone, complex(2 * Math.PI * restFrequency));
  return dot(prepared.plate.load, solveLoad(alone, prepared.plate.load).re);
}

/** The deflection at the center over its mean, of the plate at rest. */
function centerOverMean({ prepared, static: answer }: Pick<LoudestEntry, "prepared" | "static">): number {
  const { fine } = prepared;
  const [across, along] = [fine.across, fine.along].map((basis) => valuesAt(basis, 0).value) as [
    Float64Array,
    Float64Array,
  ];
  let center = 0;
  for (let i = 0; i < across.length; i++)
    for (let j = 0; j < along.length; j++) center += answer[i * along.length + j]! * across[i]! * along[j]!;
  return (4 * center) / dot(fine.load, answer);
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** The gap closes by <w^2> / (<w> g) where the film is squeezed; `moved`: over the deflection of 1 Pa at rest. */
function closingBy({ microphone, prepared, scales }: CoupledSystem, q: ComplexVector, moved: Complex): number {
  const { film } = microphone;
  if (!film) return 0;
  const swept = { re: dot(prepared.plate.load, q.re), im: dot(prepared.plate.load, q.im) };
  const squares = quadratic(prepared.mass, q);
  return divide(scale(divide(squares, swept), scales.deflection / film.gap), moved).re;
}

/**
 * Share of slow flow in the film's pressure at its longest wave, at any frequency [-]: that part goes with the gap to the power -3,
 * the air's spring and mass to the power -1. From n = d ln(Psi k^2 + chi) / d ln g, the power of both together: (n - 1) / 2.
 */
export function slowShareOf({ film, air, diaphragm }: Microphone): (omega: Complex) => Complex {
  if (!film) return () => complex(0);
  const open = (edge: "open" | "closed", side: number) => (edge === "open" ? (Math.PI / side) ** 2 : 0);
  const k2 = open(film.edges.sides, diaphragm.across) + open(film.edges.ends, diaphragm.along);
  const step = 1e-4;
  const layerOf = (share: number) => filmLayer({ gap: film.gap * share, air });
  const [thinner, thicker] = [layerOf(1 - step), layerOf(1 + step)];
  const stiff = (layer: FilmLayer, omega: Complex): Complex => {
    const { psi, chi } = layerCoefficients(layer, omega);
    return { re: psi.re * k2 + chi.re, im: psi.im * k2 + chi.im };
  };
  return (omega) => {
    const [below, above] = [stiff(thinner, omega), stiff(thicker, omega)];
    const power = divide(subtract(above, below), scale(add(above, below), step));
    return { re: (power.re - 1) / 2, im: power.im / 2 };
  };
}

/** q^T M q. */
function quadratic(matrix: Float64Array, { re, im }: ComplexVector): Complex {
  const n = re.length;
  let [sumRe, sumIm] = [0, 0];
  for (let i = 0; i < n; i++) {
    let [a, b] = [0, 0];
    for (let k = 0; k < n; k++) {
      a += matrix[i * n + k]! * re[k]!;
      b += matrix[i * n + k]! * im[k]!;
    }
    sumRe += re[i]! * a - im[i]! * b;
    sumIm += re[i]! * b + im[i]! * a;
  }
  return { re: sumRe, im: sumIm };
}
