/** From a project to the microphone in SI: the only place that resolves materials, tension and air. */

import { indexAt } from "../material/dispersion.ts";
import { isotropicConstants, planeStiffness } from "../material/material.ts";
import { photoelasticPair } from "../material/stressOptic.ts";
import type { Microphone } from "../microphone/microphone.ts";
import type { Diaphragm, PlaneStiffness } from "../parts/diaphragm/diaphragm.ts";
import type { Film } from "../parts/film/film.ts";
import type { Guide, GuideOptics } from "../parts/guide/guide.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { airOf } from "./airOf.ts";
import { backOf, backPlateOf, frontOf } from "./aroundOf.ts";
import { completed } from "./defaults.ts";
import { edgesOf, filmEdgesOf, isRotationUnused } from "./edgesOf.ts";
import { readField } from "./fields.ts";
import type { Project } from "./load.ts";
import { type MaterialsInSi, materialOf, type Resolved } from "./materialOf.ts";
import { type GuideInSi, guidePath, guidesOf, type MicrophoneInSi, notYetComputed } from "./notYet.ts";
import { lightOf, readoutOf } from "./readoutOf.ts";
import { type InSi, type ProjectFile, projectShape } from "./shape.ts";
import { inSi } from "./walk.ts";

/** A whole project with its defaults filled in and every physical value in SI, in the same groups and under the same keys as the file. */
export type Parts = InSi<ProjectFile>;

type Path = readonly (string | number)[];

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
 * Problems: `not-yet-computed`, `unknown-material`, `missing-material-value`, `not-positive-definite`, `missing-expansion`,
 * `missing-index`, `missing-photoelastic`, `not-isotropic`, `guide-outside`, `guide-too-deep`, `missing-gap`, those of the air and
 * of what lies around (aroundOf.ts).
 * Remarks: `unused-value`, `plate-not-thin`, `film-not-thin`, `no-bonding-temperature`, those of materials and air.
 */
export function assemble(parts: Parts): Outcome<Microphone> {
  const microphone: MicrophoneInSi = parts.microphone ?? {};
  const materials: MaterialsInSi = parts.materials ?? {};
  const gathered = new Gathered();
  gathered.problems.push(...notYetComputed(microphone));

  const air = gathered.take(airOf(parts.air ?? {}));
  const sheet = gathered.take(
    materialOf(microphone.diaphragm?.material ?? "", materials, ["microphone", "diaphragm", "material"]),
  );
  const diaphragm = sheet && gathered.take(diaphragmOf(microphone, sheet, materials, air?.temperature ?? null));
  const wavelength = needed(microphone.light?.wavelength, "light.wavelength");
  const guides = guidesOf(microphone).map((guide, i) => {
    const path = guidePath(microphone, i);
    const own =
      guide.material === undefined
        ? sheet
        : gathered.take(materialOf(guide.material, materials, [...path, "material"]));
    const optics = own && gathered.take(opticsOf(own, wavelength));
    const within = gathered.take(placed(guide, microphone, path));
    return optics && within ? guideOf(guide, optics) : null;
  });
  const film = gathered.take(filmOf(microphone));
  const front = gathered.take(frontOf(microphone));
  const back = gathered.take(backOf(microphone));

  const [first, ...others] = guides.filter((guide) => guide !== null);
  if (
    gathered.problems.length > 0 ||
    !air ||
    !diaphragm ||
    film === null ||
    front === null ||
    back === null ||
    first === undefined
  )
    return refuse(...gathered.problems);
  return answer(
    {
      diaphragm,
      guides: [first, ...others],
      light: lightOf(microphone.light ?? {}, wavelength),
      readout: readoutOf(microphone.readout ?? {}),
      air,
      ...film,
      ...front,
      ...back,
    },
    gathered.distinctRemarks(),
  );
}

/** Values of many outcomes, and all that they say. */
class Gathered {
  readonly problems: Problem[] = [];
  private readonly remarks: Problem[] = [];

  take<T>(outcome: Outcome<T>): T | null {
    if (outcome.ok) {
      this.remarks.push(...outcome.remarks);
      return outcome.value;
    }
    this.problems.push(...outcome.problems);
    return null;
  }

