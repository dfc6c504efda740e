/**
 * Frequency responses: resonance and damping ratio of one or several second-order sections, from complex values or magnitudes
 * alone, with the half-power width as the second opinion. Derivation: docs/theory/responseReading.md.
 */
import { halfPowerDamping } from "../microphone/poles/dampingReadings.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { inverseOfNormal } from "../numerics/triangle.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import {
  type Correlation,
  correlationOf,
  coverageOfIntervals,
  type FitEvidence,
  type ReadValue,
  readValue,
  type SecondOpinion,
} from "./reading.ts";
import { notShown } from "./resonanceShown.ts";
import { pointsOf, type ResponseQuestion, type Taken } from "./responsePoints.ts";
import { perSection, type SectionData, type SectionShape, sectionCurve } from "./sectionModel.ts";
import { type ChosenSections, chooseSections } from "./sectionSearch.ts";
import { residualsOf } from "./whiteness.ts";

export interface ReadSection {
  readonly frequency: ReadValue;
  readonly dampingRatio: ReadValue;
  /** Far below its resonance. */
  readonly gain: ReadValue;
}

export interface ResponseReading extends FitEvidence {
  readonly kind: "response";
  readonly values: { readonly dampingRatio: ReadValue; readonly frequency: ReadValue; readonly gain: ReadValue };
  /** The strongest peak first. */
  readonly sections: readonly ReadSection[];
  readonly correlation: Correlation | null;
  readonly secondOpinion: SecondOpinion;
  readonly included: readonly string[];
  readonly used: { readonly from: number; readonly to: number; readonly count: number };
  /** Fitted curve at the points used. */
  readonly model: { readonly frequency: Float64Array; readonly re: Float64Array; readonly im: Float64Array };
}

/**
 * Reads a frequency response.
 *
 * Problems: `columns-unequal`, `too-few-points`, `silent`, `no-resonance`: no section fits, or what fits is not seen in the points
 * (resonanceShown.ts).
 * Remarks: that `no-resonance` where it is not to be refused, `peak-at-edge`, `peak-sparse`, `not-converged`, `residuals-not-white`, `second-section`.
 */
export function fitResponse(question: ResponseQuestion): Outcome<ResponseReading> {
  const taken = pointsOf(question);
  if (!taken.ok) return taken;
  const { data, scale, peak } = taken.value;
  const chosen = chooseSections(question, data, peak);
  if (chosen === null)
    return refuse({
      code: "no-resonance",
      path: ["frequency"],
      message: `No second-order section fits the ${data.x.length} points from ${(data.x[0]! * scale).toPrecision(4)} to ${(data.x.at(-1)! * scale).toPrecision(4)} Hz; needed: a response that rises to a resonance and falls. Mark the part around it.`,
    });
  return report(question, { data, scale, peak }, chosen);
}

function report(
  question: ResponseQuestion,
  { data, scale, peak }: Taken,
  { shape, fit }: ChosenSections,
): Outcome<ResponseReading> {
  const p = fit.parameters;
  const rows = data.x.length * (data.im === null ? 1 : 2);
  const degreesOfFreedom = rows - p.length;
  const variance = degreesOfFreedom > 0 ? fit.sumOfSquares / degreesOfFreedom : 0;
  const inverse = inverseOfNormal(fit.linearization!.triangle, p.length);
  const scaleOfVariance = question.standard === undefined ? variance : Math.max(1, variance);
  const covariance = inverse === null || degreesOfFreedom <= 0 ? null : inverse.map((value) => value * scaleOfVariance);
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const step = perSection(shape);
  const standard = (i: number) => (covariance === null ? null : Math.sqrt(covariance[i * p.length + i]!));
  const times = (value: number | null, by: number) => (value === null ? null : value * by);
  const sections = Array.from({ length: shape.sections }, (_, k): ReadSection & { readonly height: number } => {
    const at = k * step;
    const gain = shape.magnitudeOnly ? Math.abs(p[at + 2]!) : Math.hypot(p[at + 2]!, p[at + 3]!);
    return {
      frequency: readValue(p[at]! * scale, times(standard(at), scale), factor),
      dampingRatio: readValue(p[at + 1]!, standard(at + 1), factor),
      gain: readValue(gain, standard(at + 2), factor),
      height: gain / p[at + 1]!,
    };
  }).sort((a, b) => b.height - a.height);
  const frequency = data.x.map((x) => x * scale);
  const model = { frequency, ...sectionCurve(shape, p, data.x) };
  const residuals = residualList(data, model);
  const [main] = sections;
  const value: ResponseReading = {
    kind: "response",
    values: { dampingRatio: main!.dampingRatio, frequency: main!.frequency, gain: main!.gain },
    sections: sections.map(({ height: _, ...section }) => section),
    correlation: correlationOf(namesOf(shape), covariance),
    residuals: residualsOf(residuals),
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    stopped: fit.stopped,
    steps: fit.steps,
    secondOpinion: halfPower(data, scale, main!.frequency.value),
    included: [...(shape.rest > 0 ? ["constant"] : []), ...(shape.rest > 1 ? ["square of the frequency"] : [])],
    used: { from: frequency[0]!, to: frequency.at(-1)!, count: data.x.length },
    model,
  };
  const problem = notShown(value, shape.magnitudeOnly);
  if (problem !== null && question.unshown !== "remarked") return refuse(problem);
  return answer(value, [...(problem === null ? [] : [problem]), ...remarksOf(value, data, peak)]);
}

