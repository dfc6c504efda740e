/**
 * Frequency responses: resonance and damping ratio of one or several second-order sections, from complex values or magnitudes
 * alone, with the half-power width as the second opinion. Derivation: docs/theory/responseReading.md.
 */
import { halfPowerDamping } from "../microphone/poles/dampingReadings.ts";
import { type Minimum, minimizeSquares } from "../numerics/minimizeSquares.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { inverseOfNormal } from "../numerics/triangle.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { demanded, promising } from "./nestedFits.ts";
import {
  type Correlation,
  coverageOfIntervals,
  type ReadValue,
  type Residuals,
  readValue,
  type SecondOpinion,
} from "./reading.ts";
import {
  perSection,
  type SectionData,
  type SectionShape,
  sectionCurve,
  sectionParameters,
  sectionSquares,
} from "./sectionModel.ts";
import { whitenessOf } from "./whiteness.ts";

export interface ResponseQuestion {
  /** [Hz] */
  readonly frequency: ArrayLike<number>;
  /** Real parts, or magnitudes where `im` is absent; in the unit of the output per that of the input. */
  readonly re: ArrayLike<number>;
  readonly im?: ArrayLike<number>;
  /** Standard uncertainty of each part; alike and from the residuals where absent. */
  readonly standard?: ArrayLike<number>;
  /** Part to fit [Hz]; all where absent. */
  readonly from?: number;
  readonly to?: number;
  /** Number of sections; one, or two where the data demand it, where absent. */
  readonly sections?: number;
  /** Terms beside the sections: 0 to 2; as the data demand where absent. */
  readonly rest?: number;
  /** Where the resonance lies, about [Hz]; the highest point where absent. */
  readonly near?: number;
}

export interface ReadSection {
  readonly frequency: ReadValue;
  readonly dampingRatio: ReadValue;
  /** Far below its resonance. */
  readonly gain: ReadValue;
}

export interface ResponseReading {
  readonly kind: "response";
  readonly values: { readonly dampingRatio: ReadValue; readonly frequency: ReadValue; readonly gain: ReadValue };
  /** The strongest peak first. */
  readonly sections: readonly ReadSection[];
  readonly correlation: Correlation | null;
  readonly residuals: Residuals;
  readonly coverage: number;
  readonly degreesOfFreedom: number;
  readonly stopped: string;
  readonly steps: number;
  readonly secondOpinion: SecondOpinion;
  readonly included: readonly string[];
  readonly used: { readonly from: number; readonly to: number; readonly count: number };
  /** Fitted curve at the points used. */
  readonly model: { readonly frequency: Float64Array; readonly re: Float64Array; readonly im: Float64Array };
}

/**
 * Reads a frequency response.
 *
 * Problems: `columns-unequal`, `too-few-points`, `silent`, `no-resonance`.
 * Remarks: `peak-at-edge`, `peak-sparse`, `not-converged`, `residuals-not-white`, `second-section`.
 */
export function fitResponse(question: ResponseQuestion): Outcome<ResponseReading> {
  const taken = dataOf(question);
  if (!taken.ok) return taken;
  const { data, scale, peak } = taken.value;
  const chosen = choose(question, data, peak);
  if (chosen === null)
    return refuse({
      code: "no-resonance",
      path: ["frequency"],
      message: `No second-order section fits the ${data.x.length} points from ${(data.x[0]! * scale).toPrecision(4)} to ${(data.x.at(-1)! * scale).toPrecision(4)} Hz; needed: a response that rises to a resonance and falls. Mark the part around it.`,
    });
  return report(question, { data, scale, peak }, chosen);
}

interface Taken {
  readonly data: SectionData;
  /** [Hz] */
  readonly scale: number;
  /** Index of the highest point. */
  readonly peak: number;
}

