/**
 * The answer of the whole device to the load that is conjugate to the phase: phi = c^T q, so the generalized force conjugate
 * to phi loads the plate with c. What heat moves (thermalNoise.ts) and what reciprocity asks of the engine.
 *
 *     compliance(omega) = c^T A(omega)^-1 c, pressures eliminated, summed over the classes that the line touches
 *
 * A line off the center moves shapes odd across it too, although sound does not; odd ones along it average out. Read through
 * the influence function g = K^-1 c of line.ts, so that only deflections of the coupled answer are needed: with
 * A = s K + Y, s = 1 + i eta, Y = Z - Lambda M - i eta K_t,
 *
 *     c^T A^-1 c = [ c^T g - (g^T Y g - (Y g)^T A^-1 (Y g)) / s ] / s
 *
 * About a static load the stretch K_m adds to Y, and the phase reads the strain of the neutral plane beside the curvature:
 * c + t in place of c, by which (Y g - s t) takes the place of Y g and 2 t^T g / s comes on top (docs/theory/staticLoad.md).
 *
 * Its part from viscous losses converges fast; c^T g / s, which a structural loss factor makes lossy, does not for a line
 * without width (it grows like 1 / width). Derivation: docs/theory/noise.md.
 */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { type ComplexVector, complexVector, pivotsHold, symmetricForms } from "../../numerics/complexSymmetric.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import type { Microphone } from "../microphone.ts";
import {
  backLoad,
  type CoupledSystem,
  coupledSystem,
  pressedFilm,
  setFrequency,
  solveComplexLoad,
  staticBehind,
} from "../system/coupled.ts";
import { flowPerAnswer } from "../system/coupledState.ts";
import { fromFilm } from "../system/filmProjection.ts";
import { type Line, prepareLine } from "../system/line.ts";
import { drivenPressures, hasNetwork, inner, lumpedParts, portMatrix } from "../system/network.ts";
import { type Prepared, prepareClass, type Resolution, resolutionFor } from "../system/prepare.ts";

export interface LineAnswer {
  /** c^T A^-1 c [rad^2/(N m)], of the shapes even and odd across the guide. */
  readonly even: Complex;
  readonly odd: Complex;
  readonly total: Complex;
}

/** One class of symmetry and its line of light. */
export interface LineClass {
  readonly system: CoupledSystem;
  readonly line: Line;
}

export interface LineSystem {
  readonly even: LineClass;
  readonly odd: LineClass;
}

/** Prepared classes and their lines; made once for a microphone's shape and guides. */
export function lineSystem(microphone: Microphone, detail: Resolution = resolutionFor(microphone)): LineSystem {
  const of = (side: "even" | "odd") => lineClass(prepareClass(microphone, side, detail), microphone);
  return { even: of("even"), odd: of("odd") };
}

export const lineClass = (prepared: Prepared, microphone: Microphone): LineClass => ({
  system: coupledSystem(prepared, microphone),
  line: prepareLine(prepared, microphone),
});

/** The answer at a frequency [rad/s], which may be complex. */
export function lineAnswer({ even, odd }: LineSystem, omega: Complex): LineAnswer {
  const parts = { even: classAnswer(even, omega, "even"), odd: classAnswer(odd, omega, "odd") };
  return { ...parts, total: add(parts.even, parts.odd) };
}

/**
 * c^T A^-1 c of one class [rad^2/(N m)].
 *
 * All that is needed are products x^T A^-1 y of Y g and of the loads F and B, and no solution. What the air in front and behind adds,
 * x_F p_f - x_B p_b with the pressures that the load c drives, is
 *
 *     x_F = c^T A^-1 F = (g^T F - F^T A^-1 Y g) / s,   x_B = (g^T B - B^T A^-1 Y g) / s
 */
