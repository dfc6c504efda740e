/** From a project to the microphone in SI: the only place that resolves materials, tension and air. */

import type { Air } from "../material/air.ts";
import type { Microphone } from "../microphone/microphone.ts";
import type { Diaphragm } from "../parts/diaphragm/diaphragm.ts";
import type { Film } from "../parts/film/film.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { airOf } from "./airOf.ts";
import { backOf, backPlateOf, bodyOf, frontOf } from "./aroundOf.ts";
import { completed, needed } from "./defaults.ts";
import { type DescribedLayer, diaphragmOf } from "./diaphragmOf.ts";
import { filmEdgesOf } from "./edgesOf.ts";
import { readField } from "./fields.ts";
import { Gathered } from "./gathered.ts";
import { guideOf } from "./guideOf.ts";
import type { Project } from "./load.ts";
import { type MaterialsInSi, materialOf } from "./materialOf.ts";
import { type GuideInSi, guidePath, guidesOf, type MicrophoneInSi } from "./microphoneInSi.ts";
import { opticsOf } from "./opticsOf.ts";
import { lightOf, readoutOf } from "./readoutOf.ts";
import { type InSi, type ProjectFile, projectShape } from "./shape.ts";
import { inSi } from "./walk.ts";

/** A whole project with its defaults filled in and every physical value in SI, in the same groups and under the same keys as the file. */
export type Parts = InSi<ProjectFile>;

// A project never changes, so its values are read once.
const readBefore = new WeakMap<Project, Parts>();

/** The project's values in SI. Inner loops change these numbers and call `assemble`. */
export function partsOf(project: Project): Parts {
  const known = readBefore.get(project);
  if (known) return known;
  const parts = inSi(projectShape, completed(project.file), (value, field) => {
    const read = readField(value, field, []);
    if (!read.ok) throw new Error(`partsOf: "${value}" in a project that was loaded as valid`);
    return read.value;
  }) as Parts;
  readBefore.set(project, parts);
  return parts;
}

/**
 * The microphone that a project describes, in SI.
 *
 * Problems: see `assemble`.
 */
export const describe = (project: Project): Outcome<Microphone> => assemble(partsOf(project));

/**
 * The microphone of a set of values in SI, all problems in one pass.
 *
 * Problems: those of the diaphragm (diaphragmOf.ts), of the guide (guideOf.ts) and its material (opticsOf.ts), `guide-outside`,
 * `guide-too-deep`, `missing-gap`, those of the air and of what lies around (aroundOf.ts).
 * Remarks: `film-not-thin`, those of the diaphragm, of materials and air. `described`: the air, where it is at hand.
 */
export function assemble(parts: Parts, described: Outcome<Air> = airIn(parts)): Outcome<Microphone> {
  const microphone: MicrophoneInSi = parts.microphone ?? {};
  const materials: MaterialsInSi = parts.materials ?? {};
  const gathered = new Gathered();

  const air = gathered.take(described);
  const plate = gathered.take(diaphragmOf(microphone, materials, air?.temperature ?? null));
  const wavelength = needed(microphone.light?.wavelength, "light.wavelength");
  const guides = guidesOf(microphone).map((guide, i) => {
    const path = guidePath(microphone, i);
    const around = plate && layerAround(guide, plate.layers);
    const own =
      guide.material === undefined
        ? around?.resolved
        : gathered.take(materialOf(guide.material, materials, [...path, "material"]));
    const optics = own && gathered.take(opticsOf(own, wavelength));
    const within = gathered.take(placed(guide, plate?.diaphragm ?? sheetOf(microphone), path));
    if (!optics || !within || !around) return null;
    const surroundings = {
      optics,
      builtIn: around.builtIn,
      expansion: own?.material.expansion?.value ?? null,
      diaphragm: plate?.diaphragm ?? null,
      thickness: (plate?.diaphragm ?? sheetOf(microphone)).thickness,
      wavelength,
      kind: microphone.readout?.kind ?? "polarimetric",
      arm: microphone.readout?.arm ?? "TE",
    };
    return gathered.take(guideOf(guide, surroundings, path));
  });
  const film = gathered.take(filmOf(microphone));
  const difference = microphone.load?.difference ?? 0;
  const front = gathered.take(frontOf(microphone));
  const back = gathered.take(backOf(microphone));
  const body = gathered.take(bodyOf(microphone));

  const [first, ...others] = guides.filter((guide) => guide !== null);
  if (
    gathered.problems.length > 0 ||
    !air ||
    !plate ||
    film === null ||
    front === null ||
    back === null ||
    body === null ||
    first === undefined
  )
    return refuse(...gathered.problems);
  return answer(
    {
      diaphragm: plate.diaphragm,
      guides: [first, ...others],
      light: lightOf(microphone.light ?? {}, wavelength),
      readout: readoutOf(microphone.readout ?? {}),
      air,
      ...film,
      ...front,
      ...back,
      ...(difference !== 0 && { load: { difference } }),
      ...body,
      ...brittleness(microphone, materials),
    },
    gathered.distinctRemarks(),
  );
}

