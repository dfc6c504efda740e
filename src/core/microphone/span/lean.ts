/**
 * A whole device in a few milliseconds, for thousands that differ in everything: sides, thickness, edges, tension, gap, air.
 *
 * Nothing is kept between devices. The coupled answer takes few functions, because the light is read through the influence
 * function of line.ts and needs deflections only: five a direction give the response to some 1e-5 where the engine's eight give
 * 1e-9. Each answer carries an estimate of its error; who needs more asks the engine (engine.ts).
 */

import { absolute, type Complex, complex, subtract } from "../../numerics/complex.ts";
import { bandSolve } from "../../numerics/kronecker.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { ownMatrices } from "../basis/ownMatrices.ts";
import { type ReducedSystem, reducedSystem } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { creepPartner } from "../poles/creepPartner.ts";
import { isVentPole } from "../poles/ventPole.ts";
import { bandAround } from "../response/band.ts";
import { type Curve, readCurve, sampleCurve } from "../response/curve.ts";
import { accelerationAt } from "../response/vibration.ts";
import { type CoupledSystem, coupledSystem, plateWithFewer, responseAt } from "../system/coupled.ts";
import { type Line, prepareLine } from "../system/line.ts";
import { type Functions, type Prepared, prepare, type Resolution, resolutionFor } from "../system/prepare.ts";
import { hasWallHole } from "../system/wallHole.ts";
import { type PolesShown, polesShown } from "./polesShown.ts";

export interface LeanResponse extends PolesShown {
  /** What it was computed in, for other questions to the same device. */
  readonly prepared: Prepared;
  /** The plate's answer at rest to a uniform pressure, on the larger basis. */
  readonly static: Float64Array;
  readonly line: Line;
  readonly system: CoupledSystem;
  readonly curve: Curve;
  /** S [rad/Pa] at a frequency [rad/s], which may be complex. */
  readonly respond: (omega: Complex) => Complex;
  /** Phase per acceleration of the frame [rad/(m/s2)]. */
  readonly accelerate: (omega: Complex) => Complex;
  /** Estimate of the relative error of S: of the functions left out and of the curve [-]. */
  readonly estimate: number;
}

/** Three functions a direction fewer than the engine's, five at least; twice as many and two more for the line of light. */
export function leanResolution(microphone: Microphone): Resolution {
  const { across, along } = resolutionFor(microphone).functions;
  const functions: Functions = { across: Math.max(5, across - 3), along: Math.max(5, along - 3) };
  const most = Math.max(functions.across, functions.along);
  return {
    functions,
    fine: { across: 2 * functions.across + 2, along: 2 * functions.along + 2 },
    filmTerms: 2 * most + 4,
  };
}

/** Floor of relative errors, as a share of the static response. */
const floorShare = 1e-3;
/** So slow that every vent has let its air through [Hz]. */
const restFrequency = 1e-3;

/**
 * The microphone must not be buckled. `rangeOf` gives the range of the curve [Hz] for the first resonance in vacuum [Hz];
 * `tolerance` of the curve is relative to max(|S|, 1e-3 |S static|).
 */
export function leanResponse(
  microphone: Microphone,
  rangeOf: (first: number) => { readonly from: number; readonly to: number },
  tolerance: number,
): LeanResponse {
  const prepared = prepare(microphone, leanResolution(microphone));
  const question = rangeOf(Math.sqrt(prepared.first / plateScales(microphone.diaphragm).lambda) / (2 * Math.PI));
  const line = prepareLine(prepared, microphone);
  const system = coupledSystem(prepared, microphone);
  const respond = (omega: Complex) => responseAt(system, line, omega);
  const floor = Math.max(floorShare * Math.abs(line.static), Number.MIN_VALUE);
  const curve = sampleCurve((frequency) => respond(complex(2 * Math.PI * frequency)), {
    ...question,
    tolerance,
    floor,
    most: 121,
  });
  const middle = complex(2 * Math.PI * Math.sqrt(question.from * question.to));
  const { value, fewer } = plateWithFewer(system, line, middle);
  const ofFunctions = absolute(subtract(fewer, value)) / Math.max(absolute(value), floor);
  const atRest = respond(complex(2 * Math.PI * restFrequency)).re;
  // A loss factor makes no heat in creeping: without it S is real on the imaginary axis.
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const creep = coupledSystem(prepared, lossless);
  const poles = polesShown(
    curve,
    {
      respond,
      lossless: (rate) => responseAt(creep, line, complex(0, rate)).re,
      ...(hasWallHole(microphone)
        ? { isVent: (rate: number) => isVentPole(microphone, rate) }
        : { partner: partnerIn(prepared, lossless) }),
    },
    atRest === 0 ? 1 : atRest,
  );
  const accelerate = (omega: Complex) => accelerationAt(system, line, omega);
  const estimate = Math.max(ofFunctions, curve.error);
  return {
    prepared,
    static: bandSolve(prepared.fineFactor, prepared.fine.load),
    line,
    system,
    curve,
    respond,
    accelerate,
    estimate,
    ...poles,
  };
}

/** The partner of a slow pole (creepPartner.ts) in the whole basis, made ready when it is first asked for. */
function partnerIn(prepared: Prepared, lossless: Microphone): (rate: number) => number | null {
  let system: ReducedSystem | null = null;
  return (rate) => {
    system ??= reducedSystem(ownMatrices(prepared), lossless);
    return creepPartner(system, rate);
  };
}

/** Level edges about a reference [Hz], as `bandAround`, and |S| there [rad/Pa]. */
export function leanBand(curve: Curve, options: { readonly reference: number; readonly within: number }) {
  const { re, im } = readCurve(curve, Float64Array.of(options.reference));
  const magnitude = Math.hypot(re[0]!, im[0]!);
  const edges = magnitude > 0 ? bandAround(curve, options) : { from: null, to: null };
  return { magnitude, ...edges };
}