/** Residuals in order of frequency, real parts then imaginary parts. */
function residualList(data: SectionData, model: ResponseReading["model"]): Float64Array {
  const { re, im } = model;
  if (data.im === null) return data.re.map((value, i) => value - Math.hypot(re[i]!, im[i]!));
  return Float64Array.from([
    ...data.re.map((value, i) => value - re[i]!),
    ...data.im.map((value, i) => value - im[i]!),
  ]);
}

/** Half-power width over twice the resonance, on the measured points joined by straight lines. */
function halfPower(data: SectionData, scale: number, near: number): SecondOpinion {
  const at = (frequency: number) => {
    const x = frequency / scale;
    let high = data.x.findIndex((value) => value >= x);
    if (high < 0) high = data.x.length - 1;
    const low = Math.max(0, high - 1);
    const share = high === low ? 0 : Math.min(1, Math.max(0, (x - data.x[low]!) / (data.x[high]! - data.x[low]!)));
    const size = (i: number) => Math.hypot(data.re[i]!, data.im?.[i] ?? 0);
    return { re: size(low) + share * (size(high) - size(low)), im: 0 };
  };
  const inside = near > data.x[0]! * scale && near < data.x.at(-1)! * scale;
  const value = inside ? halfPowerDamping(at, near) : null;
  return {
    by: "half-power width",
    value,
    standardUncertainty: null,
    says:
      value === null
        ? "The flanks don't fall to half power within the points."
        : "From the points joined by lines; right for one lightly damped mode.",
  };
}

/** Names of the parameters of the sections, in their order. */
function namesOf(shape: SectionShape): readonly string[] {
  const labels = ["frequency", "dampingRatio", "gain", "quadrature"].slice(0, perSection(shape));
  return Array.from({ length: shape.sections * labels.length }, (_, i) =>
    shape.sections === 1 ? labels[i]! : `${labels[i % labels.length]} ${1 + Math.floor(i / labels.length)}`,
  );
}

function remarksOf(reading: ResponseReading, data: SectionData, peak: number): Problem[] {
  const remarks: Problem[] = [];
  const say = (code: string, message: string) => remarks.push({ code, path: [], message });
  const { frequency, dampingRatio } = reading.values;
  if (peak === 0 || peak === data.x.length - 1)
    say(
      "peak-at-edge",
      "The highest point is the first or last one: the resonance lies at the edge of the points or outside. Measure beyond it.",
    );
  const width = 2 * dampingRatio.value * frequency.value;
  const inside = reading.model.frequency.filter((f) => Math.abs(f - frequency.value) <= width / 2).length;
  if (inside < 4)
    say(
      "peak-sparse",
      `${inside} points lie within the half-power width of ${formatQuantity(width, "frequency", { digits: 2 })}; needed: four or more. Measure finer around ${formatQuantity(frequency.value, "frequency", { digits: 4 })}.`,
    );
  if (reading.stopped !== "converged")
    say(
      "not-converged",
      `The fit stopped after ${reading.steps} steps (${reading.stopped}); the values are the best found.`,
    );
  const { whiteness } = reading.residuals;
  if (whiteness !== null && whiteness.probability < 1e-3)
    say(
      "residuals-not-white",
      `The residuals follow a curve (neighbors correlate by ${whiteness.lagOne.toFixed(2)}): the response holds more than the sections fitted. Narrow the part around the resonance, or allow one section more.`,
    );
  const [, second] = reading.sections;
  if (second !== undefined)
    say(
      "second-section",
      `A second section at ${formatQuantity(second.frequency.value, "frequency", { digits: 4 })} was taken in.`,
    );
  return remarks;
}