function dataOf({ frequency, re, im, standard, from, to, near }: ResponseQuestion): Outcome<Taken> {
  for (const [name, list] of [
    ["re", re],
    ["im", im],
    ["standard", standard],
  ] as const)
    if (list !== undefined && list.length !== frequency.length)
      return refuse({
        code: "columns-unequal",
        path: [name],
        message: `${name} has ${list.length} numbers for ${frequency.length} frequencies; needed: one for each.`,
      });
  const order = Array.from({ length: frequency.length }, (_, i) => i)
    .filter(
      (i) => [frequency[i]!, re[i]!, im?.[i] ?? 0, standard?.[i] ?? 1].every(Number.isFinite) && frequency[i]! > 0,
    )
    .filter((i) => frequency[i]! >= (from ?? 0) && frequency[i]! <= (to ?? Number.POSITIVE_INFINITY))
    .sort((a, b) => frequency[a]! - frequency[b]!);
  if (order.length < 6)
    return refuse({
      code: "too-few-points",
      path: ["frequency"],
      message: `Points with a number in the part to fit: ${order.length} of ${frequency.length}; needed: 6 or more, several of them within the width of the peak.`,
    });
  const size = order.map((i) => Math.hypot(re[i]!, im?.[i] ?? 0));
  if (size.every((value) => value === size[0]))
    return refuse({
      code: "silent",
      path: ["re"],
      message: `All ${size.length} points are ${size[0]}; needed: a response. Is it the right column?`,
    });
  let peak = size.indexOf(Math.max(...size));
  if (near !== undefined)
    peak = order.reduce(
      (best, i, k) => (Math.abs(frequency[i]! - near) < Math.abs(frequency[order[best]!]! - near) ? k : best),
      0,
    );
  const scale = near ?? frequency[order[peak]!]!;
  const list = (values: ArrayLike<number>) => Float64Array.from(order, (i) => values[i]!);
  return answer({
    scale,
    peak,
    data: {
      x: list(frequency).map((value) => value / scale),
      re: im === undefined ? Float64Array.from(size) : list(re),
      im: im === undefined ? null : list(im),
      weight:
        standard === undefined ? new Float64Array(order.length).fill(1) : list(standard).map((value) => 1 / value),
    },
  });
}

interface Chosen {
  readonly shape: SectionShape;
  readonly fit: Minimum;
}

function choose({ sections, rest }: ResponseQuestion, data: SectionData, peak: number): Chosen | null {
  const magnitudeOnly = data.im === null;
  let shape: SectionShape = { sections: 1, rest: rest ?? 0, magnitudeOnly };
  let fit = lowest(shape, data, guesses(shape, data, peak));
  if (fit === null) return null;
  const rows = data.x.length * (magnitudeOnly ? 1 : 2);
  const take = (next: SectionShape, start: Float64Array, forced: boolean) => {
    if (sectionParameters(next) >= rows) return;
    if (!forced && !promising(fit!, sectionSquares(next, data), start, rows)) return;
    const found = fitted(next, data, start);
    if (found !== null && (forced || demanded(fit!, found, rows))) [shape, fit] = [next, found];
  };
  if (rest === undefined)
    for (const more of [1, 2]) take({ ...shape, rest: more }, withRest(shape, fit.parameters, more), false);
  for (let count = 2; count <= (sections ?? 2); count++) {
    const next = { ...shape, sections: count };
    take(next, withSection(shape, fit, data), sections !== undefined);
  }
  return { shape, fit };
}

function fitted(shape: SectionShape, data: SectionData, start: Float64Array): Minimum | null {
  const lower = new Float64Array(start.length).fill(Number.NEGATIVE_INFINITY);
  const upper = new Float64Array(start.length).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < shape.sections; k++) {
    const at = k * perSection(shape);
    lower[at] = data.x[0]! / 4;
    upper[at] = data.x.at(-1)! * 4;
    lower[at + 1] = 1e-7;
    upper[at + 1] = 20;
  }
  const found = minimizeSquares(sectionSquares(shape, data), { start, lower, upper, scaling: "current", maxSteps: 80 });
  return found.linearization === null ? null : found;
}

function lowest(shape: SectionShape, data: SectionData, starts: readonly Float64Array[]): Minimum | null {
  let best: Minimum | null = null;
  for (const start of starts) {
    // The second start is for a first one that went astray.
    if (best?.stopped === "converged" && !best.atBound.includes(1)) break;
    const found = fitted(shape, data, start);
    if (found !== null && (best === null || found.sumOfSquares < best.sumOfSquares * (1 - 1e-9))) best = found;
  }
  // A damping ratio at its stop is no resonance.
  return best === null || best.atBound.includes(1) ? null : best;
}