export function classAnswer({ system, line }: LineClass, omega: Complex, side: "even" | "odd"): Complex {
  setFrequency(system, omega);
  const { microphone, prepared } = system;
  const s = complex(1, microphone.diaphragm.lossFactor);
  const { load, self } = pushedBack(system, line, omega);
  // Air in front and behind is moved evenly across the guide only.
  const behind = side === "even" && hasNetwork(microphone) ? backLoad(system, omega) : null;
  const uniform = { re: prepared.plate.load, im: new Float64Array(load.re.length) };
  const form = forms(system, behind ? [load, uniform, behind.load] : [load]);
  const viscous = divide(subtract(self, form(0, 0)), s);
  const own = divide(subtract(complex(line.self.compliance + 2 * line.self.stretchStrain), viscous), s);
  // Line.ts counts c per pressure; dimensionless stiffness times D11 (4 b / a^3) is the stiffness in N/m of unit functions.
  const { across, along } = microphone.diaphragm;
  const perStiffness = 1 / (plateScales(microphone.diaphragm).deflection * ((across * along) / 4));
  if (!behind) return scale(own, perStiffness);
  const flow = flowPerAnswer(system, omega);
  const ports = {
    frontFront: multiply(flow, form(1, 1)),
    frontBack: multiply(flow, form(2, 1)),
    backBack: multiply(flow, form(2, 2)),
    film: behind.admittance,
  };
  const state = { ...portMatrix(lumpedParts(microphone, omega, prepared.nearField), ports), flow };
  const xFront = divide(subtract(complex(line.force), form(1, 0)), s);
  const xBack = divide(subtract(staticBehind(system, line, behind), form(2, 0)), s);
  const { front, back } = drivenPressures(state, xFront, xBack);
  const around = subtract(multiply(xFront, front), multiply(xBack, back));
  return scale(add(own, around), perStiffness);
}

/** Y g on the plate's functions, less s t under a static load, and g^T Y g; frequency set. */
function pushedBack(
  system: CoupledSystem,
  line: Line,
  omega: Complex,
): { readonly load: ComplexVector; readonly self: Complex } {
  const { microphone, prepared, scales } = system;
  const eta = microphone.diaphragm.lossFactor;
  const lambda = scale(multiply(omega, omega), scales.lambda);
  const load: ComplexVector = {
    re: line.mass.map((value) => -lambda.re * value),
    im: line.mass.map((value) => -lambda.im * value),
  };
  let self = add(scale(lambda, -line.self.mass), complex(0, -eta * line.self.tension));
  if (line.tension) for (let i = 0; i < load.im.length; i++) load.im[i]! -= eta * line.tension[i]!;
  if (line.stretched) {
    const { force, strain } = line.stretched;
    self = add(self, complex(line.self.stretchForce));
    for (let i = 0; i < load.re.length; i++) {
      load.re[i]! += force[i]! - strain[i]!;
      load.im[i]! -= eta * strain[i]!;
    }
  }
  if (line.film && prepared.film) {
    const pressure = pressedFilm(system, { re: Float64Array.from(line.film), im: new Float64Array(line.film.length) });
    let [selfRe, selfIm] = [0, 0];
    for (let m = 0; m < line.film.length; m++) {
      const g = line.film[m]!;
      selfRe += g * pressure.re[m]!;
      selfIm += g * pressure.im[m]!;
    }
    self = add(self, { re: selfRe, im: selfIm });
    const { re, im } = fromFilm(prepared.plate, prepared.film, pressure);
    for (let i = 0; i < load.re.length; i++) {
      load.re[i]! += re[i]!;
      load.im[i]! += im[i]!;
    }
  }
  return { load, self };
}

/** x^T A^-1 y of some vectors, by their numbers, the larger first; frequency set. */
function forms(system: CoupledSystem, vectors: readonly ComplexVector[]): (a: number, b: number) => Complex {
  if (!pivotsHold(system.work, system.re, system.im)) {
    const solved = vectors.map((vector) => solveComplexLoad(system, vector));
    return (a, b) => inner(vectors[a]!, solved[b]!);
  }
  const [size, count] = [system.prepared.plate.size, vectors.length];
  const rows = complexVector(count * size);
  for (let a = 0; a < count; a++) {
    rows.re.set(vectors[a]!.re, a * size);
    rows.im.set(vectors[a]!.im, a * size);
  }
  const values = complexVector(count * count);
  symmetricForms(system.work, rows, count, values);
  return (a, b) => ({ re: values.re[a * count + b]!, im: values.im[a * count + b]! });
}
