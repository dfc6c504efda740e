/**
 * Sensitivity at one tone, against a known pressure: a sound calibrator or a coupler, or a reference microphone
 * in the same field, beside it or in its place. With its budget, line by line. Source: [iec-60942], [iec-61094-5].
 */
import { powerSpectrum } from "../numerics/spectra.ts";
import { noiseBandwidth } from "../numerics/windows.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import type { Budget } from "./budget.ts";
import { compareSensitivity, type PressureLines } from "./calibration.ts";
import { coverageOfIntervals, type FitEvidence, type ReadValue, readValue, type SecondOpinion } from "./reading.ts";
import { fitTone, type Tone } from "./tone.ts";
import { residualsOf } from "./whiteness.ts";

export interface Recorded {
  readonly y: Float64Array;
  /** [Hz] */
  readonly sampling: number;
}

/** Where the pressure is known from. */
export type PressureSource =
  | {
      readonly how: "calibrator";
      /** Root mean square [Pa]. */
      readonly pressure: number;
      /** Coupler's volume and what the microphone adds [m^3]. */
      readonly coupler?: { readonly volume: number; readonly added: number };
      /** Static pressure over that of the calibrator's certificate, for a pistonphone, whose sound goes with it; 1 where absent. */
      readonly ambient?: number;
    }
  | {
      readonly how: "substitution" | "simultaneous";
      readonly reference: Recorded;
      /** [V/Pa], or the reference's own record in a calibrator. */
      readonly sensitivity: number | { readonly record: Recorded; readonly pressure: number };
    };

export interface SensitivityReading extends FitEvidence {
  readonly kind: "sensitivity";
  readonly how: PressureSource["how"];
  readonly values: {
    /** Output per pascal, in the unit of the output. */
    readonly sensitivity: ReadValue;
    readonly frequency: ReadValue;
    /** Amplitude of the tone in the output. */
    readonly amplitude: ReadValue;
    /** Of the sound at the microphone, root mean square [Pa]. */
    readonly pressure: ReadValue;
  };
  readonly budget: Budget;
  /** The amplitude from a flat-top spectrum. */
  readonly secondOpinion: SecondOpinion;
  readonly model: Float64Array;
}

/**
 * Problems: those of `fitTone` and `compareSensitivity`, `tones-differ`. Remarks: `line-missing`, `linear-picture-fails`,
 * `no-conductor` (why there is no electrostatic actuator among the ways).
 */
export function readSensitivity({
  record,
  source,
  lines,
  repeats,
  near,
}: {
  readonly record: Recorded;
  readonly source: PressureSource;
  /** Shares of the pressure, as standard uncertainties. */
  readonly lines: Partial<PressureLines>;
  readonly repeats?: number;
  readonly near?: number;
}): Outcome<SensitivityReading> {
  const tone = fitTone(record.y, record.sampling, near);
  if (!tone.ok) return tone;
  const known = pressureAmplitude(source, tone.value);
  if (!known.ok) return known;
  const { pressure, share } = known.value;
  const { amplitude, frequency, standard, degreesOfFreedom, residuals, stopped, steps, model } = tone.value;
  const own = standard === null ? 0 : standard.amplitude / amplitude;
  const compared = compareSensitivity({
    output: amplitude,
    referenceOutput: pressure,
    referenceSensitivity: 1,
    how: source.how,
    ...(source.how === "calibrator" && source.coupler && { coupler: source.coupler }),
    lines,
    ...(repeats !== undefined && { repeats }),
    scatter: { share: Math.hypot(own, share), degreesOfFreedom },
  });
  if (!compared.ok) return compared;
  const budget = compared.value;
  const atMicrophone = amplitude / budget.value / Math.SQRT2;
  const relative = budget.standardUncertainty / budget.value;
  return answer(
    {
      kind: "sensitivity",
      how: source.how,
      values: {
        sensitivity: readValue(budget.value, budget.standardUncertainty, budget.coverageFactor),
        frequency: readValue(frequency, standard?.frequency ?? null, 1.96),
        amplitude: readValue(amplitude, standard?.amplitude ?? null, 1.96),
        pressure: readValue(atMicrophone, atMicrophone * Math.sqrt(Math.max(0, relative ** 2 - own ** 2)), 1.96),
      },
      budget,
      residuals: residualsOf(residuals),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      secondOpinion: bySpectrum(record, frequency, budget.value / amplitude),
      model,
    },
    [...compared.remarks, noConductor],
  );
}

const noConductor: Problem = {
  code: "no-conductor",
  path: [],
  message:
    "An electrostatic actuator, the usual check of a microphone, pulls at a conductor; a glass diaphragm has none, so it is no way here.",
};

/** Amplitude of the pressure, before the coupler's load; `share`: what the reference's own fits scatter. */
function pressureAmplitude(
  source: PressureSource,
  tone: Tone,
): Outcome<{ readonly pressure: number; readonly share: number }> {
  if (source.how === "calibrator")
    return answer({ pressure: source.pressure * Math.SQRT2 * (source.ambient ?? 1), share: 0 });
  const heard = fitTone(source.reference.y, source.reference.sampling, tone.frequency);
  if (!heard.ok) return heard;
  const strongest = fitTone(source.reference.y, source.reference.sampling);
  if (strongest.ok && strongest.value.amplitude > 3 * heard.value.amplitude)
    return refuse({
      code: "tones-differ",
      path: ["reference"],
      message: `The output holds a tone at ${tone.frequency.toPrecision(5)} Hz, the reference at ${strongest.value.frequency.toPrecision(5)} Hz; needed: the same tone in both.`,
    });
  const share = (one: Tone) => (one.standard === null ? 0 : one.standard.amplitude / one.amplitude);
  const { sensitivity } = source;
  if (typeof sensitivity === "number")
    return sensitivity > 0
      ? answer({ pressure: heard.value.amplitude / sensitivity, share: share(heard.value) })
      : refuse({
          code: "no-reference",
          path: ["referenceSensitivity"],
          message: `Sensitivity of the reference: ${sensitivity}; needed: above zero.`,
        });
  const calibrated = fitTone(sensitivity.record.y, sensitivity.record.sampling);
  if (!calibrated.ok) return calibrated;
  return answer({
    pressure: (heard.value.amplitude / calibrated.value.amplitude) * sensitivity.pressure * Math.SQRT2,
    share: Math.hypot(share(heard.value), share(calibrated.value)),
  });
}

/** The tone's height in a flat-top spectrum: power of the lines around it. */
function bySpectrum({ y, sampling }: Recorded, frequency: number, perOutput: number): SecondOpinion {
  const by = "flat-top spectrum";
  const segment = Math.min(y.length, 65_536);
  const none = (says: string): SecondOpinion => ({ by, value: null, standardUncertainty: null, says });
  if (y.some(Number.isNaN)) return none("samples are missing");
  if ((frequency * segment) / sampling < 12) return none("fewer than 12 periods: the lines run together");
  const { frequency: at, density } = powerSpectrum(y, { sampling, segment, window: "flatTop", overlap: 0.5 });
  const bin = at[1]!;
  let top = Math.round(frequency / bin);
  at.forEach((f, k) => {
    if (Math.abs(f - frequency) <= 3 * bin && density[k]! > density[top]!) top = k;
  });
  const amplitude = Math.sqrt(2 * density[top]! * bin * noiseBandwidth("flatTop"));
  return {
    by,
    value: amplitude * perOutput,
    standardUncertainty: null,
    says: "no sine was fitted; noise in the line counts",
  };
}
