/** The diaphragm that a project describes: its sheet and layers, what the frame forces on them, its edges. */

import { type PlaneStiffness, planeStiffness } from "../material/material.ts";
import { type Diaphragm, isBowed } from "../parts/diaphragm/diaphragm.ts";
import { type Layer, laminate, layeredSheet } from "../parts/diaphragm/laminate.ts";
import type { BuiltIn } from "../parts/guide/guide.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { needed } from "./defaults.ts";
import { edgesOf } from "./edgesOf.ts";
import { Gathered } from "./gathered.ts";
import { type Frame, forcedOn, forcedStress, frameOf } from "./heldByFrame.ts";
import { type MaterialsInSi, materialOf, type Resolved } from "./materialOf.ts";
import type { MicrophoneInSi } from "./microphoneInSi.ts";

/** One layer of the described diaphragm, the sheet among them, from the front. */
export interface DescribedLayer {
  readonly resolved: Resolved;
  /** From the middle of the stack, z inward [m]. */
  readonly from: number;
  readonly to: number;
  /** What it bears at rest. */
  readonly builtIn: BuiltIn;
}

export interface DescribedDiaphragm {
  readonly diaphragm: Diaphragm;
  readonly layers: readonly [DescribedLayer, ...DescribedLayer[]];
}

/** A layer that is resolved, before the stack is put together. */
interface Found {
  readonly resolved: Resolved;
  readonly thickness: number;
  readonly stiffness: PlaneStiffness;
  /** Built-in stress as deposited [Pa], and the strain that the frame forces on it, per kelvin and now [-]. */
  readonly stress: number;
  readonly perKelvin: number;
  readonly forced: number;
}

/**
 * Problems: `unknown-material`, `missing-material-value`, `not-positive-definite`, `missing-expansion`, `missing-value` of a layer,
 * those of the edges. Remarks: `plate-not-thin`, `no-bonding-temperature`, those of edges and materials.
 */
export function diaphragmOf(
  microphone: MicrophoneInSi,
  materials: MaterialsInSi,
  airTemperature: number | null,
): Outcome<DescribedDiaphragm> {
  const { diaphragm = {} } = microphone;
  const across = needed(diaphragm.across, "diaphragm.across");
  const along = needed(diaphragm.along, "diaphragm.along");
  const gathered = new Gathered();
  const held = gathered.take(frameOf(microphone, materials, airTemperature));
  const found = gathered.take(stackOf(microphone, materials, held?.frame ?? null));
  if (!held || !found) return refuse(...gathered.problems);
  const layers: Layer[] = found.map(({ thickness, stiffness, stress, forced, resolved }) => {
    const thermal = forcedStress(stiffness, forced);
    return {
      thickness,
      stiffness,
      density: resolved.material.density.value,
      stress: { across: stress + thermal.across, along: stress + thermal.along },
    };
  });
  const made = gathered.take(laminate(layers));
  if (!made) return refuse(...gathered.problems);
  const { stack, ...whole } = layeredSheet(layers, made);
  const [only] = layers;
  // One material stays as it was said, to the last digit.
  const sheet = layers.length === 1 && only ? { ...only, stack: undefined } : { ...whole, stack };
  const edges = gathered.take(edgesOf(diaphragm.edges, sheet));
  const given = { across: diaphragm.tension?.across ?? 0, along: diaphragm.tension?.along ?? 0 };
  if (!edges) return refuse(...gathered.problems);
  const { thickness } = sheet;
  const perKelvin = { across: 0, along: 0 };
  for (const layer of found) {
    const stress = forcedStress(layer.stiffness, layer.perKelvin);
    perKelvin.across += stress.across * layer.thickness;
    perKelvin.along += stress.along * layer.thickness;
  }
  const remarks = gathered.distinctRemarks();
  // A twentieth: the usual limit of thin-plate theory (from memory, to be confirmed); not derived.
  const shorter = Math.min(across, along);
  if (thickness > shorter / 20)
    remarks.push({
      code: "plate-not-thin",
      path: ["microphone", "diaphragm", "thickness"],
      message: `The thickness, ${formatQuantity(thickness, "length")}, is more than a twentieth of the shorter side, ${formatQuantity(shorter, "length")}: thin-plate theory, without shear, makes it stiffer than it is.`,
    });
  const { moment } = made;
  // Of one material, or of layers that balance, round-off is left.
  const bends =
    isBowed({ moment, edges }) && Math.hypot(moment.across, moment.along) > 1e-6 * Math.hypot(...sizes(layers));
  const [first, ...others] = placed(found, layers, stack, given);
  if (!first) throw new Error("diaphragmOf: a diaphragm without layers");
  return answer(
    {
      diaphragm: {
        across,
        along,
        thickness,
        stiffness: sheet.stiffness,
        density: sheet.density,
        ...(sheet.stack && { stack: sheet.stack }),
        edges,
        tension: { across: given.across + made.force.across, along: given.along + made.force.along },
        ...(perKelvin.across !== 0 && { tensionPerKelvin: perKelvin }),
        ...(bends && { moment }),
        lossFactor: diaphragm.lossFactor ?? 0,
      },
      layers: [first, ...others],
    },
    remarks,
  );
}

