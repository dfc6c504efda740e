/** Acoustic impedance, pressure over volume flow [Pa s/m3], of holes, vents and slits that are short against the wavelength. */
import { add, type Complex, complex, divide, multiply, scale, slitFunctions } from "../../numerics/complex.ts";
import type { Hole, HoleEnds, Leak, Tone, Vent } from "./acoustics.ts";
import { tubeSeries } from "./roundTube.ts";

/**
 * Added length at one end of a round hole, over its radius [-].
 *
 * Source: piston 8 / (3 pi), exact for even flow in a wide flange; flanged 0.8216 (from memory, to be confirmed); free
 * 0.6133 [levine-1948] (from memory, to be confirmed). Holds: nothing else within some radii of the end: a cavity or a wall
 * close by changes it.
 */
export const endCorrections: Readonly<Record<HoleEnds, number>> = {
  piston: 8 / (3 * Math.PI),
  flanged: 0.8216,
  free: 0.6133,
  none: 0,
};

/**
 * Impedance of a round hole [Pa s/m3].
 *
 *     Z = i omega rho0 l / (S (1 - 2 J1(x) / (x J0(x)))) + 2 i omega rho0 (delta r) / S,   x = r sqrt(-i omega rho0 / mu)
 *
 * Source: [stinson-1991], [zwikker-kosten-1949]; ends as `endCorrections`. omega -> 0: 8 mu l / (pi r^4) (Poiseuille).
 * Holds: length << wavelength; the ends add mass alone, no friction; air moves less than a radius (no jet).
 * `openness`: factor on the end corrections (1: alone in its wall).
 */
export function holeImpedance(
  given: Tone & Pick<Hole, "diameter" | "length" | "ends"> & { readonly openness?: number },
): Complex {
  const { diameter, length, ends, air, omega, openness = 1 } = given;
  const area = (Math.PI * diameter * diameter) / 4;
  const series = tubeSeries({ diameter, air, omega });
  const inside = length / area;
  const ended = (air.density * endCorrections[ends] * diameter * openness) / area;
  return { re: series.re * inside - ended * omega.im, im: series.im * inside + ended * omega.re };
}

/**
 * Impedance of a slit, flow between parallel walls [Pa s/m3].
 *
 *     Z = i omega rho0 l / (b g (1 - tanh k / k)),   k = (g / 2) sqrt(i omega rho0 / mu);  omega -> 0: 12 mu l / (b g^3)
 *
 * Source: as [zwikker-kosten-1949] for parallel walls (from memory, to be confirmed). No end corrections.
 * Holds: height << width, height << length << wavelength; no slip (height >> mean free path, 0.07 um in air).
 */
export function slitImpedance({
  height,
  width,
  length,
  air,
  omega,
}: Tone & Pick<Leak, "height" | "width" | "length">): Complex {
  const perViscosity = (height * height) / (4 * air.viscosity);
  const kSquared = scale(multiply(complex(0, 1), omega), perViscosity * air.density);
  return divide(complex(length / (width * height * perViscosity)), slitFunctions(kSquared).flow);
}

/** A vent as a hole with piston ends, or as a slit [Pa s/m3]. */
export function ventImpedance({ vent, air, omega }: Tone & { readonly vent: Vent }): Complex {
  if (vent.shape === "slit") {
    return slitImpedance({ height: vent.height, width: vent.width, length: vent.length, air, omega });
  }
  return holeImpedance({ diameter: vent.diameter, length: vent.length, ends: "piston", air, omega });
}

/** Volume flow per pressure of several holes side by side, each as if alone [m3/(Pa s)]. */
export function holesAdmittance({ holes, air, omega }: Tone & { readonly holes: readonly Hole[] }): Complex {
  let [sum, one] = [complex(0), complex(0)];
  let before: Hole | null = null;
  for (const hole of holes) {
    // Holes alike, as most are, let through alike.
    if (!before || !isAlike(hole, before)) {
      const { diameter, length, ends } = hole;
      one = divide(complex(1), holeImpedance({ diameter, length, ends, air, omega }));
    }
    sum = add(sum, one);
    before = hole;
  }
  return sum;
}

const isAlike = (a: Hole, b: Hole): boolean => a.diameter === b.diameter && a.length === b.length && a.ends === b.ends;
