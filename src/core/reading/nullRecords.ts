/**
 * Null records: what is left when one thing is taken away at a time. Light blocked leaves the electrical part, one mode only
 * adds intensity, both modes add phase; with the hole plugged the phase that is no sound remains. The evidence for immunity.
 */
import { powerSpectrum } from "../numerics/spectra.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { coverageOfIntervals, type FitEvidence, type ReadValue, readValue } from "./reading.ts";

/** Power of a record in a band. */
export interface BandPower {
  /** Mean square, in the square of the output's unit. */
  readonly power: number;
  readonly degreesOfFreedom: number;
}

/** Mean square of a record between two frequencies. Problems: `too-few-samples`, `band-outside`. */
export function bandPower(
  y: Float64Array,
  { sampling, from, to }: { readonly sampling: number; readonly from: number; readonly to: number },
): Outcome<BandPower> {
  const segment = Math.min(y.length, Math.max(64, Math.round((8 * sampling) / Math.max(from, (to - from) / 100))));
  if (y.length < 64 || y.some(Number.isNaN))
    return refuse({
      code: "too-few-samples",
      path: ["y"],
      message: `Whole samples in a row: fewer than 64 of ${y.length}; needed: a record without gaps that holds many periods of the band.`,
    });
  if (!(from < to) || !(to <= sampling / 2))
    return refuse({
      code: "band-outside",
      path: ["to"],
      message: `The band ${from} to ${to} Hz does not lie below half the sampling, ${sampling / 2} Hz.`,
    });
  const { frequency, density, segments } = powerSpectrum(y, { sampling, segment, window: "hann", overlap: 0.5 });
  const width = frequency[1]!;
  let [power, bins] = [0, 0];
  frequency.forEach((f, k) => {
    if (f < from || f > to) return;
    power += density[k]! * width;
    bins += 1;
  });
  // Hann's bins are not independent (1.5 wide), overlapping segments are not either (their half overlap is worth about 5/6).
  return answer({ power, degreesOfFreedom: Math.max(1, (2 * bins * segments) / 1.5 / 1.2) });
}

export interface NullRecords {
  /** Light blocked. */
  readonly dark: BandPower;
  /** One mode launched alone, with its mean output over that of both modes (1 where absent). */
  readonly oneMode: BandPower;
  readonly lightShare?: number;
  /** Bias at +90 and at -90 degrees, hole open. */
  readonly plus: BandPower;
  readonly minus: BandPower;
  /** Hole plugged, bias at +90 degrees. */
  readonly plugged?: BandPower;
  /** The site's field off and on, hole plugged. */
  readonly fieldOff?: BandPower;
  readonly fieldOn?: BandPower;
}

export interface NullParts extends FitEvidence {
  readonly kind: "null";
  /** Mean squares: of amplifier and converter, of the light's intensity, of the phase, and of what the field adds. */
  readonly values: {
    readonly electrical: ReadValue;
    readonly intensity: ReadValue;
    readonly phase: ReadValue;
    readonly phaseWithoutSound?: ReadValue;
    readonly field?: ReadValue;
  };
  /** The two biases agree within their uncertainty: |difference| over its standard uncertainty. */
  readonly biasAgreement: number;
  /** Half the difference of the two biases, in the square of the output's unit: what the separation leaves unexplained. */
}

/** Separates the parts by differences of mean squares. Remarks: `part-negative`, `biases-differ`, `field-seen`. */
export function separateNull(records: NullRecords): Outcome<NullParts> {
  const { dark, oneMode, lightShare = 1, plus, minus, plugged, fieldOff, fieldOn } = records;
  const variance = ({ power, degreesOfFreedom }: BandPower) => (2 * power ** 2) / degreesOfFreedom;
  const part = (value: number, ...variances: readonly number[]) =>
    readValue(value, Math.sqrt(variances.reduce((sum, one) => sum + one, 0)), 1.959964);
  const share = lightShare ** 2;
  const electrical = part(dark.power, variance(dark));
  const intensity = part((oneMode.power - dark.power) / share, (variance(oneMode) + variance(dark)) / share ** 2);
  const both = (plus.power + minus.power) / 2;
  const fromBoth = (variance(plus) + variance(minus)) / 4;
  const phase = part(
    both - intensity.value - dark.power,
    fromBoth,
    variance(oneMode) / share ** 2,
    variance(dark) * (1 - 1 / share) ** 2,
  );
  const phaseWithoutSound =
    plugged === undefined
      ? null
      : part(plugged.power - intensity.value - dark.power, variance(plugged), variance(oneMode) / share ** 2);
  const field =
    fieldOff === undefined || fieldOn === undefined
      ? null
      : part(fieldOn.power - fieldOff.power, variance(fieldOn), variance(fieldOff));
  const biasAgreement = Math.abs(plus.power - minus.power) / Math.sqrt(variance(plus) + variance(minus));
  const remarks: Problem[] = [];
  for (const [name, value] of Object.entries({ intensity, phase }))
    if (value.high! < 0)
      remarks.push({
        code: "part-negative",
        path: [name],
        message: `The ${name} part comes out below zero beyond its uncertainty: the records were not taken under the same conditions.`,
      });
  if (biasAgreement > 3)
    remarks.push({
      code: "biases-differ",
      path: ["plus"],
      message: `The outputs at +90 and -90 degrees differ by ${biasAgreement.toFixed(1)} standard uncertainties: intensity that does not turn with the bias, or a bias that is not what it seems.`,
    });
  if (field !== null && field.low! > 0)
    remarks.push({
      code: "field-seen",
      path: ["fieldOn"],
      message: `The field adds ${field.value.toPrecision(2)} (standard uncertainty ${field.standardUncertainty!.toPrecision(2)}) to the mean square: the device or its electronics see it.`,
    });
  return answer(
    {
      kind: "null",
      values: {
        electrical,
        intensity,
        phase,
        ...(phaseWithoutSound !== null && { phaseWithoutSound }),
        ...(field !== null && { field }),
      },
      biasAgreement,
      residuals: { rms: Math.abs(plus.power - minus.power) / 2, whiteness: null },
      coverage: coverageOfIntervals,
      degreesOfFreedom: Math.round(plus.degreesOfFreedom + minus.degreesOfFreedom),
      stopped: "converged",
      steps: 1,
    },
    remarks,
  );
}