/** Moments that the layers' stresses would have about the middle of their stack, each by itself [N]. */
const sizes = (layers: readonly Layer[]): number[] => {
  const whole = layers.reduce((sum, { thickness }) => sum + thickness, 0);
  return layers.map(({ stress, thickness }) => Math.hypot(stress.across, stress.along) * thickness * whole);
};

/** The sheet between the layers on its two faces, from the front; each list counts from the sheet outward. */
function stackOf(
  { diaphragm = {} }: MicrophoneInSi,
  materials: MaterialsInSi,
  frame: Frame | null,
): Outcome<readonly Found[]> {
  const gathered = new Gathered();
  const base: Path = ["microphone", "diaphragm"];
  const thickness = needed(diaphragm.thickness, "diaphragm.thickness");
  const sheet = gathered.take(
    layerOf({ material: diaphragm.material, thickness }, "diaphragm", base, materials, frame),
  );
  const faces: Record<"front" | "back", Found[]> = { front: [], back: [] };
  (diaphragm.layers ?? []).forEach((said, i) => {
    const layer = gathered.take(layerOf(said, `layer ${i + 1}`, [...base, "layers", i], materials, frame));
    if (layer) faces[said.face ?? "front"].push(layer);
  });
  if (!sheet || gathered.problems.length > 0) return refuse(...gathered.problems);
  return answer([...faces.front.reverse(), sheet, ...faces.back], gathered.distinctRemarks());
}

type Said = NonNullable<NonNullable<MicrophoneInSi["diaphragm"]>["layers"]>[number];

function layerOf(
  { material, thickness, stress = 0 }: Said,
  what: string,
  path: Path,
  materials: MaterialsInSi,
  frame: Frame | null,
): Outcome<Found> {
  const problems: Problem[] = [];
  if (material === undefined) problems.push(missing(what, [...path, "material"], '"material": "fused-silica"'));
  if (thickness === undefined) problems.push(missing(what, [...path, "thickness"], '"thickness": "5 um"'));
  const resolved = material === undefined ? null : materialOf(material, materials, [...path, "material"]);
  if (resolved && !resolved.ok) problems.push(...resolved.problems);
  if (!resolved?.ok || thickness === undefined) return refuse(...problems);
  const held = forcedOn(resolved.value, what, [...path, "material"], frame);
  if (!held.ok) return refuse(...problems, ...held.problems);
  const stiffness = planeStiffness(resolved.value.material.elasticity);
  return answer({ resolved: resolved.value, thickness, stiffness, stress, ...held.value }, resolved.remarks);
}

const missing = (what: string, path: Path, sample: string): Problem => ({
  code: "missing-value",
  path,
  message: `The ${what} has no ${path.at(-1)}. Give it, for example ${sample}.`,
});

/** Every layer where it lies, with the stress of its own, of the frame, and its share of the tension that was given. */
function placed(
  found: readonly Found[],
  layers: readonly Layer[],
  { layers: places, membrane }: NonNullable<Diaphragm["stack"]>,
  tension: { readonly across: number; readonly along: number },
): DescribedLayer[] {
  const { a11, a12, a22 } = membrane;
  const determinant = a11 * a22 - a12 * a12;
  const stretch = {
    x: (a22 * tension.across - a12 * tension.along) / determinant,
    y: (a11 * tension.along - a12 * tension.across) / determinant,
  };
  return found.map(({ resolved, stiffness: q, stress, forced, perKelvin }, i) => {
    const own = strainOf(q, { across: stress, along: stress });
    const place = places[i]!;
    return {
      resolved,
      from: place.from,
      to: place.to,
      builtIn: {
        strain: { x: own.x - forced + stretch.x, y: own.y - forced + stretch.y },
        strainPerKelvin: { x: -perKelvin, y: -perKelvin },
        stress: {
          across: layers[i]!.stress.across + q.q11 * stretch.x + q.q12 * stretch.y,
          along: layers[i]!.stress.along + q.q12 * stretch.x + q.q22 * stretch.y,
        },
      },
    };
  });
}

/** Strain of a stress, by the inverse of q. */
function strainOf({ q11, q12, q22 }: PlaneStiffness, { across, along }: { across: number; along: number }) {
  const determinant = q11 * q22 - q12 * q12;
  return { x: (q22 * across - q12 * along) / determinant, y: (q11 * along - q12 * across) / determinant };
}
