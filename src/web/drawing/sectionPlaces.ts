/** Where everything of the section lies on the sheet [px]: from the shape and its scale, without a page. */
import { benchWords as words } from "../../words/en/bench.ts";
import { bentShape, type DrawingScale, labelStep, wallHeight } from "./scales.ts";
import type { DrawnShape } from "./shapeOf.ts";

/** A value beside the section: what it belongs to is named, and where its line begins. */
export interface SectionLabel {
  readonly path: string;
  readonly after: string;
  readonly part: "diaphragm" | "film" | "front" | "back" | "body";
  readonly y: number;
  /** Where the line to it begins; null: a dimension line stands beside it. */
  readonly from: { readonly x: number; readonly y: number } | null;
}

export interface SectionPlaces {
  readonly left: number;
  readonly right: number;
  readonly half: number;
  /** Sheet with its layers: topmost line, top and underside of the sheet, lowest line. */
  readonly top: number;
  readonly sheetTop: number;
  readonly under: number;
  readonly lowest: number;
  /** Interfaces between layers, as distance below `top`. */
  readonly interfaces: readonly number[];
  readonly gap: number | null;
  readonly wall: number;
  /** Underside of the wall, or of the sheet where there is no film. */
  readonly behind: number;
  readonly bottom: number;
  /** Column of the dimension lines. */
  readonly edge: number;
  readonly front: {
    readonly top: number;
    readonly under: number;
    readonly gaps: readonly (readonly [number, number])[];
  } | null;
  /** Middles and width of the holes of the wall. */
  readonly wallHoles: { readonly at: readonly number[]; readonly width: number } | null;
  readonly vent: { readonly y: number; readonly height: number } | null;
  readonly leak: number | null;
  /** How far the sheet hangs down at x. */
  readonly sag: (x: number) => number;
  /** Whether it touches the wall under the pressure that it is drawn with. */
  readonly touches: boolean;
  readonly labels: readonly SectionLabel[];
}

/** Share of the gap that a deflection is drawn with that is no more than a shape, and the most [px]. */
const bend = { share: 0.45, most: 22 };
/** Fewer pixels than this between two holes are a gray area, not holes. */
const leastPitch = 3;

/** `center`: deflection of the middle [m]; null: not known, only its shape is drawn. */
export function sectionPlaces(shape: DrawnShape, scale: DrawingScale, center: number | null): SectionPlaces {
  const { perMeter, land, middle, section } = scale;
  const up = perMeter * scale.raised;
  const half = (shape.across * perMeter) / 2;
  const [left, right] = [middle - half, middle + half];
  const thick = (face: "front" | "back") =>
    shape.layers.reduce((sum, layer) => sum + (layer.face === face ? layer.thickness * up : 0), 0);
  const under = section.underside - thick("back");
  const sheetTop = under - shape.thickness * up;
  const top = sheetTop - thick("front");
  const lowest = section.underside;
  const gap = shape.film === null ? null : shape.film.gap * up;
  const wall = lowest + (gap ?? 0);
  const behind = wall + (gap === null ? 0 : wallHeight);
  const bottom =
    section.back === null ? lowest + Math.max((gap ?? 0) + wallHeight, 40) + 12 : behind + section.back + 8;
  const edge = right + land + (shape.body === null ? 10 : 18);
  const bent = bentShape(shape.sides);
  const free = gap ?? Number.POSITIVE_INFINITY;
  const deep = center === null ? Math.min(bend.share * (gap ?? 40), bend.most) : center * up;
  const front =
    section.front === null
      ? null
      : {
          top: top - section.front.room - section.front.plate,
          under: top - section.front.room,
          gaps: (shape.front?.holes ?? []).map(({ at, diameter }) => {
            const x = middle + at[0] * perMeter;
            const wide = Math.max((diameter * perMeter) / 2, 1);
            return [x - wide, x + wide] as const;
          }),
        };
  const vent = shape.back?.vent
    ? { y: behind + (section.back ?? 0) / 2, height: Math.min(Math.max(shape.back.vent.opening * perMeter, 3), 10) }
    : null;
  const places = {
    left,
    right,
    half,
    top,
    sheetTop,
    under,
    lowest,
    interfaces: interfacesOf(shape, up),
    gap,
    wall,
    behind,
    bottom,
    edge,
    front,
    wallHoles: wallHolesOf(shape, scale),
    vent,
    leak: shape.back?.leak ? lowest : null,
    sag: (x: number) => Math.min(deep * bent((x - middle) / (2 * half)), free),
    touches: center !== null && center * up >= free,
  };
  return { ...places, labels: labelsOf(shape, places, scale) };
}

