/** What lies around diaphragm and film: front holes and cavity, back cavity, vent and leak, the wall behind the film. */
import type { BackPart, BackPlate, Body, Cavity, FrontPart, Hole, Vent } from "../parts/acoustics/acoustics.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatNumber, formatQuantity } from "../quantity/format.ts";
import type { MicrophoneInSi } from "./microphoneInSi.ts";

type FrontInSi = NonNullable<MicrophoneInSi["front"]>;
type BackInSi = NonNullable<MicrophoneInSi["back"]>;
type BackPlateInSi = NonNullable<NonNullable<MicrophoneInSi["film"]>["backPlate"]>;
type HoleInSi = NonNullable<FrontInSi["holes"]>[number];
type CavityInSi = NonNullable<FrontInSi["cavity"]>;
type VentInSi = NonNullable<BackInSi["vent"]>;

/** Reads needed values and gathers what is missing. */
class Needed {
  readonly problems: Problem[] = [];

  value(value: number | undefined, path: Path, example: string): number {
    if (value === undefined) this.missing(path, example);
    return value ?? Number.NaN;
  }

  missing(path: Path, example: string): void {
    const key = path.at(-1);
    this.problems.push({
      code: "missing-value",
      path,
      message: `"${key}" is missing here and nothing fills it. Give it, for example "${key}": "${example}".`,
    });
  }

  outcome<T>(value: T): Outcome<T> {
    return this.problems.length > 0 ? refuse(...this.problems) : answer(value);
  }
}

/**
 * Problems: `missing-value`, `hole-outside`, `overlapping-holes`, `empty-front`, `impossible-cavity`. A front without holes is
 * sealed; that is said by predict.
 */
export function frontOf({ front, diaphragm }: MicrophoneInSi): Outcome<{ readonly front: FrontPart | null }> {
  if (front === undefined || front === null) return answer({ front: null });
  const needed = new Needed();
  const path = ["microphone", "front"];
  const holes = (front.holes ?? []).map((hole, i) => holeOf(hole, [...path, "holes", i], needed));
  holes.forEach((hole, i) => {
    const shorter = Math.min(diaphragm?.across ?? 0, diaphragm?.along ?? 0);
    if (hole.diameter > shorter)
      needed.problems.push({
        code: "hole-outside",
        path: [...path, "holes", i, "diameter"],
        message: `The hole is wider than the diaphragm's shorter side. Make it smaller, or write "front": null for an open front.`,
      });
  });
  needed.problems.push(...overlaps(holes, [...path, "holes"]));
  const cavity = cavityOf(front.cavity, [...path, "cavity"], needed);
  if (holes.length === 0 && cavity === null)
    needed.problems.push({
      code: "empty-front",
      path,
      message:
        'The front has neither a hole nor a cavity: sound would meet a wall, and the diaphragm could not move. Give "holes" or a "cavity", or write "front": null for an open front.',
    });
  return needed.outcome({ front: { holes, cavity } });
}

/** Two holes in one wall whose rims cross, one problem a pair. */
function overlaps(holes: readonly Hole[], path: Path): readonly Problem[] {
  return holes.flatMap((one, i) =>
    holes.slice(0, i).flatMap((other, j): readonly Problem[] => {
      const distance = Math.hypot(one.at[0] - other.at[0], one.at[1] - other.at[1]);
      if (!(distance < (one.diameter + other.diameter) / 2)) return [];
      return [
        {
          code: "overlapping-holes",
          path: [...path, i, "at"],
          message: `Hole ${i + 1} and hole ${j + 1} overlap: their centers are ${formatQuantity(distance, "length")} apart, their radii together ${formatQuantity((one.diameter + other.diameter) / 2, "length")}. Move one, or make one hole of both.`,
        },
      ];
    }),
  );
}

function holeOf(hole: HoleInSi, path: Path, needed: Needed): Hole {
  const [x = 0, y = 0] = (hole.at ?? []) as readonly number[];
  return {
    diameter: needed.value(hole.diameter, [...path, "diameter"], "1.2 mm"),
    length: needed.value(hole.length, [...path, "length"], "0.2 mm"),
    at: [x, y],
    ends: hole.ends ?? "piston",
  };
}

