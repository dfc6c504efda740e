/** Numbers that explain: where the power goes, what makes each resonance, which part limits the band, and what one damping ratio hides. */

import type { EngineAnswer } from "../../microphone/engine.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import type { OscillatingPole } from "../../microphone/poles/poles.ts";
import { ventCorner } from "../../microphone/poles/ventCorner.ts";
import { type Curve, readCurve } from "../../microphone/response/curve.ts";
import { poleEnergies } from "../../microphone/response/energies.ts";
import { influences } from "../../microphone/response/influence.ts";
import { type Losses, lossesOf, lossShares } from "../../microphone/response/losses.ts";
import { coupledSystem, setFrequency } from "../../microphone/system/coupled.ts";
import { stateAt } from "../../microphone/system/state.ts";
import { complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import type { Limit, Prediction } from "./prediction.ts";

type Parts = NonNullable<Prediction["parts"]>;

/** Frequencies at which shares of the losses are given. */
const count = 12;

/** Poles with at least this share of the static output are explained, six at most. */
const heard = 0.01;

export function partsOfAnswer(
  answered: EngineAnswer,
  microphone: Microphone,
  known: Pick<Prediction, "resonances" | "resonance" | "band"> & {
    readonly oscillating: readonly OscillatingPole[];
  },
): Parts {
  const { entry, curve } = answered;
  const system = coupledSystem(entry.prepared, microphone);
  const lossesAt = (frequency: number): Losses | null => {
    const omega = complex(2 * Math.PI * frequency);
    setFrequency(system, omega);
    return lossShares(lossesOf(system, stateAt(system, omega, { sound: complex(1) })));
  };
  const { reference } = known.band;
  const frequency = Array.from({ length: count }, (_, i) => curve.from * pow(curve.to / curve.from, i / (count - 1)));
  const makes = known.oscillating
    .map((pole, i) => ({ pole, share: Math.abs(known.resonances[i]?.share ?? 0) }))
    .filter(({ share }) => share >= heard)
    .slice(0, 6)
    .map(({ pole }) => ({
      frequency: pole.frequency,
      dampingRatio: pole.dampingRatio,
      energy: poleEnergies(system, pole.omega),
    }));
  return {
    losses: {
      atReference: lossesAt(reference),
      atResonance: known.resonance.frequency === null ? null : lossesAt(known.resonance.frequency),
      frequency,
      shares: frequency.map(lossesAt),
    },
    resonances: makes,
    limits: limitsOf(answered, microphone, known),
    corner: ventCorner(system),
    secondOrder: secondOrderOf(curve, known.resonance, reference),
  };
}

/** What the levels at the ends of the band and at the resonance depend on, re the level at the reference. */
function limitsOf(
  { entry, line }: EngineAnswer,
  microphone: Microphone,
  { band, resonance }: Pick<Prediction, "band" | "resonance">,
): Parts["limits"] {
  const asked = { low: band.from, resonance: resonance.frequency, top: band.to };
  const frequencies = Object.values(asked).filter((one) => one !== null);
  const found = influences(entry.prepared, microphone, line, { frequencies, reference: band.reference });
  const limit = (frequency: number | null): Limit | null => {
    if (frequency === null || frequency === band.reference) return null;
    const all = found[frequencies.indexOf(frequency)] ?? [];
    const [strongest] = all;
    if (strongest === undefined || !all.every(({ decibels }) => Number.isFinite(decibels))) return null;
    return { frequency, part: strongest.part, influences: all };
  };
  return { low: limit(asked.low), resonance: limit(asked.resonance), top: limit(asked.top) };
}

/**
 * Largest difference in level, up to 1.4 times the resonance and re the reference, between the response and one resonance of
 * that frequency and damping ratio: 1 / (1 - x^2 + 2 i zeta x).
 */
function secondOrderOf(curve: Curve, resonance: Prediction["resonance"], reference: number): Parts["secondOrder"] {
  const { frequency: f0, dampingRatio: zeta } = resonance;
  if (f0 === null || zeta === null || !curve.converged) return null;
  const upTo = Math.min(curve.to, 1.4 * f0);
  if (!(upTo > reference)) return null;
  const points = Array.from({ length: 80 }, (_, i) => reference * pow(upTo / reference, i / 79));
  const { re, im } = readCurve(curve, Float64Array.from(points));
  const section = (f: number) => -10 * Math.log10((1 - (f / f0) ** 2) ** 2 + (2 * zeta * (f / f0)) ** 2);
  const level = (i: number) => 20 * Math.log10(Math.hypot(re[i]!, im[i]!));
  const off = points.map((f, i) => Math.abs(level(i) - level(0) - (section(f) - section(reference))));
  const decibels = Math.max(...off);
  return Number.isFinite(decibels) ? { decibels, upTo } : null;
}
