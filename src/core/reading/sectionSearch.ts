/**
 * How many second-order sections a response demands, and the terms beside them. Derivation: docs/theory/responseReading.md.
 */
import { type Minimum, minimizeSquares } from "../numerics/minimizeSquares.ts";
import { demanded, promising } from "./nestedFits.ts";
import type { ResponseQuestion } from "./responsePoints.ts";
import {
  perSection,
  type SectionData,
  type SectionShape,
  sectionCurve,
  sectionParameters,
  sectionSquares,
} from "./sectionModel.ts";

/** Damping ratios between which a section is sought [-]: one that ends there is no resonance. */
export const dampingStops = [1e-7, 20] as const;

export interface ChosenSections {
  readonly shape: SectionShape;
  readonly fit: Minimum;
}

/** One section, then terms and sections more where they take away what noise alone would not. null: no resonance in the points. */
export function chooseSections(
  { sections, rest }: ResponseQuestion,
  data: SectionData,
  peak: number,
): ChosenSections | null {
  const magnitudeOnly = data.im === null;
  let shape: SectionShape = { sections: 1, rest: rest ?? 0, magnitudeOnly };
  let fit = lowest(shape, data, guesses(shape, data, peak));
  if (fit === null) return null;
  const rows = data.x.length * (magnitudeOnly ? 1 : 2);
  const take = (next: SectionShape, start: Float64Array, forced: boolean) => {
    if (sectionParameters(next) >= rows) return;
    if (!forced && !promising(fit!, sectionSquares(next, data), start, rows)) return;
    const found = fitted(next, data, start);
    if (found !== null && (forced || (demanded(fit!, found, rows) && !isLastAtStop(found, next))))
      [shape, fit] = [next, found];
  };
  if (rest === undefined)
    for (const more of [1, 2]) take({ ...shape, rest: more }, withRest(shape, fit.parameters, more), false);
  for (let count = 2; count <= (sections ?? 2); count++) {
    const next = { ...shape, sections: count };
    take(next, withSection(shape, fit, data), sections !== undefined);
  }
  return { shape, fit };
}

/** A further section that ends at a damping ratio where the search stops stands for a lone point, or for a slope. */
const isLastAtStop = ({ atBound }: Minimum, shape: SectionShape): boolean =>
  shape.sections > 1 && atBound.includes((shape.sections - 1) * perSection(shape) + 1);

function fitted(shape: SectionShape, data: SectionData, start: Float64Array): Minimum | null {
  const lower = new Float64Array(start.length).fill(Number.NEGATIVE_INFINITY);
  const upper = new Float64Array(start.length).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < shape.sections; k++) {
    const at = k * perSection(shape);
    lower[at] = data.x[0]! / 4;
    upper[at] = data.x.at(-1)! * 4;
    [lower[at + 1], upper[at + 1]] = dampingStops;
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