/** The air of a set of values, a quarter of the work of `assemble`. */
export const airIn = ({ air }: Parts): Outcome<Air> => airOf(air ?? {});

/** Strength of the sheet, as far as its material says; that it resolves was asked before. */
function brittleness(microphone: MicrophoneInSi, materials: MaterialsInSi): Pick<Microphone, "strength" | "glass"> {
  const sheet = materialOf(microphone.diaphragm?.material ?? "", materials, ["microphone", "diaphragm", "material"]);
  if (!sheet.ok) return {};
  const { strength, elasticity, index, p11, stressOptic } = sheet.value.material;
  const glass = elasticity.kind === "isotropic" && index !== null && (p11 !== null || stressOptic !== null);
  return { ...(strength && { strength }), ...(glass && { glass }) };
}

/** What is known of the diaphragm's size where its materials are not. */
const sheetOf = ({ diaphragm }: MicrophoneInSi) => ({
  across: needed(diaphragm?.across, "diaphragm.across"),
  thickness: (diaphragm?.layers ?? []).reduce(
    (sum, { thickness = 0 }) => sum + thickness,
    needed(diaphragm?.thickness, "diaphragm.thickness"),
  ),
});

/** Whether a guide lies in the diaphragm. A last digit more than half the side is still the edge. */
function placed(
  guide: GuideInSi,
  { across, thickness }: Pick<Diaphragm, "across" | "thickness">,
  path: Path,
): Outcome<true> {
  const problems: Problem[] = [];
  const half = across / 2;
  const { at = 0, depth } = guide;
  if (Math.abs(at) > half * (1 + 1e-12))
    problems.push({
      code: "guide-outside",
      path: [...path, "at"],
      message: `The guide lies at ${formatQuantity(at, "length")}, outside the diaphragm, which reaches to ${formatQuantity(half, "length")} on either side of its center.`,
    });
  if (depth !== undefined && depth >= thickness)
    problems.push({
      code: "guide-too-deep",
      path: [...path, "depth"],
      message: `The mode lies ${formatQuantity(depth, "length")} deep in a diaphragm of ${formatQuantity(thickness, "length")}.`,
    });
  return problems.length > 0 ? refuse(...problems) : answer(true);
}

/** The layer that a guide's depth lies in, counted from its face; on a border the one nearer the face. */
function layerAround(
  { face = "front", depth = 0 }: GuideInSi,
  layers: readonly [DescribedLayer, ...DescribedLayer[]],
): DescribedLayer {
  const inward = face === "front" ? [...layers] : layers.toReversed();
  let under = 0;
  for (const layer of inward) {
    under += layer.to - layer.from;
    if (depth <= under * (1 + 1e-12)) return layer;
  }
  return inward.at(-1) ?? layers[0];
}

function filmOf({ film, diaphragm }: MicrophoneInSi): Outcome<{ readonly film: Film | null }> {
  if (film === undefined || film === null) return answer({ film: null });
  if (film.gap === undefined)
    return refuse({
      code: "missing-gap",
      path: ["microphone", "film", "gap"],
      message: 'The film has no gap. Give it, for example "gap": "38 um", or write "film": null.',
    });
  const shorter = Math.min(diaphragm?.across ?? 0, diaphragm?.along ?? 0);
  const remarks: Problem[] = [];
  // A tenth: the film model takes the pressure as constant over the gap, wrong by the order of (gap / side)^2, 1 %.
  if (film.gap > shorter / 10)
    remarks.push({
      code: "film-not-thin",
      path: ["microphone", "film", "gap"],
      message: `The gap, ${formatQuantity(film.gap, "length")}, is more than a tenth of the shorter side, ${formatQuantity(shorter, "length")}: the model of a thin film [beltman-1999] is used outside its range.`,
    });
  const wall = backPlateOf(film.backPlate, {
    across: needed(diaphragm?.across, "diaphragm.across"),
    along: needed(diaphragm?.along, "diaphragm.along"),
  });
  if (!wall.ok) return wall;
  return answer({ film: { gap: film.gap, edges: filmEdgesOf(film.edges), ...wall.value } }, [
    ...remarks,
    ...wall.remarks,
  ]);
}
