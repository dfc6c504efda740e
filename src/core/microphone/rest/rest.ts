/**
 * The device at rest, under a static pressure difference and the moment of stressed layers: how far the plate has moved, and what
 * that leaves of the film.
 *
 * The plate's state follows from large deflection with immovable edges; sound is linear about it (prepare.ts, line.ts). The film
 * keeps one gap, that as built less the mean deflection. Derivation: docs/theory/staticLoad.md.
 */
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { type LoadedPlate, largeDeflection, loadedFrom } from "../../parts/diaphragm/largeDeflection.ts";
import { momentNumbers, stretchNumbers } from "../../parts/diaphragm/shape.ts";
import type { Film, FilmEdge } from "../../parts/film/film.ts";
import type { Relief } from "../../parts/film/relief.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { formatNumber, formatQuantity } from "../../quantity/format.ts";
import type { Microphone } from "../microphone.ts";
import { levelled, reliefAt, reliefField } from "../system/relief.ts";
import { notBuckled } from "./buckling.ts";

/** A plate at rest, without dimension: it serves any diaphragm of the same shape and load. Plain numbers. */
export interface Rest {
  /** Deflection over the thickness on the functions of largeDeflection.ts. */
  readonly unknowns: Float64Array;
  /** Deflection at the center and on average, over the thickness [-]. */
  readonly center: number;
  readonly mean: number;
  /** Farthest anywhere toward the back plate, over the thickness [-]; 0 where all of it moves away. */
  readonly farthest: number;
}

type Standing = Pick<Microphone, "diaphragm" | "load">;

/** Whether nothing bends the plate before sound does: no pressure difference, and no layers whose stress bows it. */
export const standsFlat = ({ diaphragm, load }: Standing): boolean =>
  (load?.difference ?? 0) === 0 && !isBowed(diaphragm);

/** null: flat. Throws where the diaphragm is buckled without load. */
export function restOf({ diaphragm, load }: Standing): Rest | null {
  if (standsFlat({ diaphragm, ...(load && { load }) })) return null;
  if (load?.settled) return load.settled.rest;
  const difference = load?.difference ?? 0;
  const state = largeDeflection(diaphragm, { upTo: difference }).at(difference);
  const { thickness } = diaphragm;
  return {
    unknowns: state.unknowns,
    center: state.deflection(0, 0) / thickness,
    mean: state.meanDeflection / thickness,
    farthest: farthestOf(state, diaphragm) / thickness,
  };
}

/** Largest deflection on a grid of a quarter; pressure and moment against each other may have it off the center [m]. */
function farthestOf(state: LoadedPlate, { across, along }: Microphone["diaphragm"]): number {
  let most = 0;
  for (let i = 0; i < places; i++) {
    for (let j = 0; j < places; j++)
      most = Math.max(most, state.deflection((across * i) / (2 * places), (along * j) / (2 * places)));
  }
  return most;
}

/** Places in half a direction at which the farthest point is looked for: the deflection is smooth and even. */
const places = 12;

// A state never changes, so the plate in it is made ready once for each diaphragm that asks in turn.
const madeReady = new WeakMap<Rest, { readonly key: string; readonly plate: LoadedPlate }>();

/** The plate in that state. */
export function restingPlate({ diaphragm, load }: Standing, rest: Rest | null): LoadedPlate | null {
  if (!rest) return null;
  const difference = load?.difference ?? 0;
  const key = JSON.stringify([diaphragm, difference]);
  const known = madeReady.get(rest);
  if (known?.key === key) return known.plate;
  const plate = loadedFrom(diaphragm, difference, rest.unknowns);
  madeReady.set(rest, { key, plate });
  return plate;
}

/**
 * The microphone as it stands: flat where nothing loads it, else with the film's gap as the static deflection leaves it. Of one
 * that has settled, itself. `known`: the plate at rest, found before for this shape and load.
 *
 * Problems: `buckled`, `touches-back-plate`. Remarks: `static-difference`, `bowed-by-layers`, `uneven-gap`, `steep-deflection`.
 */
