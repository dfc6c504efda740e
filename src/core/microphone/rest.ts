/**
 * The device at rest under a static pressure difference: how far the plate has moved, and what that leaves of the film.
 *
 * The plate's state follows from large deflection with immovable edges; sound is linear about it (prepare.ts, line.ts). The film
 * keeps one gap, that as built less the mean deflection. Derivation: docs/theory/staticLoad.md.
 */
import { type LoadedPlate, largeDeflection, loadedFrom } from "../parts/diaphragm/largeDeflection.ts";
import { stretchNumbers } from "../parts/diaphragm/shape.ts";
import type { Film, FilmEdge } from "../parts/film/film.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatNumber, formatQuantity } from "../quantity/format.ts";
import { notBuckled } from "./buckling.ts";
import type { Microphone } from "./microphone.ts";

/** A plate at rest, without dimension: it serves any diaphragm of the same shape and load. Plain numbers. */
export interface Rest {
  /** Deflection over the thickness on the functions of largeDeflection.ts. */
  readonly unknowns: Float64Array;
  /** Deflection at the center and on average, over the thickness [-]. */
  readonly center: number;
  readonly mean: number;
}

/** null: no static difference. Throws where the diaphragm is buckled without load. */
export function restOf({ diaphragm, load }: Pick<Microphone, "diaphragm" | "load">): Rest | null {
  if (!load || load.difference === 0) return null;
  if (load.settled) return load.settled.rest;
  const state = largeDeflection(diaphragm, { upTo: load.difference }).at(load.difference);
  const { thickness } = diaphragm;
  return {
    unknowns: state.unknowns,
    center: state.deflection(0, 0) / thickness,
    mean: state.meanDeflection / thickness,
  };
}

// A state never changes, so the plate in it is made ready once for each diaphragm that asks in turn.
const madeReady = new WeakMap<Rest, { readonly key: string; readonly plate: LoadedPlate }>();

/** The plate in that state. */
export function restingPlate(
  { diaphragm, load }: Pick<Microphone, "diaphragm" | "load">,
  rest: Rest | null,
): LoadedPlate | null {
  if (!rest || !load) return null;
  const key = JSON.stringify([diaphragm, load.difference]);
  const known = madeReady.get(rest);
  if (known?.key === key) return known.plate;
  const plate = loadedFrom(diaphragm, load.difference, rest.unknowns);
  madeReady.set(rest, { key, plate });
  return plate;
}

/**
 * The microphone as it stands: flat where nothing loads it, else with the film's gap as the static deflection leaves it. Of one
 * that has settled, itself. `known`: the plate at rest, found before for this shape and load.
 *
 * Problems: `buckled`, `touches-back-plate`. Remarks: `static-difference`, `uneven-gap`, `steep-deflection`.
 */
export function settled(microphone: Microphone, known: Rest | null = null): Outcome<Microphone> {
  const { diaphragm, film, load } = microphone;
  if (load?.settled) return answer(microphone);
  const flat = notBuckled(diaphragm);
  if (!flat.ok) return flat;
  const rest = known ?? restOf(microphone);
  if (!rest || !load) return answer(microphone);
  const deflection = {
    center: rest.center * diaphragm.thickness,
    mean: rest.mean * diaphragm.thickness,
  };
  if (film && deflection.center >= film.gap) return refuse(touching(deflection.center, film.gap));
  const gap = film && film.gap - deflection.mean;
  const remarks = [moved(microphone, deflection.center)];
  const steepness = (3 * Math.abs(deflection.center)) / Math.min(diaphragm.across, diaphragm.along);
  if (steepness > steep) remarks.push(tooSteep(steepness));
  if (film && Math.abs(deflection.center) > 0.2 * film.gap) remarks.push(uneven(deflection, film));
  return answer(
    {
      ...microphone,
      film: film && gap !== null ? { ...film, gap } : null,
      load: { ...load, settled: { ...deflection, gap: film?.gap ?? null, rest } },
    },
    remarks,
  );
}

/** Largest slope for which 1 - cos is a part in 200: von Karman's plate counts slopes to their square. */
const steep = 0.1;