function cavityOf(cavity: CavityInSi | null | undefined, path: Path, needed: Needed): Cavity | null {
  if (cavity === undefined || cavity === null) return null;
  const volume = needed.value(cavity.volume, [...path, "volume"], "800 mm^3");
  const surface = needed.value(cavity.surface, [...path, "surface"], "600 mm^2");
  // A sphere has the least wall for its volume: S^3 = 36 pi V^2.
  const least = Math.cbrt(36 * Math.PI * volume * volume);
  if (surface < least * (1 - 1e-9))
    needed.problems.push({
      code: "impossible-cavity",
      path: [...path, "surface"],
      message: `No cavity of ${formatQuantity(volume, "volume")} has a wall of only ${formatQuantity(surface, "area")}: a sphere, which has the least, has ${formatQuantity(least, "area")}.`,
    });
  return { volume, surface };
}

/** Problems: `missing-value`, `empty-back`, `impossible-cavity`. */
export function backOf({ back }: MicrophoneInSi): Outcome<{ readonly back: BackPart | null }> {
  if (back === undefined || back === null) return answer({ back: null });
  const needed = new Needed();
  const path = ["microphone", "back"];
  const { leak, vent } = back;
  const nothing = [back.cavity, vent, leak].every((part) => part === undefined || part === null);
  if (nothing)
    needed.problems.push({
      code: "empty-back",
      path,
      message:
        'The back has no cavity, no vent and no leak: a volume of zero, into which nothing can move. Give a "cavity" with its "volume" and "surface", or write "back": null for ambient pressure behind.',
    });
  const leakPath = [...path, "leak"];
  return needed.outcome({
    back: {
      cavity: cavityOf(back.cavity, [...path, "cavity"], needed),
      vent: vent === undefined || vent === null ? null : ventOf(vent, [...path, "vent"], needed),
      leak:
        leak === undefined || leak === null
          ? null
          : {
              height: needed.value(leak.height, [...leakPath, "height"], "2 um"),
              width: needed.value(leak.width, [...leakPath, "width"], "5 mm"),
              length: needed.value(leak.length, [...leakPath, "length"], "1 mm"),
              from: leak.from ?? "front",
            },
    },
  });
}

function ventOf(vent: VentInSi, path: Path, needed: Needed): Vent {
  const exposed = vent.exposed ?? false;
  const length = needed.value(vent.length, [...path, "length"], "3 mm");
  if (vent.shape === "slit") {
    return {
      shape: "slit",
      height: needed.value(vent.height, [...path, "height"], "20 um"),
      width: needed.value(vent.width, [...path, "width"], "2 mm"),
      length,
      exposed,
    };
  }
  return { shape: "round", diameter: needed.value(vent.diameter, [...path, "diameter"], "0.1 mm"), length, exposed };
}

/** Problems: `missing-value`, `overlapping-holes`, `empty-back-plate`, `two-back-plates`, `hole-outside`. Remark: `off-center-hole`. */
export function backPlateOf(
  plate: BackPlateInSi | null | undefined,
  sides: { readonly across: number; readonly along: number },
): Outcome<{ readonly backPlate: BackPlate | null }> {
  if (plate === undefined || plate === null) return answer({ backPlate: null });
  const path = ["microphone", "film", "backPlate"];
  const given = (["holes", "hole", "admittance"] as const).filter((key) => plate[key] !== undefined);
  if (given.length > 1)
    return refuse({
      code: "two-back-plates",
      path,
      message: `Found ${given.map((key) => `"${key}"`).join(" and ")}: a back plate has many holes, or one, or an admittance. Keep one of them.`,
    });
  if (plate.hole) return oneHoleOf(plate.hole, sides, [...path, "hole"]);
  if (plate.admittance !== undefined)
    return answer({ backPlate: { kind: "admittance", admittance: plate.admittance } });
  if (plate.holes) {
    const needed = new Needed();
    const at = [...path, "holes"];
    const holes = {
      diameter: needed.value(plate.holes.diameter, [...at, "diameter"], "0.2 mm"),
      pitch: needed.value(plate.holes.pitch, [...at, "pitch"], "0.8 mm"),
      length: needed.value(plate.holes.length, [...at, "length"], "0.5 mm"),
      ends: plate.holes.ends ?? ("piston" as const),
    };
    if (holes.diameter >= holes.pitch)
      needed.problems.push({
        code: "overlapping-holes",
        path: [...at, "pitch"],
        message:
          "The holes overlap: their diameter is not smaller than their pitch. Widen the pitch or drill smaller holes.",
      });
    return needed.outcome({ backPlate: { kind: "holes", holes } });
  }
  return refuse({
    code: "empty-back-plate",
    path,
    message: 'A back plate needs "holes", a "hole" or an "admittance"; write "backPlate": null for a solid wall.',
  });
}