export function settled(microphone: Microphone, known: Rest | null = null): Outcome<Microphone> {
  const { diaphragm, film, load } = microphone;
  if (load?.settled) return answer(microphone);
  const flat = notBuckled(diaphragm);
  if (!flat.ok) return flat;
  const rest = known ?? restOf(microphone);
  if (!rest) return answer(microphone);
  const deflection = {
    center: rest.center * diaphragm.thickness,
    mean: rest.mean * diaphragm.thickness,
  };
  const farthest = rest.farthest * diaphragm.thickness;
  if (film && farthest >= film.gap) return refuse(touching(microphone, farthest, film.gap));
  const gap = film && film.gap - deflection.mean;
  const relief = film && reliefOf(rest, diaphragm, film);
  const remarks = [];
  if (load && load.difference !== 0) remarks.push(moved(microphone, deflection.center));
  if (isBowed(diaphragm)) remarks.push(bowed(microphone, deflection.center));
  const steepness = (3 * Math.abs(deflection.center)) / Math.min(diaphragm.across, diaphragm.along);
  if (steepness > steep) remarks.push(tooSteep(microphone, steepness));
  if (film && Math.abs(deflection.center) > 0.2 * film.gap) remarks.push(uneven(microphone, deflection, film));
  return answer(
    {
      ...microphone,
      film: film && gap !== null ? { ...levelled(film), gap, ...(relief && { relief }) } : null,
      load: { difference: load?.difference ?? 0, settled: { ...deflection, gap: film?.gap ?? null, rest } },
    },
    remarks,
  );
}

/** How the film's gap departs from its mean; null where that is nothing to speak of. */
function reliefOf(rest: Rest, diaphragm: Microphone["diaphragm"], { gap, backPlate }: Film): Relief | null {
  const { heights, shares } = reliefField(rest, diaphragm);
  const { thickness } = diaphragm;
  if (!(Math.max(...heights.map(Math.abs)) * thickness > 1e-7 * gap)) return null;
  const hole = backPlate?.kind === "hole" ? backPlate.hole : null;
  return {
    heights: heights.map((height) => height * thickness),
    shares,
    ...(hole && { atHole: reliefAt(rest, diaphragm, hole.at) * thickness }),
  };
}

/** Largest slope for which 1 - cos is a part in 200: von Karman's plate counts slopes to their square. */
const steep = 0.1;

/** Where what bends the diaphragm stands in the project. */
const pathOf = ({ load }: Standing): Problem["path"] =>
  load && load.difference !== 0 ? ["microphone", "load", "difference"] : ["microphone", "diaphragm", "layers"];

/** What bends it, as the subject of a sentence. */
const causeOf = ({ diaphragm, load }: Standing): string => {
  const causes = [];
  if (load && load.difference !== 0) causes.push("The static pressure difference");
  if (isBowed(diaphragm)) causes.push(causes.length > 0 ? "the stress of the layers" : "The stress of the layers");
  return causes.join(" with ");
};

const length = (value: number) => formatQuantity(value, "length", { digits: 3 });

const touching = (microphone: Microphone, farthest: number, gap: number): Problem => ({
  code: "touches-back-plate",
  path: pathOf(microphone),
  message: `${causeOf(microphone)} bends the diaphragm by ${length(farthest)}; the film is ${length(gap)} thick, so the diaphragm lies on the back plate. Widen the gap, lower the difference, or open the vent.`,
});

const tooSteep = (microphone: Microphone, slope: number): Problem => ({
  code: "steep-deflection",
  path: pathOf(microphone),
  message: `${causeOf(microphone)} bends the diaphragm to slopes of about ${slope.toPrecision(2)}; large deflection as computed here [levy-1942] holds for slopes small against 1, and thin glass breaks far earlier. Computed all the same.`,
});

