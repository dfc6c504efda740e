/** Real poles: how the film lets the diaphragm creep back where it overdamps it. */
import { complex } from "../numerics/complex.ts";
import { effectiveViscosity } from "../parts/film/slip.ts";
import type { Microphone } from "./microphone.ts";
import type { PoleModel } from "./poleModel.ts";

/**
 * Rates of the poles e^(-rate t) below `upTo` and below the first singularity of the film itself, slowest first [1/s].
 * The model must be without structural loss: a constant loss factor is not causal, and off the real axis it has no meaning.
 */
export function realPoles(model: PoleModel, upTo: number): readonly number[] {
  if (!model.microphone.film) return [];
  const end = Math.min(upTo, 0.999 * firstFilmSingularity(model.microphone));
  const count = 60;
  const rates: number[] = [];
  let from = end * 1e-6;
  let before = inertia(model, from);
  for (let i = 1; i <= count; i++) {
    const to = end * 10 ** (6 * (i / count - 1));
    const after = inertia(model, to);
    if (after !== before) rates.push(...split(model, from, before, to, after));
    from = to;
    before = after;
  }
  return rates.sort((a, b) => a - b);
}

/**
 * Inertia of plate and film on the imaginary axis omega = i sigma, where both are real: negative pivots of the plate with the
 * film eliminated, plus film factors of positive compliance. It changes by one where a real pole is passed, and only there.
 */
function inertia(model: PoleModel, sigma: number): number {
  model.set(complex(0, sigma));
  let negative = 0;
  for (const pivot of model.work.pivotRe) if (pivot < 0) negative++;
  for (const factor of model.filmRe) if (factor > 0) negative++;
  return negative;
}

/** Bisects an interval down to each single change of the inertia. */
function split(model: PoleModel, from: number, atFrom: number, to: number, atTo: number): number[] {
  if (atFrom === atTo) return [];
  if (to - from < 1e-8 * to) return Array.from({ length: Math.abs(atTo - atFrom) }, () => (from + to) / 2);
  const middle = (from + to) / 2;
  const atMiddle = inertia(model, middle);
  return [...split(model, from, atFrom, middle, atMiddle), ...split(model, middle, atMiddle, to, atTo)];
}

/** Rate at which tan k / k of the film's flow or heat first becomes infinite: k = pi / 2 [1/s]. */
function firstFilmSingularity({ film, air }: Microphone): number {
  const gap = film!.gap;
  const viscosity = effectiveViscosity({ viscosity: air.viscosity, meanFreePath: air.meanFreePath, gap });
  const viscous = viscosity / air.density;
  const thermal = air.viscosity / (air.density * air.prandtl);
  return (Math.min(viscous, thermal) * Math.PI ** 2) / gap ** 2;
}