const path = ["microphone", "load", "difference"] as const;
const length = (value: number) => formatQuantity(value, "length", { digits: 3 });

const touching = (center: number, gap: number): Problem => ({
  code: "touches-back-plate",
  path,
  message: `The static pressure difference bends the diaphragm by ${length(center)} at its center; the film is ${length(gap)} thick, so the diaphragm lies on the back plate. Widen the gap, lower the difference, or open the vent.`,
});

const tooSteep = (slope: number): Problem => ({
  code: "steep-deflection",
  path,
  message: `The static pressure difference bends the diaphragm to slopes of about ${slope.toPrecision(2)}; large deflection as computed here [levy-1942] holds for slopes small against 1, and thin glass breaks far earlier. Computed all the same.`,
});

/**
 * By how much an even film's slow flow is damped too strongly (below 0: too weakly), to first order in the deflection [-].
 *
 *     3 (<w> - <w>_flow) / (g - <w>),   <w>_flow = integral w |grad p|^2 / integral |grad p|^2
 *
 * with w the static shape of a clamped square and p the film's longest wave that is even: 0.81 of the mean where all edges are
 * open, because the air flows where the gap is hardly changed, 0.56 with one open pair, all of it between closed edges.
 * Derivation: docs/theory/staticLoad.md.
 */
export function unevenDamping(
  { gap, edges }: { readonly gap: number; readonly edges: { readonly sides: FilmEdge; readonly ends: FilmEdge } },
  mean: number,
): number {
  const open = [edges.sides, edges.ends].filter((edge) => edge === "open").length;
  const flow = [1, 0.56, 0.81][open]!;
  return (3 * (1 - flow) * mean) / (gap - mean);
}

function uneven({ center, mean }: { readonly center: number; readonly mean: number }, film: Film): Problem {
  const { gap } = film;
  const off = unevenDamping(film, mean);
  const error =
    off === 0
      ? "Between closed edges that costs nothing to first order"
      : `Where the air flows, nearer the edges, it is ${off > 0 ? "wider" : "thinner"}: the damping of slow flow comes out some ${formatNumber(100 * Math.abs(off), { digits: 2 })} % too ${off > 0 ? "strong" : "weak"}, to first order`;
  return {
    code: "uneven-gap",
    path,
    message: `The film, ${length(gap)} as built, is ${length(gap - center)} in the middle and unchanged at the edges; it is computed with the mean, ${length(gap - mean)}. ${error} (docs/theory/staticLoad.md).`,
  };
}

/**
 * What makes such a difference. A climb of v meters a second changes the barometer by about 12 Pa/m v, of which a vent of corner
 * f_c leaves 12 Pa/m v / (2 pi f_c) across the diaphragm; a closed volume keeps all of it.
 */
function moved({ diaphragm, load, back }: Microphone, center: number): Problem {
  const difference = load?.difference ?? 0;
  const share = Math.abs(center) / diaphragm.thickness;
  const vented = back !== null && (back.vent !== null || back.leak !== null);
  const cause = vented
    ? "The vent evens such a difference out at rest: it stays only with the vent blocked, or while the air outside changes fast (a climb of v leaves 12 Pa/m v / (2 pi f_c) across a vent of corner f_c)."
    : "Nothing evens it out: a change of the barometer, of the altitude (12 Pa a meter) or of the temperature behind makes one.";
  return {
    code: "static-difference",
    path,
    message: `${formatQuantity(difference, "pressure", { digits: 3 })} from the front bends the diaphragm by ${length(center)} at its center, ${(100 * share).toPrecision(2)} % of its thickness; all else is linear about that state. ${cause}`,
  };
}

/** Whether two diaphragms under load stretch alike: numbers beside those of the plate's shape. */
export function restNumbers({ diaphragm, load }: Pick<Microphone, "diaphragm" | "load">): readonly number[] {
  if (!load || load.difference === 0) return [];
  const { mu, ratios, perPressure } = stretchNumbers(diaphragm);
  return [load.difference * perPressure, mu, ratios.c12, ratios.c22, ratios.c66];
}
