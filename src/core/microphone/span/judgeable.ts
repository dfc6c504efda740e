/** What a verdict needs of a device, whatever it was computed in. */
import { type Complex, complex } from "../../numerics/complex.ts";
import { dot } from "../basis/reducedBasis.ts";
import { type Tone, toneAt } from "../loudest/tone.ts";
import type { Microphone } from "../microphone.ts";
import type { LineClass } from "../noise/lineAnswer.ts";
import { ventCorner } from "../poles/ventCorner.ts";
import type { Curve } from "../response/curve.ts";
import { prepareLine } from "../system/line.ts";
import { type LeanResponse, leanResponse } from "./lean.ts";

export interface Judgeable {
  readonly microphone: Microphone;
  readonly curve: Curve;
  /** S [rad/Pa] at a frequency [rad/s]. */
  readonly respond: (omega: Complex) => Complex;
  /** Phase per acceleration of the frame along z [rad s2/m]. */
  readonly accelerate: (omega: Complex) => Complex;
  /** Estimate of the largest |dS| / max(|S|, 1e-3 |S static|) [-]. */
  readonly estimate: number;
  /** Poles that the response shows, with their share of the output at rest. */
  readonly resonances: LeanResponse["resonances"];
  readonly decays: LeanResponse["decays"];
  /** F^T K^-1 F of the plate at rest, without dimension. */
  readonly volume: number;
  /** What a tone does, for distortion (loudest.ts); the deflection at the center over its mean, at rest, where it is known. */
  readonly tone: (frequency: number, centerOverMean: number | null) => Tone;
  /** The line of light in the whole basis; null: the device was not computed there. */
  readonly heatLine: LineClass | null;
  /** Corner of vent and leak [Hz]; null: nothing lets the pressure through. */
  readonly corner: () => number | null;
}

/** Range of the curve [Hz], given the first resonance in vacuum [Hz]. */
export type RangeOf = (first: number) => { readonly from: number; readonly to: number };

/** A device by itself, nothing shared with others (lean.ts). It must not be buckled. */
export function judgedAlone(microphone: Microphone, rangeOf: RangeOf, tolerance: number): Judgeable {
  const lean = leanResponse(microphone, rangeOf, tolerance);
  const { prepared, system } = lean;
  const lines = () =>
    microphone.guides.map((guide) => prepareLine(prepared, { ...microphone, guides: [{ ...guide, weight: 1 }] }));
  return {
    microphone,
    curve: lean.curve,
    respond: lean.respond,
    accelerate: lean.accelerate,
    estimate: lean.estimate,
    resonances: lean.resonances,
    decays: lean.decays,
    volume: dot(prepared.fine.load, lean.static),
    tone: (frequency) => toneAt(lean, microphone, { lines: lines() }, frequency),
    heatLine: { system, line: lean.line },
    corner: () => ventCorner(system),
  };
}

export const angular = (frequency: number): Complex => complex(2 * Math.PI * frequency);
