/**
 * Scans over the guide's position: the whole predicted curve is laid through the points, by its height, the offset of the guide
 * and the effective side, so that the shape of the diaphragm itself is tested.
 */
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, refuse } from "../problem.ts";
import {
  type Correlation,
  correlationOf,
  coverageOfIntervals,
  type FitEvidence,
  type ReadValue,
  readValue,
} from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

export interface ScanQuestion {
  /** Positions of the guide as measured [m], and the sensitivity read at each, in any unit. */
  readonly position: ArrayLike<number>;
  readonly sensitivity: ArrayLike<number>;
  readonly standard?: ArrayLike<number>;
  /** Predicted curve: position from the middle [m], ascending, and sensitivity with its sign. */
  readonly curve: { readonly position: ArrayLike<number>; readonly sensitivity: ArrayLike<number> };
  /** The readings have no sign: the curve's magnitude is fitted. */
  readonly magnitudeOnly?: boolean;
}

export interface ScanReading extends FitEvidence {
  readonly kind: "scan";
  readonly values: {
    /** Measured over predicted. */
    readonly amplitude: ReadValue;
    /** What must be taken off the positions [m]. */
    readonly offset: ReadValue;
    /** Effective side over that of the prediction. */
    readonly side: ReadValue;
  };
  readonly correlation: Correlation | null;
  readonly model: Float64Array;
}

/** Problems: `too-few-points`, those of `fitNonlinear`. Remarks: those of `fitNonlinear`. */
export function fitScan({
  position,
  sensitivity,
  standard,
  curve,
  magnitudeOnly = false,
}: ScanQuestion): Outcome<ScanReading> {
  if (position.length < 5)
    return refuse({
      code: "too-few-points",
      path: ["position"],
      message: `Points found: ${position.length}; needed: five or more, on both sides of the null if possible.`,
    });
  const places = Array.from(curve.position);
  const half = Math.max(...places.map(Math.abs));
  const at = (place: number): number => {
    const x = Math.abs(place);
    const value = between(curve, Math.min(x, half));
    return magnitudeOnly ? Math.abs(value) : value;
  };
  const largest = Math.max(...places.map((place) => Math.abs(at(place))));
  const seen = Math.max(...Array.from(sensitivity, Math.abs));
  // Offset in shares of the half side, so that all three are about one.
  const model = ([amplitude, offset, side]: readonly number[], x: number) =>
    (amplitude! * seen * at((x - offset! * half) / side!)) / largest;
  const fit = fitNonlinear({
    model,
    start: [Math.sign(correlated(position, sensitivity, at)) || 1, 0.001, 1],
    x: position,
    y: sensitivity,
    lower: [-100, -0.5, 0.8],
    upper: [100, 0.5, 1.25],
    ...(standard && { standard }),
  });
  if (!fit.ok) return fit;
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, stopped, steps } = fit.value;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const scales = [seen / largest, half, 1];
  const read = (i: number) =>
    readValue(
      values[i]! * scales[i]!,
      standardUncertainties === null ? null : standardUncertainties[i]! * scales[i]!,
      factor,
    );
  return answer(
    {
      kind: "scan",
      values: { amplitude: read(0), offset: read(1), side: read(2) },
      correlation: correlationOf(["amplitude", "offset", "side"], covariance),
      residuals: residualsOf(residuals),
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      model: Float64Array.from(position, (x) => model(values, x)),
    },
    fit.remarks,
  );
}

function correlated(position: ArrayLike<number>, sensitivity: ArrayLike<number>, at: (x: number) => number): number {
  let sum = 0;
  for (let i = 0; i < position.length; i++) sum += sensitivity[i]! * at(position[i]!);
  return sum;
}

function between({ position, sensitivity }: ScanQuestion["curve"], x: number): number {
  let high = 1;
  while (high < position.length - 1 && position[high]! < x) high += 1;
  const low = high - 1;
  const share = (x - position[low]!) / (position[high]! - position[low]!);
  return sensitivity[low]! + share * (sensitivity[high]! - sensitivity[low]!);
}
