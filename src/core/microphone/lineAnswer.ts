/**
 * The answer to the load that is conjugate to the phase: phi = c^T q, so the generalized force conjugate to phi loads the plate
 * with c. What noise and reciprocity ask of the engine (docs/theory/engine.md).
 *
 *     compliance(omega) = c^T A(omega)^-1 c, summed over the classes that the line touches
 *
 * A line off the center moves shapes odd across it too, although sound does not; odd ones along it average out.
 * Read in the coupled basis itself: its imaginary part from viscous losses converges, that from a structural loss factor does
 * not for a line without width (it grows like 1 / width).
 */
import { add, type Complex, complex } from "../numerics/complex.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { type CoupledSystem, coupledSystem, setFrequency, solveLoad } from "./coupled.ts";
import { guideVector } from "./line.ts";
import type { Microphone } from "./microphone.ts";
import { prepareClass, resolutionFor } from "./prepare.ts";

export interface LineAnswer {
  /** c^T A^-1 c [rad^2/(N m)], of the shapes even and odd across the guide. */
  readonly even: Complex;
  readonly odd: Complex;
  readonly total: Complex;
}

/** Prepared classes and their loads; made once for a microphone's shape and guides. */
export interface LineSystem {
  readonly classes: readonly {
    readonly system: CoupledSystem;
    readonly load: Float64Array;
    readonly side: "even" | "odd";
  }[];
}

export function lineSystem(microphone: Microphone): LineSystem {
  const detail = resolutionFor(microphone);
  return {
    classes: (["even", "odd"] as const).map((side) => {
      const prepared = prepareClass(microphone, side, detail);
      return { system: coupledSystem(prepared, microphone), load: guideVector(prepared.plate, microphone), side };
    }),
  };
}

/** The answer at a frequency [rad/s], which may be complex. */
export function lineAnswer({ classes }: LineSystem, omega: Complex): LineAnswer {
  const parts = { even: complex(0), odd: complex(0) };
  for (const { system, load, side } of classes) {
    setFrequency(system, omega);
    const q = solveLoad(system, load);
    let [re, im] = [0, 0];
    for (let i = 0; i < load.length; i++) {
      re += load[i]! * q.re[i]!;
      im += load[i]! * q.im[i]!;
    }
    // Dimensionless stiffness times D11 (4 b / a^3) is the stiffness in N/m of unit functions: docs/theory/diaphragm.md.
    const { diaphragm } = system.microphone;
    const perStiffness = plateScales(diaphragm).deflection / ((diaphragm.across * diaphragm.along) / 4);
    parts[side] = { re: re * perStiffness, im: im * perStiffness };
  }
  return { ...parts, total: add(parts.even, parts.odd) };
}
