/**
 * Readings of several specimens, or of one at several air films, laid under the whole curve that theory predicts, by values that
 * mean something: an offset of what was varied, a factor, a damping that is there without the film.
 */
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { orthogonal, widening } from "./orthogonal.ts";

import {
  type Correlation,
  correlationOf,
  coverageOfIntervals,
  type FitEvidence,
  type ReadValue,
  readValue,
} from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

/** Positive, over ascending x in equal ratios. */
export interface TheoryCurve {
  readonly over: "thickness" | "side" | "gap";
  readonly of: "sensitivity" | "resonance" | "dampingRatio";
  readonly x: Numbers;
  readonly y: Numbers;
}

export interface TheoryCurveReading extends FitEvidence {
  readonly kind: "curve";
  readonly over: TheoryCurve["over"];
  readonly of: TheoryCurve["of"];
  readonly values: {
    /** Measured over predicted: of a damping, that of the film; of a resonance, the root of stiffness over mass. */
    readonly factor: ReadValue;
    /** What must be added to the thickness, side or gap [m]. */
    readonly offset: ReadValue;
    /** Damping ratio that is there whatever the gap; absent where it is not sought. */
    readonly added?: ReadValue;
  };
  readonly correlation: Correlation | null;
  /** Weighted sum of squares over its degrees of freedom; null without uncertainties. */
  readonly reducedSum: number | null;
  readonly model: Float64Array;
}

export interface TheoryCurveQuestion {
  readonly x: Numbers;
  readonly y: Numbers;
  readonly standardX?: Numbers;
  readonly standardY?: Numbers;
  readonly curve: TheoryCurve;
}

/** So many points make three values worth seeking. */
const pointsForThree = 6;

/**
 *     y = factor curve(x + offset) + added
 *
 * Derivation: docs/theory/fits.md.
 * Problems: `too-few-points`, `not-positive`, `beyond-curve`, `wrong-standard`, those of `fitNonlinear`.
 * Remarks: those of `fitNonlinear`, `scatter-beyond-uncertainty`, `values-hang-together`.
 */
export function fitTheoryCurve({
  x,
  y,
  standardX,
  standardY,
  curve,
}: TheoryCurveQuestion): Outcome<TheoryCurveReading> {
  const problems = check({ x, y, curve, ...(standardX && { standardX }), ...(standardY && { standardY }) });
  if (problems.length > 0) return refuse(...problems);
  const at = smoothCurve(curve);
  const withAdded = curve.of === "dampingRatio" && x.length >= pointsForThree;
  const size = Math.max(...Array.from(x));
  // The offset in shares of the largest x, so that all are about one.
  const surface = {
    value: ([factor, offset, added = 0]: readonly number[], [place]: readonly number[]) =>
      factor! * at(place! + offset! * size).value + added,
    slopes: ([factor, offset]: readonly number[], [place]: readonly number[]) => {
      const { value, slope } = at(place! + offset! * size);
      return [value, factor! * slope * size, ...(withAdded ? [1] : [])];
    },
    slopesInX: ([factor, offset]: readonly number[], [place]: readonly number[]) => [
      factor! * at(place! + offset! * size).slope,
    ],
  };
  const points = Array.from(x, (one) => [one]);
  const first = Array.from(y).reduce((sum, one, i) => sum + one / at(x[i]!).value, 0) / x.length;
  const start = [first, 0, ...(withAdded ? [0] : [])];
  const room = roomOf(x, curve, size);
  const bounds = {
    lower: [first / 1000, room.lower, ...(withAdded ? [-1] : [])],
    upper: [first * 1000, room.upper, ...(withAdded ? [1] : [])],
  };
  const fit =
    standardX !== undefined && standardY !== undefined
      ? fitNonlinear({
          ...orthogonal(surface, { points, seen: y, inY: standardY, inX: [standardX], start }),
          ...bounds,
        })
      : fitNonlinear({
          model: surface.value,
          derivatives: surface.slopes,
          start,
          x: points,
          y,
          ...bounds,
          ...(standardY && { standard: standardY }),
        });
  if (!fit.ok) return fit;
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, stopped, steps } = fit.value;
  const reducedSum =
    standardY === undefined || degreesOfFreedom === 0 ? null : fit.value.sumOfSquares / degreesOfFreedom;
  const widened = reducedSum === null ? 1 : widening(reducedSum);
  const t = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const scales = [1, size, 1];
  const read = (i: number) =>
    readValue(
      values[i]! * scales[i]!,
      standardUncertainties === null ? null : standardUncertainties[i]! * scales[i]! * widened,
      t,
    );
  const names = ["factor", "offset", ...(withAdded ? ["added"] : [])];
  const correlation = correlationOf(names, covariance);
  return answer(
    {
      kind: "curve",
      over: curve.over,
      of: curve.of,
      values: { factor: read(0), offset: read(1), ...(withAdded && { added: read(2) }) },
      correlation,
      residuals: residualsOf(residuals),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      reducedSum,
      stopped,
      steps,
      model: Float64Array.from(points, (place) => surface.value(values, place)),
    },
    [...fit.remarks, ...scatter(reducedSum), ...together(correlation)],
  );
}

