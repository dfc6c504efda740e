/** Shares of the poles in the output, and which of them one calls the resonance. */

import { type ReducedLine, reducedResponseAt, reducedSystem, reduceLine } from "../../microphone/basis/reduced.ts";
import type { ReducedMatrices } from "../../microphone/basis/reducedBasis.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { withoutClosePoles } from "../../microphone/poles/closePoles.ts";
import { creepPartner } from "../../microphone/poles/creepPartner.ts";
import { motionResidue } from "../../microphone/poles/motionResidue.ts";
import { ownMotion } from "../../microphone/poles/ownMotion.ts";
import { modelOf } from "../../microphone/poles/poleModel.ts";
import type { Poles } from "../../microphone/poles/poles.ts";
import { poleResidue, poleShare } from "../../microphone/poles/shares.ts";
import type { PoleWithResidue } from "../../microphone/response/timeAnswers.ts";
import type { Line } from "../../microphone/system/line.ts";
import { firstSingularity } from "../../microphone/system/network.ts";
import { type Complex, complex } from "../../numerics/complex.ts";
import type { Prediction } from "./prediction.ts";

/** Real poles with less than this share of the static output are no resonance. */
export const heard = 0.05;

/** So slow that every vent has let its air through [Hz]. */
const restFrequency = 1e-3;

/** Damping ratio above which a pair of poles has nearly met. */
const nearlyMet = 0.99;

export interface PoleShares extends Pick<Prediction, "resonances" | "decays"> {
  /** For answers in time: poles about to meet are taken together (closePoles.ts). */
  readonly withResidues: readonly PoleWithResidue[];
  /** Output at rest [rad/Pa], trapped air included. */
  readonly atRest: number;
}

/** Poles with their residues, the output at rest, and their shares of it, read in the basis that they were searched in. */
export const sharesOf = (poles: Poles, microphone: Microphone, line: Line): PoleShares =>
  sharesIn(poles, microphone, { basis: poles.basis, line: reduceLine(poles.basis, line) });

/** The same where the line of light is in that basis already. */
export function sharesIn(
  poles: Pick<Poles, "oscillating" | "motions" | "real">,
  microphone: Microphone,
  { basis, line }: { readonly basis: ReducedMatrices; readonly line: ReducedLine },
): PoleShares {
  const all = [...poles.oscillating.map(({ omega }) => omega), ...poles.real.map(({ rate }) => complex(0, rate))];
  const system = reducedSystem(basis, microphone);
  const causal = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const lossless = reducedSystem(basis, causal);
  const respond = (omega: Complex) => reducedResponseAt(system, line, omega);
  const creep = (omega: Complex) => reducedResponseAt(lossless, line, omega);
  // A guide in a null has no static output to share; then shares are absolute.
  const atRest = respond(complex(2 * Math.PI * restFrequency)).re;
  const output = atRest === 0 ? 1 : atRest;
  const withResidues = all.map((omega, i) => {
    const motion = i < poles.oscillating.length ? poles.motions?.[i] : undefined;
    // Two poles that have nearly met carry large parts that nearly cancel; a constant loss factor, which is not causal, tears them apart.
    if ((poles.oscillating[i]?.dampingRatio ?? 0) > nearlyMet) {
      const calm = ownMotion(modelOf(lossless, new Float64Array(0)).form, omega, { within: 1e-9 });
      if (calm && calm.omega.re > 0)
        return { omega: calm.omega, residue: motionResidue(calm, { microphone: causal, basis, line }) };
    }
    // What creeps was found without the loss factor, which turns it off the axis.
    const around = omega.re === 0 ? creep : respond;
    const residue = motion ? motionResidue(motion, { microphone, basis, line }) : poleResidue(around, omega, all);
    return { omega, residue };
  });
  const share = (i: number) => poleShare(withResidues[i]!.residue, withResidues[i]!.omega, output);
  const count = poles.oscillating.length;
  return {
    resonances: poles.oscillating.map(({ frequency, dampingRatio }, i) => ({
      frequency,
      dampingRatio,
      share: share(i),
    })),
    decays: poles.real.map(({ rate }, i) => ({
      rate,
      share: share(count + i),
      partner: Math.abs(share(count + i)) >= heard ? creepPartner(lossless, rate) : null,
    })),
    withResidues: withoutClosePoles(withResidues, {
      lossFactor: microphone.diaphragm.lossFactor,
      lossless: creep,
      singular: firstSingularity(microphone),
    }),
    atRest,
  };
}

/** Poles with at least this share of the strongest one's compete for the name of resonance; the slowest of them gets it. */
const competing = 0.25;

/** What rings within so many times the frequency of an overdamped resonance is that resonance, and the slow pole something else. */
const same = 1.5;

/** Of two real poles of one motion: sqrt(r1 r2) / 2 pi [Hz] and (r1 + r2) / (2 sqrt(r1 r2)). */
function pairOf(rate: number, partner: number) {
  const product = Math.sqrt(rate * partner);
  return { frequency: product / (2 * Math.PI), dampingRatio: (rate + partner) / (2 * product) };
}

/** Everything that one might call the resonance: what rings and is heard at all, and overdamped ones with their partner. */
export const candidates = (
  resonances: Prediction["resonances"],
  decays: Prediction["decays"],
): readonly { readonly frequency: number; readonly dampingRatio: number }[] => [
  ...resonances.filter(({ share }) => Math.abs(share) > 1e-9),
  ...decays.flatMap(({ rate, partner }) => (partner === null ? [] : [pairOf(rate, partner)])),
];
/** Damping ratio beyond which a slow pole is a vent's or a leak's where anything strong rings at all; not derived. */
const slowest = 100;

/**
 * The slowest of the strong poles. A real one counts as overdamped resonance with its partner (creepPartner.ts), unless something
 * strong rings where the two together would: then that is the resonance, and the slow pole belongs to a vent or a leak.
 */
export function mainResonance(
  resonances: Prediction["resonances"],
  decays: Prediction["decays"],
): Prediction["resonance"] {
  const sizes = [...resonances, ...decays].map(({ share }) => Math.abs(share));
  const strongest = Math.max(0, ...sizes);
  // Nothing is put out at all: a sealed front, a guide in a null.
  if (strongest === 0) {
    const first = resonances[0];
    return { frequency: first?.frequency ?? null, dampingRatio: first?.dampingRatio ?? null, overdamped: false };
  }
  const strong = ({ share }: { share: number }) => Math.abs(share) >= competing * strongest;
  // What hardly turns before it has died is a pair about to meet on the axis, or one that has.
  const ringing = resonances.find((pole) => strong(pole) && pole.dampingRatio < 0.9999);
  for (const { rate, partner } of decays.filter(strong)) {
    if (partner === null) continue;
    const pair = pairOf(rate, partner);
    if (ringing && (ringing.frequency < same * pair.frequency || pair.dampingRatio > slowest)) continue;
    return { ...pair, overdamped: true };
  }
  const left = ringing ?? resonances.find(strong);
  if (left) return { frequency: left.frequency, dampingRatio: left.dampingRatio, overdamped: false };
  return { frequency: null, dampingRatio: null, overdamped: decays.some(strong) };
}
