/** What kind of film it is at a frequency: the numbers that say so, and their names. */
import type { Air } from "../../material/air.ts";
import type { Film } from "./film.ts";

/** What the film does, by name, and the numbers that say so. */
export interface FilmRegime {
  /** Frequency that the numbers belong to [Hz]. */
  readonly frequency: number;
  /** Squeeze number 12 mu omega W^2 / (P0 g^2), W the shorter side [-]. */
  readonly squeezeNumber: number;
  /** Gap over the viscous boundary layer sqrt(2 mu / (rho0 omega)) [-]. */
  readonly gapOverViscousLayer: number;
  /** Knudsen number, mean free path over gap [-]. */
  readonly knudsen: number;
  /** Names that apply: "viscous", "with inertia", "inertial", "compressed", "isothermal", "adiabatic", "rarefied". */
  readonly names: readonly string[];
}

/**
 * Source: squeeze number as in [blech-1983]; boundary layers as in [tijdeman-1975] (from memory, to be confirmed). The limits
 * between the names are conventions of this program: a layer fills the gap below 2, inertia counts from 0.5 layers, a square
 * open film springs as much as it damps at a squeeze number of 21.6, slip changes the flow by 5 % from Knudsen number 0.01.
 */
export function filmRegime(given: {
  readonly film: Film;
  readonly air: Air;
  readonly across: number;
  readonly along: number;
  readonly frequency: number;
}): FilmRegime {
  const { film, air, frequency } = given;
  const omega = 2 * Math.PI * frequency;
  const squeezeNumber = squeezeNumberOf({ air, gap: film.gap, side: Math.min(given.across, given.along), omega });
  const gapOverViscousLayer = film.gap / Math.sqrt((2 * air.viscosity) / (air.density * omega));
  const gapOverThermalLayer = gapOverViscousLayer * Math.sqrt(air.prandtl);
  const knudsen = air.meanFreePath / film.gap;
  const closed = film.edges.sides === "closed" && film.edges.ends === "closed";
  const names: string[] = [];
  names.push(gapOverViscousLayer < 2 ? "viscous" : "inertial");
  if (gapOverViscousLayer >= 0.5 && gapOverViscousLayer < 2) names.push("with inertia");
  if (closed || squeezeNumber > 20) names.push("compressed");
  if (gapOverThermalLayer < 1) names.push("isothermal");
  if (gapOverThermalLayer > 10) names.push("adiabatic");
  if (knudsen > 0.01) names.push("rarefied");
  return { frequency, squeezeNumber, gapOverViscousLayer, knudsen, names };
}

/** sigma = 12 mu omega W^2 / (P0 g^2) [-]; W the shorter side. Source: [blech-1983]. */
function squeezeNumberOf(given: { air: Air; gap: number; side: number; omega: number }): number {
  return (12 * given.air.viscosity * given.omega * given.side ** 2) / (given.air.pressure * given.gap ** 2);
}
