/**
 * Residue of the response at a pole, from the motion there.
 *
 *     S(omega) = (r x) (x b) / (dR / d omega) / (omega - omega_p) + ...
 *
 * b is what 1 Pa of sound does to plate, front and back, r what the light reads (line.ts). Derivation: docs/theory/poles.md.
 */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import type { ReducedLine } from "../basis/reduced.ts";
import type { ReducedMatrices } from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import { hasNetwork, lumpedParts } from "../system/network.ts";
import type { OwnMotion } from "./ownMotion.ts";

/** [rad/Pa rad/s] */
export function motionResidue(
  motion: OwnMotion,
  given: { readonly microphone: Microphone; readonly basis: ReducedMatrices; readonly line: ReducedLine },
): Complex {
  const driven = soundOn(motion, given.microphone, given.basis);
  return divide(multiply(readMotion(motion, given.microphone, given.line), driven), motion.slope);
}

/** x b */
function soundOn({ omega, plate, front, back }: OwnMotion, microphone: Microphone, basis: ReducedMatrices): Complex {
  const pressed = sum(basis.load, plate);
  if (!hasNetwork(microphone)) return pressed;
  const { diaphragm } = microphone;
  const quarter = (diaphragm.across * diaphragm.along) / 4;
  const flow = multiply(complex(0, quarter * plateScales(diaphragm).deflection), omega);
  const parts = lumpedParts(microphone, omega, basis.nearField);
  const entering = parts.back ? parts.back.source : complex(0);
  if (parts.front) {
    const total = add(multiply(front, parts.front.source), multiply(back, entering));
    return scale(divide(total, flow), -1);
  }
  return subtract(pressed, divide(multiply(back, add(entering, parts.between)), flow));
}

/** r x: the phase of a motion of plate and film, the pressures before and behind it given. */
export function readMotion(
  { omega, plate, film, front, back }: Pick<OwnMotion, "omega" | "plate" | "film" | "front" | "back">,
  { diaphragm }: Microphone,
  line: ReducedLine,
): Complex {
  const eta = diaphragm.lossFactor;
  const lambda = scale(multiply(omega, omega), plateScales(diaphragm).lambda);
  let phase = scale(subtract(front, back), line.force);
  phase = add(phase, multiply(lambda, sum(line.mass, plate)));
  if (line.tension) phase = add(phase, multiply(complex(0, eta), sum(line.tension, plate)));
  phase = subtract(phase, sum(line.film, film));
  if (!line.stretched) return divide(phase, complex(1, eta));
  phase = subtract(phase, sum(line.stretched.force, plate));
  return add(divide(phase, complex(1, eta)), sum(line.stretched.strain, plate));
}

function sum(row: Float64Array, values: ComplexVector): Complex {
  let [re, im] = [0, 0];
  for (let i = 0; i < row.length; i++) {
    re += row[i]! * values.re[i]!;
    im += row[i]! * values.im[i]!;
  }
  return { re, im };
}
