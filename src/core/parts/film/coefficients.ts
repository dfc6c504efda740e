/**
 * The thin-layer thermoviscous film ("low reduced frequency"): flow and compression of the air in a gap.
 *
 *     Psi lap p - chi p = -i omega w
 *     Psi = g (1 - tanh k / k) / (i omega rho0),                          k = (g / 2) sqrt(i omega rho0 / mu)
 *     chi = (i omega g / (gamma P0)) (1 + (gamma - 1) tanh kT / kT),      kT = k sqrt(Pr)
 *
 * Source: [zwikker-kosten-1949], [tijdeman-1975], [beltman-1999] (from memory, to be confirmed); limits checked in truth/.
 * Holds: gap << side, gap << wavelength; from the squeeze-film limit to gaps of many boundary layers.
 * Slip lowers the viscosity in k; the thermal jump at the walls is left out (docs/notModeled.md).
 */
import type { Air } from "../../material/air.ts";
import { type Complex, slitFunctions } from "../../numerics/complex.ts";
import { effectiveViscosity } from "./slip.ts";

export interface FilmCoefficients {
  /** Psi: volume flow per width and pressure gradient [m3/(Pa s)]. */
  readonly psi: Complex;
  /** chi: volume taken up per area, time and pressure [m/(Pa s)]. */
  readonly chi: Complex;
}

/** What a gap and its air have at every frequency: factors of `layerCoefficients`. */
export interface FilmLayer {
  /** k^2 and kT^2 per i omega [s]. */
  readonly viscous: number;
  readonly thermal: number;
  /** Psi per flow function, and chi per i omega where the heat stays [m3/(Pa s)], [m/Pa]. */
  readonly flow: number;
  readonly storage: number;
  readonly heatRatio: number;
}

export function filmLayer({ gap, air }: { readonly gap: number; readonly air: Air }): FilmLayer {
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const perViscosity = (gap * gap) / (4 * viscosity);
  return {
    viscous: perViscosity * air.density,
    // The heat in the air diffuses at Pr times the true viscosity, slip or not.
    thermal: ((gap * gap) / (4 * air.viscosity)) * air.density * air.prandtl,
    flow: gap * perViscosity,
    storage: gap / (air.heatRatio * air.pressure),
    heatRatio: air.heatRatio,
  };
}

/** `omega` may be complex (poles): e^{i omega t}. */
export function layerCoefficients(layer: FilmLayer, omega: Complex): FilmCoefficients {
  const { viscous, thermal, flow, storage, heatRatio } = layer;
  // i omega, and what it is multiplied with, in plain numbers: this is asked for at every frequency of thousands.
  const [iOmegaRe, iOmegaIm] = [-omega.im, omega.re];
  const { mean } = slitFunctions({ re: thermal * iOmegaRe, im: thermal * iOmegaIm });
  const { flow: own } = slitFunctions({ re: viscous * iOmegaRe, im: viscous * iOmegaIm });
  const re = storage * (1 + (heatRatio - 1) * mean.re);
  const im = storage * (heatRatio - 1) * mean.im;
  return {
    psi: { re: flow * own.re, im: flow * own.im },
    chi: { re: iOmegaRe * re - iOmegaIm * im, im: iOmegaRe * im + iOmegaIm * re },
  };
}

/** The same of a gap and its air. */
export const filmCoefficients = (given: { gap: number; air: Air; omega: Complex }): FilmCoefficients =>
  layerCoefficients(filmLayer(given), given.omega);