/**
 * By how much slow flow in a film of the mean gap, which the curve of damping against gap takes, is damped too strongly (below 0: too weakly), to first order in the deflection [-].
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

function uneven(
  microphone: Microphone,
  { center, mean }: { readonly center: number; readonly mean: number },
  film: Film,
): Problem {
  const { gap } = film;
  const off = unevenDamping(film, mean);
  const error =
    off === 0
      ? "which between closed edges costs nothing to first order"
      : `which damps slow flow some ${formatNumber(100 * Math.abs(off), { digits: 2 })} % too ${off > 0 ? "strongly" : "weakly"}, because the air flows nearer the edges, where the gap is ${off > 0 ? "wider" : "thinner"}`;
  const close =
    center > 0.7 * gap ? " So near the wall, some 0.3 % of the response are left to the film's finest waves." : "";
  return {
    code: "uneven-gap",
    path: pathOf(microphone),
    message: `The film, ${length(gap)} as built, is ${length(gap - center)} in the middle and unchanged at the edges; flow and spring are computed with the gap of each place.${close} The loudest sound and the curve of damping against gap take the mean, ${length(gap - mean)}, ${error} (docs/theory/staticLoad.md).`,
  };
}

/**
 * What makes such a difference. A climb of v meters a second changes the barometer by about 12 Pa/m v, of which a vent of corner
 * f_c leaves 12 Pa/m v / (2 pi f_c) across the diaphragm; a closed volume keeps all of it.
 */
function moved(microphone: Microphone, center: number): Problem {
  const { diaphragm, load, back } = microphone;
  const difference = load?.difference ?? 0;
  const vented = back !== null && (back.vent !== null || back.leak !== null);
  const cause = vented
    ? "The vent evens such a difference out at rest: it stays only with the vent blocked, or while the air outside changes fast (a climb of v leaves 12 Pa/m v / (2 pi f_c) across a vent of corner f_c)."
    : "Nothing evens it out: a change of the barometer, of the altitude (12 Pa a meter) or of the temperature behind makes one.";
  return {
    code: "static-difference",
    path: pathOf(microphone),
    message: `${formatQuantity(difference, "pressure", { digits: 3 })} from the front${isBowed(diaphragm) ? ", with the stress of the layers," : ""} bends the diaphragm by ${length(center)} at its center, ${shareOf(center, diaphragm)} % of its thickness; all else is linear about that state. ${cause}`,
  };
}

const shareOf = (center: number, { thickness }: Microphone["diaphragm"]) =>
  ((100 * Math.abs(center)) / thickness).toPrecision(2);

/** The bow that stressed layers give a plate whose edges turn, and what it supposes of how the device was made. */
function bowed({ diaphragm, load }: Microphone, center: number): Problem {
  const { across, along } = diaphragm.moment ?? { across: 0, along: 0 };
  const by =
    load && load.difference !== 0
      ? "The state at rest is that of both together"
      : `They bow the diaphragm by ${length(Math.abs(center))} at its center, ${center > 0 ? "toward the film" : "toward the sound"}, ${shareOf(center, diaphragm)} % of its thickness; all else is linear about that state`;
  return {
    code: "bowed-by-layers",
    path: ["microphone", "diaphragm", "layers"],
    message: `The stresses of the layers have a moment about the neutral plane, ${across.toPrecision(3)} N across and ${along.toPrecision(3)} N along, and these edges turn. ${by}. Counted are the stresses as given, those of layers on a sheet held flat, and what the frame has forced on each layer since it was bonded; a sheet that was bonded with a bow of its own keeps that besides, and nothing has crept since (docs/theory/laminate.md).`,
  };
}

/** Whether two diaphragms under load stretch alike: numbers beside those of the plate's shape. */
export function restNumbers({ diaphragm, load }: Standing): readonly number[] {
  if (standsFlat({ diaphragm, ...(load && { load }) })) return [];
  const { mu, ratios, perPressure } = stretchNumbers(diaphragm);
  const bow = isBowed(diaphragm) ? momentNumbers(diaphragm) : null;
  return [
    (load?.difference ?? 0) * perPressure,
    mu,
    ratios.c12,
    ratios.c22,
    ratios.c66,
    ...(bow ? [bow.across, bow.along] : []),
  ];
}