function scatter(reducedSum: number | null): Problem[] {
  if (reducedSum === null || !(reducedSum > 3)) return [];
  return [
    {
      code: "scatter-beyond-uncertainty",
      path: ["standardY"],
      message: `The points scatter ${Math.sqrt(reducedSum).toPrecision(2)} times as much about the predicted curve as their uncertainties say; the intervals were widened. Something that the curve does not know differs between them.`,
    },
  ];
}

/** Correlation beyond which two values are better quoted together. */
const tightly = 0.98;

function together(correlation: Correlation | null): Problem[] {
  if (correlation === null) return [];
  const { names, matrix } = correlation;
  return names.flatMap((name, i) =>
    names.slice(i + 1).flatMap((other, k) => {
      const share = matrix[i * names.length + i + 1 + k]!;
      if (!(Math.abs(share) > tightly)) return [];
      return [
        {
          code: "values-hang-together",
          path: ["values", name],
          message: `${name} and ${other} correlate by ${share.toFixed(3)}: over this range one can stand for the other. Points further apart, or one of them measured by itself, tell them apart.`,
        },
      ];
    }),
  );
}

/** How far the points may be moved without leaving the curve, in shares of `size`. */
function roomOf(x: Numbers, curve: TheoryCurve, size: number) {
  const list = Array.from(x);
  const [low, high] = [curve.x[0]!, curve.x[curve.x.length - 1]!];
  return { lower: (low - Math.min(...list)) / size, upper: (high - Math.max(...list)) / size };
}

function check({ x, y, standardX, standardY, curve }: TheoryCurveQuestion): Problem[] {
  const problems: Problem[] = [];
  const say = (code: string, path: Problem["path"], message: string) => problems.push({ code, path, message });
  if (x.length < 4)
    say("too-few-points", ["x"], `Points found: ${x.length}; needed: four or more under a curve with two free values.`);
  const bad = [...Array.from(x), ...Array.from(y)].findIndex((value) => !(value > 0));
  if (bad >= 0)
    say("not-positive", [bad < x.length ? "x" : "y", bad % x.length], "A value is zero or less; needed: above zero.");
  if (standardX !== undefined && standardY === undefined)
    say(
      "wrong-standard",
      ["standardY"],
      "Standard uncertainties are given for what was varied and none for what was read; needed: both, or none.",
    );
  const [low, high] = [curve.x[0] ?? 0, curve.x[curve.x.length - 1] ?? 0];
  const outside = Array.from(x).findIndex((one) => one < low || one > high);
  if (outside >= 0 || curve.x.length < 4)
    say(
      "beyond-curve",
      ["x", Math.max(0, outside)],
      `The curve could be predicted from ${low.toPrecision(3)} to ${high.toPrecision(3)} m only, and point ${outside + 1} lies outside; needed: points where this design has such a value.`,
    );
  return problems;
}

/** Cubic pieces through ln y over ln x, smooth in value and slope; beyond its ends the last piece goes on. */
function smoothCurve({ x, y }: TheoryCurve): (place: number) => { readonly value: number; readonly slope: number } {
  const count = x.length;
  const [first, step] = [Math.log(x[0]!), Math.log(x[count - 1]! / x[0]!) / (count - 1)];
  const heights = Float64Array.from(y, Math.log);
  const slopeAt = (i: number) => {
    if (i === 0) return (-3 * heights[0]! + 4 * heights[1]! - heights[2]!) / 2;
    if (i === count - 1) return (3 * heights[i]! - 4 * heights[i - 1]! + heights[i - 2]!) / 2;
    return (heights[i + 1]! - heights[i - 1]!) / 2;
  };
  return (place) => {
    const at = (Math.log(place) - first) / step;
    const i = Math.max(0, Math.min(count - 2, Math.floor(at)));
    const s = at - i;
    const [a, b, p, q] = [heights[i]!, heights[i + 1]!, slopeAt(i), slopeAt(i + 1)];
    const [c2, c3] = [3 * (b - a) - 2 * p - q, 2 * (a - b) + p + q];
    const value = Math.exp(a + s * (p + s * (c2 + s * c3)));
    return { value, slope: (value * (p + s * (2 * c2 + 3 * s * c3))) / (step * place) };
  };
}