/** The best two pairs of a grid of resonances and damping ratios around the peak, with their gain. */
function guesses(shape: SectionShape, data: SectionData, peak: number): readonly Float64Array[] {
  const top = data.x[peak]!;
  const found: { readonly start: Float64Array; readonly sum: number }[] = [];
  const problem = sectionSquares(shape, data);
  for (const z of [0.002, 0.005, 0.012, 0.03, 0.07, 0.15, 0.3, 0.5]) {
    // The peak of a damped section lies below its resonance.
    const places = z < 0.1 ? [0.997, 1, 1.003] : [1, 1 / Math.sqrt(Math.max(0.3, 1 - 2 * z * z))];
    for (const place of places) {
      const start = new Float64Array(sectionParameters(shape));
      start.set([top * place, z], 0);
      gainInto(start, shape, data);
      found.push({ start, sum: problem.sumOfSquares(start) });
    }
  }
  found.sort((a, b) => a.sum - b.sum);
  return found.slice(0, 2).map(({ start }) => start);
}

/** Gain of a lone section, by linear least squares. */
function gainInto(start: Float64Array, shape: SectionShape, data: SectionData): void {
  start[2] = 1;
  let [vv, vyRe, vyIm] = [0, 0, 0];
  const { re, im } = sectionCurve({ ...shape, sections: 1, rest: 0 }, start, data.x);
  for (let i = 0; i < re.length; i++) {
    const weight = data.weight[i]! ** 2;
    vv += weight * (re[i]! ** 2 + im[i]! ** 2);
    if (data.im === null) vyRe += weight * Math.hypot(re[i]!, im[i]!) * data.re[i]!;
    else {
      vyRe += weight * (re[i]! * data.re[i]! + im[i]! * data.im[i]!);
      vyIm += weight * (re[i]! * data.im[i]! - im[i]! * data.re[i]!);
    }
  }
  start[2] = vyRe / vv;
  if (!shape.magnitudeOnly) start[3] = vyIm / vv;
}

function withRest(shape: SectionShape, p: Float64Array, rest: number): Float64Array {
  const out = new Float64Array(sectionParameters({ ...shape, rest }));
  out.set(p.subarray(0, Math.min(p.length, out.length)), 0);
  return out;
}

/** One section more, where the residuals are largest. */
function withSection(shape: SectionShape, fit: Minimum, data: SectionData): Float64Array {
  const { re, im } = sectionCurve(shape, fit.parameters, data.x);
  const rest = re.map((value, i) =>
    data.im === null
      ? Math.abs(data.re[i]! - Math.hypot(value, im[i]!))
      : Math.hypot(data.re[i]! - value, data.im[i]! - im[i]!),
  );
  const at = rest.indexOf(Math.max(...rest));
  const step = perSection(shape);
  const start = new Float64Array(fit.parameters.length + step);
  start.set(fit.parameters.subarray(0, shape.sections * step), 0);
  const z = Math.min(0.2, Math.max(0.005, fit.parameters[1]!));
  start.set([data.x[at]!, z, 2 * z * rest[at]!], shape.sections * step);
  start.set(fit.parameters.subarray(shape.sections * step), (shape.sections + 1) * step);
  return start;
}

function report(
  question: ResponseQuestion,
  { data, scale, peak }: Taken,
  { shape, fit }: Chosen,
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
    correlation: covariance === null ? null : correlationOf(covariance, p.length, shape),
    residuals: {
      rms: Math.sqrt(residuals.reduce((sum, one) => sum + one * one, 0) / residuals.length),
      whiteness: whitenessOf(residuals),
    },
    coverage: coverageOfIntervals,
    degreesOfFreedom,
    stopped: fit.stopped,
    steps: fit.steps,
    secondOpinion: halfPower(data, scale, main!.frequency.value),
    included: [...(shape.rest > 0 ? ["constant"] : []), ...(shape.rest > 1 ? ["square of the frequency"] : [])],
    used: { from: frequency[0]!, to: frequency.at(-1)!, count: data.x.length },
    model,
  };
  return answer(value, remarksOf(value, data, peak));
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

function correlationOf(covariance: Float64Array, size: number, shape: SectionShape): Correlation {
  const labels = ["frequency", "dampingRatio", "gain", "quadrature"].slice(0, perSection(shape));
  const names = Array.from({ length: shape.sections * labels.length }, (_, i) =>
    shape.sections === 1 ? labels[i]! : `${labels[i % labels.length]} ${1 + Math.floor(i / labels.length)}`,
  );
  const matrix = names.flatMap((_, i) =>
    names.map((__, j) => covariance[i * size + j]! / Math.sqrt(covariance[i * size + i]! * covariance[j * size + j]!)),
  );
  return { names, matrix };
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