  distinctRemarks(): Problem[] {
    const seen = new Set<string>();
    return this.remarks.filter(({ code, message }) => {
      const key = `${code} ${message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  }
}

/** A value that the defaults guarantee. */
function needed(value: number | undefined, name: string): number {
  if (value === undefined) throw new Error(`assemble: ${name} has no default`);
  return value;
}

function diaphragmOf(
  microphone: MicrophoneInSi,
  { material }: Resolved,
  materials: MaterialsInSi,
  airTemperature: number | null,
): Outcome<Diaphragm> {
  const { diaphragm = {} } = microphone;
  const across = needed(diaphragm.across, "diaphragm.across");
  const along = needed(diaphragm.along, "diaphragm.along");
  const thickness = needed(diaphragm.thickness, "diaphragm.thickness");
  const stiffness = planeStiffness(material.elasticity);
  const strain = mismatchStrain(microphone, material.expansion?.value ?? null, materials, airTemperature);
  if (!strain.ok) return strain;
  const thermal = thermalTension(stiffness, thickness, strain.value);
  const remarks = [...strain.remarks];
  if (isRotationUnused(diaphragm.edges)) remarks.push(unusedRotation);
  // A twentieth: the usual limit of thin-plate theory (from memory, to be confirmed); not derived.
  const shorter = Math.min(across, along);
  if (thickness > shorter / 20)
    remarks.push({
      code: "plate-not-thin",
      path: ["microphone", "diaphragm", "thickness"],
      message: `The thickness, ${formatQuantity(thickness, "length")}, is more than a twentieth of the shorter side, ${formatQuantity(shorter, "length")}: thin-plate theory, without shear, makes it stiffer than it is.`,
    });
  return answer(
    {
      across,
      along,
      thickness,
      stiffness,
      density: material.density.value,
      edges: edgesOf(diaphragm.edges),
      tension: {
        across: (diaphragm.tension?.across ?? 0) + thermal.across,
        along: (diaphragm.tension?.along ?? 0) + thermal.along,
      },
      lossFactor: diaphragm.lossFactor ?? 0,
    },
    remarks,
  );
}

/**
 * Free expansion of the sheet against its frame since they were bonded, (alpha_plate - alpha_frame) (T - T_bonded) [-]; 0 without
 * a frame or a bonding temperature.
 */
function mismatchStrain(
  { frame }: MicrophoneInSi,
  plateExpansion: number | null,
  materials: MaterialsInSi,
  airTemperature: number | null,
): Outcome<number> {
  if (frame === null || frame?.material === undefined || airTemperature === null) return answer(0);
  const path: Path = ["microphone", "frame", "material"];
  const resolved = materialOf(frame.material, materials, path);
  if (!resolved.ok) return resolved;
  if (frame.bondedAt === undefined) return answer(0, [withoutBondingTemperature]);
  const step = airTemperature - frame.bondedAt;
  if (step === 0) return answer(0, resolved.remarks);
  const frameExpansion = resolved.value.material.expansion?.value ?? null;
  const problems: Problem[] = [];
  if (frameExpansion === null)
    problems.push(missingExpansion("frame", resolved.value.isBuiltIn ? path : [...resolved.value.path, "expansion"]));
  if (plateExpansion === null) problems.push(missingExpansion("diaphragm", ["microphone", "diaphragm", "material"]));
  if (frameExpansion === null || plateExpansion === null) return refuse(...problems);
  return answer((plateExpansion - frameExpansion) * step, resolved.remarks);
}

/**
 * Tension that a thick frame forces on a sheet that would rather expand by `strain` [N/m].
 *
 *     N_x = -(q11 + q12) h strain    N_y = -(q22 + q12) h strain    isotropic: -E h strain / (1 - nu)
 *
 * Derivation: Hooke's law in plane stress, eps_x = eps_y = -strain. Holds: frame much stiffer than the sheet.
 */
export function thermalTension({ q11, q12, q22 }: PlaneStiffness, thickness: number, strain: number) {
  if (strain === 0) return { across: 0, along: 0 };
  return { across: -(q11 + q12) * thickness * strain, along: -(q22 + q12) * thickness * strain };
}

const unusedRotation: Problem = {
  code: "unused-value",
  path: ["microphone", "diaphragm", "edges", "rotation"],
  message: "Sides and ends are given, so the stiffness for all edges is not used.",
};

const withoutBondingTemperature: Problem = {
  code: "no-bonding-temperature",
  path: ["microphone", "frame", "bondedAt"],
  message: 'The frame has no "bondedAt", so no tension from its expansion is counted.',
};

const missingExpansion = (what: string, path: Path): Problem => ({
  code: "missing-expansion",
  path,
  message: `The material of the ${what} has no thermal expansion, and the frame was bonded at another temperature. Give "expansion", for example "7.2 um/(m K)", or leave out "bondedAt".`,
});

function opticsOf({ material, path, isBuiltIn }: Resolved, wavelength: number): Outcome<GuideOptics> {
  const gathered = new Gathered();
  const below = <T>(outcome: Outcome<T>): Outcome<T> =>
    moved(outcome, (inner) => (isBuiltIn ? path : [...path, ...inner]));
  const index = gathered.take(below(indexAt(material, wavelength)));
  const elastic = gathered.take(below(isotropicConstants(material)));
  const pair = index === null ? null : gathered.take(below(photoelasticPair(material, index)));
  if (index === null || elastic === null || pair === null) return refuse(...gathered.problems);
  return answer({ index, ...pair, ...elastic }, gathered.distinctRemarks());
}

/** The same outcome with its paths said from the top of the project. */
function moved<T>(outcome: Outcome<T>, to: (path: Path) => Path): Outcome<T> {
  const said = (problem: Problem): Problem => ({ ...problem, path: to(problem.path) });
  return outcome.ok ? answer(outcome.value, outcome.remarks.map(said)) : refuse(...outcome.problems.map(said));
}

/** Whether a guide lies in the diaphragm. A last digit more than half the side is still the edge. */
function placed(guide: GuideInSi, { diaphragm }: MicrophoneInSi, path: Path): Outcome<true> {
  const problems: Problem[] = [];
  const half = needed(diaphragm?.across, "diaphragm.across") / 2;
  const thickness = needed(diaphragm?.thickness, "diaphragm.thickness");
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

function guideOf(guide: GuideInSi, optics: GuideOptics): Guide | null {
  // A guide without depth was refused as not yet computed.
  if (guide.depth === undefined) return null;
  return {
    at: guide.at ?? 0,
    face: guide.face ?? "front",
    depth: guide.depth,
    width: guide.width ?? null,
    length: needed(guide.length, "guide.length"),
    weight: needed(guide.weight, "guide.weight"),
    birefringence: needed(guide.birefringence, "guide.birefringence"),
    optics,
  };
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
      message: `The gap, ${formatQuantity(film.gap, "length")}, is more than a tenth of the shorter side, ${formatQuantity(shorter, "length")}: the model of a thin film is used outside its range.`,
    });
  const wall = backPlateOf(film.backPlate);
  if (!wall.ok) return wall;
  return answer({ film: { gap: film.gap, edges: filmEdgesOf(film.edges), ...wall.value } }, remarks);
}
