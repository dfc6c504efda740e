/** What plate and film hold at one frequency, whatever functions they are counted on: the whole basis (coupled.ts) or a few (reduced.ts). */
import { type Complex, complex, multiply } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  type SymmetricWork,
  symmetricWork,
} from "../../numerics/complexSymmetric.ts";
import { type Room, separately } from "../../numerics/room.ts";
import { type PlateScales, plateScales } from "../../parts/diaphragm/shape.ts";
import { type FilmLayer, filmLayer } from "../../parts/film/coefficients.ts";
import type { Microphone } from "../microphone.ts";
import type { Sink } from "./wallHole.ts";

/** Room for one system, used again at every frequency. */
export interface CoupledState {
  readonly microphone: Microphone;
  readonly scales: PlateScales;
  /** Of the mean gap; null without film. */
  readonly layer: FilmLayer | null;
  readonly work: SymmetricWork;
  /** The matrix of the present frequency, row-major, lower triangle. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** i omega s / d of every function of the film at the present frequency. */
  readonly filmRe: Float64Array;
  readonly filmIm: Float64Array;
  /** The first of two products that couple the film to the plate. */
  readonly pass: ComplexVector;
  /** What the one hole in the wall behind the film takes at the present frequency; null without. */
  sink: Sink | null;
}

/** `functions`, `filmFunctions`: how many the plate and the film have; `pass`: size of the first product. */
export const coupledState = (
  microphone: Microphone,
  {
    functions,
    filmFunctions,
    pass,
  }: { readonly functions: number; readonly filmFunctions: number; readonly pass: number },
  room: Room = separately,
): CoupledState => ({
  ...numbersOf(microphone),
  work: symmetricWork(functions, room),
  re: room(functions * functions),
  im: room(functions * functions),
  filmRe: room(filmFunctions),
  filmIm: room(filmFunctions),
  pass: complexVector(pass, room),
  sink: null,
});

/** What depends on the microphone's own numbers alone. */
export const numbersOf = (microphone: Microphone): Pick<CoupledState, "microphone" | "scales" | "layer"> => ({
  microphone,
  scales: plateScales(microphone.diaphragm),
  layer: microphone.film && filmLayer({ gap: microphone.film.gap, air: microphone.air }),
});

/** Volume flow per dimensionless answer: i omega s a b / 4 [m3/(Pa s)]. */
export function flowPerAnswer(
  { microphone, scales }: Pick<CoupledState, "microphone" | "scales">,
  omega: Complex,
): Complex {
  const { across, along } = microphone.diaphragm;
  return multiply(complex(0, (across * along * scales.deflection) / 4), omega);
}
