/**
 * A device on the functions of a span (shapeSpan.ts), as a verdict needs it: response, the poles that it shows, tones, each in a
 * fraction of a millisecond. One whose estimate is too large is no answer: ask `judgedAlone`.
 */
import { type Complex, complex } from "../../numerics/complex.ts";
import {
  alikeSystem,
  type ReducedLine,
  type ReducedSystem,
  reducedResponseAt,
  reducedSides,
  reducedSystem,
} from "../basis/reduced.ts";
import { floorShare } from "../engine.ts";
import { restFrequency } from "../loudest/tone.ts";
import type { Microphone } from "../microphone.ts";
import { creepPartner } from "../poles/creepPartner.ts";
import { cornerFrom, type FlowsAt } from "../poles/ventCorner.ts";
import { sampleCurve } from "../response/curve.ts";
import { reducedAccelerationAt } from "../response/vibration.ts";
import { angular, type Judgeable, type RangeOf } from "./judgeable.ts";
import { polesShown } from "./polesShown.ts";
import { type ShapeSpan, spannedDevice } from "./shapeSpan.ts";
import { spanEstimate } from "./spanEstimate.ts";
import { type AnswersAt, answersAt, guidesOf, soundOf, toneInSpan } from "./toneInSpan.ts";

/** Shares of the range at which the error is estimated. */
const estimatedAt = [0.4, 1] as const;

export interface SpannedQuestion {
  readonly rangeOf: RangeOf;
  /** Of the curve, relative to max(|S|, 1e-3 |S static|) [-]; ten times as much is trusted as an estimate. */
  readonly tolerance: number;
}

/** "buckled" where it is; null where the span does not reach. */
export function judgedInSpan(
  span: ShapeSpan,
  microphone: Microphone,
  { rangeOf, tolerance }: SpannedQuestion,
): Judgeable | "buckled" | null {
  const device = spannedDevice(span, microphone);
  if (device === null) return "buckled";
  const { line } = device;
  const system = reducedSystem(device.matrices, microphone);
  const respond = (omega: Complex) => reducedResponseAt(system, line, omega);
  const floor = Math.max(floorShare * Math.abs(line.force), Number.MIN_VALUE);
  const range = rangeOf(device.firstOmega / (2 * Math.PI));
  const curve = sampleCurve((frequency) => respond(angular(frequency)), {
    ...range,
    floor,
    tolerance,
    most: 121,
  });
  const at = estimatedAt.map((share) => angular(share * range.to));
  const estimate = Math.max(curve.error, spanEstimate(span, device, system, { at, floor }));
  if (!curve.converged || !(estimate <= 10 * tolerance)) return null;
  const slow = answersAt(system, [line], angular(restFrequency));
  const atRest = soundOf(slow).phase[0]?.re ?? 0;
  // A loss factor makes no heat in creeping: without it S is real on the imaginary axis.
  const lossless = alikeSystem(system, { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } });
  const poles = polesShown(
    curve,
    {
      respond,
      lossless: (rate) => reducedResponseAt(lossless, line, complex(0, rate)).re,
      partner: (rate) => creepPartner(lossless, rate),
    },
    atRest === 0 ? 1 : atRest,
  );
  return {
    microphone,
    curve,
    respond,
    accelerate: (omega) => reducedAccelerationAt(system, line, omega),
    estimate,
    ...poles,
    volume: device.volume,
    tone: (frequency, centerOverMean) =>
      toneInSpan(system, guidesOf(span, device, microphone), {
        frequency,
        slow,
        centerOverMean: centerOverMean ?? 1,
      }),
    heatLine: null,
    corner: () => cornerInSpan(system, line, slow),
  };
}

/** The vent's corner, from the answers at rest. */
function cornerInSpan(system: ReducedSystem, line: ReducedLine, { sides: [first] }: AnswersAt): number | null {
  const { microphone, basis } = system;
  const flowsAt = (frequency: number): FlowsAt => ({
    frequency,
    ports: reducedSides(system, line, angular(frequency)).ports,
  });
  const asked = { microphone, nearField: basis.nearField, flowsAt };
  return cornerFrom(asked, { frequency: restFrequency, ports: first.ports });
}
