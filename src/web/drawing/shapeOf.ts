/** What the drawing needs of a project, in SI: also of one that can't be computed, so that a part out of place is seen there. */
import { completed, findPath, type Project } from "../../core/index.ts";
import { valueText } from "../shell/valueText.ts";

export interface GuidePlace {
  readonly path: string;
  /** [m] */
  readonly at: number;
  readonly depth: number;
  readonly face: "front" | "back";
}

/** A round hole; `at`: its middle, across and along [m]. */
export interface DrawnHole {
  readonly path: string;
  readonly diameter: number;
  readonly length: number;
  readonly at: readonly [number, number];
}

export interface DrawnShape {
  /** [m] */
  readonly across: number;
  readonly along: number;
  readonly thickness: number;
  /** Layers on the sheet, from the sheet outward on each face [m]. */
  readonly layers: readonly { readonly thickness: number; readonly face: "front" | "back" }[];
  readonly guides: readonly GuidePlace[];
  /** null: no film. */
  readonly film: {
    readonly gap: number;
    readonly sides: string;
    readonly ends: string;
    /** Holes of the back plate [m]; null: a wall without holes. */
    readonly holes: { readonly diameter: number; readonly pitch: number } | null;
    /** The one hole of the back plate; null: none. */
    readonly hole: DrawnHole | null;
  } | null;
  /** null: sound meets the diaphragm. `volume` [m^3], null: no cavity. */
  readonly front: { readonly holes: readonly DrawnHole[]; readonly volume: number | null } | null;
  /** null: ambient pressure behind. Volume [m^3]; opening of the vent [m]; null: none. */
  readonly back: {
    readonly volume: number | null;
    readonly vent: { readonly opening: number; readonly path: string; readonly exposed: boolean } | null;
    readonly leak: boolean;
  } | null;
  readonly body: { readonly shape: string } | null;
  readonly sides: string;
  readonly ends: string;
  /** Static pressure that the drawing is bent under [Pa]: that of the project, else the most that the site brings; null: neither. */
  readonly pressure: { readonly value: number; readonly from: "load" | "site" } | null;
}

const plate = "microphone.diaphragm";
const film = "microphone.film";
const front = "microphone.front";
const back = "microphone.back";

export function shapeOf(project: Project): DrawnShape {
  const { microphone } = completed(project.file);
  const value = (path: string): number | null => {
    const found = findPath(path);
    const read = found.ok ? found.value.read(project) : found;
    return read.ok ? read.value : null;
  };
  const number = (path: string, otherwise: number): number => value(path) ?? otherwise;
  const holeAt = (path: string): DrawnHole => ({
    path,
    diameter: number(`${path}.diameter`, 0),
    length: number(`${path}.length`, 0),
    at: [number(`${path}.at[0]`, 0), number(`${path}.at[1]`, 0)],
  });
  const vent = microphone?.back?.vent;
  const ventPath = `${back}.vent.${vent?.shape === "slit" ? "height" : "diameter"}`;
  return {
    across: number(`${plate}.across`, 5e-3),
    along: number(`${plate}.along`, 5e-3),
    thickness: number(`${plate}.thickness`, 30e-6),
    layers: (microphone?.diaphragm?.layers ?? []).map(({ face }, i) => ({
      thickness: number(`${plate}.layers[${i}].thickness`, 0),
      face: face === "back" ? "back" : "front",
    })),
    guides: guidePaths(project).map((path) => ({
      path,
      at: number(`${path}.at`, 0),
      depth: number(`${path}.depth`, 0),
      face: valueText(project, `${path}.face`) === "back" ? "back" : "front",
    })),
    film: microphone?.film
      ? {
          gap: number(`${film}.gap`, 0),
          sides: valueText(project, `${film}.edges.sides`) || "open",
          ends: valueText(project, `${film}.edges.ends`) || "open",
          holes: microphone.film.backPlate?.holes
            ? {
                diameter: number(`${film}.backPlate.holes.diameter`, 0),
                pitch: number(`${film}.backPlate.holes.pitch`, 0),
              }
            : null,
          hole: microphone.film.backPlate?.hole ? holeAt(`${film}.backPlate.hole`) : null,
        }
      : null,
    front: microphone?.front
      ? {
          holes: (microphone.front.holes ?? []).map((_, i) => holeAt(`${front}.holes[${i}]`)),
          volume: value(`${front}.cavity.volume`),
        }
      : null,
    back: microphone?.back
      ? {
          volume: value(`${back}.cavity.volume`),
          vent: vent ? { opening: number(ventPath, 0), path: ventPath, exposed: vent.exposed === true } : null,
          leak: Boolean(microphone.back.leak),
        }
      : null,
    body: microphone?.body ? { shape: valueText(project, "microphone.body.shape") || "sphere" } : null,
    sides: valueText(project, `${plate}.edges.sides`),
    ends: valueText(project, `${plate}.edges.ends`),
    pressure: pressureOf(value("microphone.load.difference"), value("brief.site.staticOverpressure")),
  };
}

function pressureOf(load: number | null, site: number | null): DrawnShape["pressure"] {
  if (load !== null && load !== 0) return { value: load, from: "load" };
  return site === null || site === 0 ? null : { value: site, from: "site" };
}

/** "microphone.guide", or one with its index for each of a list. */
export function guidePaths(project: Project): readonly string[] {
  const guide = project.file.microphone?.guide;
  return Array.isArray(guide) ? guide.map((_, i) => `microphone.guide[${i}]`) : ["microphone.guide"];
}