/** A hole in the wall must lie inside the film. Problems: `missing-value`, `hole-outside`. Remark: `off-center-hole`. */
function oneHoleOf(
  hole: HoleInSi,
  { across, along }: { readonly across: number; readonly along: number },
  path: Path,
): Outcome<{ readonly backPlate: BackPlate }> {
  const needed = new Needed();
  const read = holeOf(hole, path, needed);
  const [x, y] = read.at;
  const radius = read.diameter / 2;
  if (Math.abs(x) + radius > across / 2 || Math.abs(y) + radius > along / 2)
    needed.problems.push({
      code: "hole-outside",
      path: [...path, "diameter"],
      message: `The hole in the wall, ${formatQuantity(read.diameter, "length")} wide, reaches beyond the film, which is as large as the diaphragm. Make it smaller or move it in.`,
    });
  if (needed.problems.length > 0) return refuse(...needed.problems);
  const centered = x === 0 && y === 0;
  const remark: Problem = {
    code: "off-center-hole",
    path: [...path, "at"],
    message:
      "The hole in the wall lies off the center: the pressures that it draws to its side are counted, but not the lopsided shapes of the diaphragm that they bend.",
  };
  return answer({ backPlate: { kind: "hole", hole: read } }, centered ? [] : [remark]);
}

/**
 * Problems: `missing-value`, `body-too-small`. Remarks: `unused-value` (length of a sphere), `short-body`.
 * A cylinder without a length is long.
 */
export function bodyOf({ body, diaphragm }: MicrophoneInSi): Outcome<{ readonly body: Body | null }> {
  if (body === undefined || body === null) return answer({ body: null });
  const path = ["microphone", "body"];
  const needed = new Needed();
  const { shape } = body;
  if (shape === undefined) needed.missing([...path, "shape"], "cylinder");
  const diameter = needed.value(body.diameter, [...path, "diameter"], "13 mm");
  const length = body.length ?? null;
  const diagonal = Math.hypot(diaphragm?.across ?? 0, diaphragm?.along ?? 0);
  if (diameter < diagonal)
    needed.problems.push({
      code: "body-too-small",
      path: [...path, "diameter"],
      message: `The body, ${formatQuantity(diameter, "length")} in diameter, cannot hold the diaphragm, ${formatQuantity(diagonal, "length")} from corner to corner. Make it wider, or write "body": null.`,
    });
  if (shape === undefined || needed.problems.length > 0) return refuse(...needed.problems);
  return answer({ body: { shape, diameter, length } }, bodyRemarks(shape, diameter, length));
}

function bodyRemarks(shape: Body["shape"], diameter: number, length: number | null): readonly Problem[] {
  const path = ["microphone", "body", "length"];
  if (length === null) return [];
  if (shape === "sphere")
    return [{ code: "unused-value", path, message: "A sphere has no length; what is given is not used." }];
  // The table of the cylinder's end is for one many radii long; up to five radii its far end adds 0.2 dB and more.
  if (length >= 2.5 * diameter) return [];
  return [
    {
      code: "short-body",
      path,
      message: `The body is ${formatNumber(length / diameter, { digits: 2 })} diameters long; its diffraction is that of a cylinder longer than 2.5 (docs/theory/acoustics.md). Computed all the same.`,
    },
  ];
}