function interfacesOf({ layers, thickness }: DrawnShape, up: number): readonly number[] {
  const outward = (face: "front" | "back") => layers.filter((layer) => layer.face === face);
  const stack = [
    ...outward("front")
      .reverse()
      .map((layer) => layer.thickness),
    thickness,
    ...outward("back").map((layer) => layer.thickness),
  ];
  let depth = 0;
  return stack.slice(0, -1).map((one) => {
    depth += one * up;
    return depth;
  });
}

function wallHolesOf({ film, across }: DrawnShape, { perMeter, middle }: DrawingScale): SectionPlaces["wallHoles"] {
  if (film?.hole) {
    const { at, diameter } = film.hole;
    return { at: [middle + at[0] * perMeter], width: Math.max(diameter * perMeter, 1.5) };
  }
  const holes = film?.holes;
  if (!holes || holes.pitch * perMeter < leastPitch) return null;
  const count = Math.max(Math.floor((across - holes.diameter) / holes.pitch + 1e-9) + 1, 1);
  const at = Array.from({ length: count }, (_, i) => middle + (i - (count - 1) / 2) * holes.pitch * perMeter);
  return { at, width: Math.max(holes.diameter * perMeter, 1.5) };
}

type Wanted = Omit<SectionLabel, "y"> & { readonly wanted: number };

/** From top to bottom, each as near to what it names as the others allow. */
function labelsOf(
  shape: DrawnShape,
  places: Omit<SectionPlaces, "labels">,
  { land, terse }: DrawingScale,
): readonly SectionLabel[] {
  const outside = places.right + land;
  const { front, back, film, body } = shape;
  const longer = (word: string) => (terse ? "" : word);
  const wanted: Wanted[] = [];
  const add = (path: string, after: string, part: SectionLabel["part"], y: number, from: SectionLabel["from"]) =>
    wanted.push({ path, after, part, wanted: y, from });
  const beside = (y: number) => ({ x: outside, y });
  const [hole] = front?.holes ?? [];
  if (body) add("microphone.body.diameter", longer(words.bodyShape(body.shape)), "body", 20, { x: outside + 8, y: 26 });
  if (places.front && hole) {
    const y = (places.front.top + places.front.under) / 2;
    add(`${hole.path}.diameter`, words.hole, "front", y, beside(y));
  }
  if (places.front && front?.volume !== null) {
    const y = (places.front.under + places.top) / 2;
    add("microphone.front.cavity.volume", longer(words.cavity), "front", y, beside(y));
  }
  add(
    "microphone.diaphragm.thickness",
    words.thick,
    "diaphragm",
    Math.min((places.sheetTop + places.under) / 2, places.under - 4),
    null,
  );
  if (film) add("microphone.film.gap", words.gap, "film", places.lowest + (places.gap ?? 0) / 2, null);
  if (back?.leak) add("microphone.back.leak.height", words.leak, "back", places.lowest + 3, beside(places.lowest + 1));
  const bores = film?.hole ? "hole" : film?.holes ? "holes" : null;
  if (bores !== null)
    add(`microphone.film.backPlate.${bores}.diameter`, longer(words[bores]), "film", places.wall + wallHeight / 2, {
      x: places.wallHoles?.at.at(-1) ?? places.right,
      y: places.wall + wallHeight / 2,
    });
  if (back && back.volume !== null) {
    const y = places.behind + 0.25 * (places.bottom - places.behind);
    add("microphone.back.cavity.volume", longer(words.cavity), "back", y, { x: places.right - 8, y });
  }
  if (places.vent && back?.vent) add(back.vent.path, words.vent, "back", places.vent.y, beside(places.vent.y));
  let last = Number.NEGATIVE_INFINITY;
  return wanted.map(({ wanted: y, ...label }) => {
    last = Math.max(y, last + labelStep);
    return { ...label, y: last };
  });
}
