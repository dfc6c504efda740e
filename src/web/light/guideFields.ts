/** What is typed about how a guide is made, and what each way begins with. */
import { changeValue, type Outcome, type Project, removeValue } from "../../core/index.ts";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { firstGuide, guidePath } from "./guidePath.ts";

export const ways = ["hand", "bath", "graded", "step", "layered"] as const;
export type Way = (typeof ways)[number];

const starts: Readonly<Record<Exclude<Way, "hand">, readonly [key: "process" | "profile", value: string]>> = {
  bath: [
    "process",
    '{ "kind": "ion-exchange", "salt": "potassium", "temperature": "385 degC", "time": "3 h", "window": "4 um", "everywhere": false }',
  ],
  graded: [
    "profile",
    '{ "kind": "gaussian", "indexChange": 0.009, "birefringence": 0.001, "depth": "3 um", "width": "4 um", "edge": "1 um" }',
  ],
  step: ["profile", '{ "kind": "step", "indexChange": 0.01, "depth": "3 um", "width": "3 um" }'],
  layered: ["profile", '{ "kind": "layered", "layers": [ { "thickness": "2 um", "index": 1.535, "width": "3 um" } ] }'],
};

export function wayOf(project: Project): Way {
  const guide = firstGuide(project);
  if (guide?.depth !== undefined) return "hand";
  const { profile = null, process = null } = guide ?? {};
  if (profile !== null) {
    if (profile.kind === "layered") return "layered";
    return profile.kind === "step" ? "step" : "graded";
  }
  if (process === null) return "hand";
  return process.kind === "deposition" ? "layered" : "bath";
}

/** The project with its first guide made that way; what was said of the other ways goes. */
export function madeSo(project: Project, way: Way): Outcome<Project> {
  let changed = project;
  const guide = guidePath(project);
  for (const key of ["depth", "width", "birefringence", "profile", "process"]) {
    const without = removeValue(changed, `${guide}.${key}`);
    if (without.ok) changed = without.value;
  }
  if (way === "hand") return changeValue(changed, `${guide}.depth`, "3 um");
  const [key, value] = starts[way];
  return changeValue(changed, `${guide}.${key}`, value);
}

/** Where the layers stand; null: none. */
export function layersPath(project: Project): string | null {
  const guide = firstGuide(project);
  if (guide?.profile?.kind === "layered") return `${guidePath(project)}.profile.layers`;
  return guide?.process?.kind === "deposition" ? `${guidePath(project)}.process.layers` : null;
}

export const layersOf = (project: Project) => {
  const guide = firstGuide(project);
  return guide?.profile?.layers ?? guide?.process?.layers ?? [];
};

const optional = (path: string, says: string, label?: string): FieldSpec => ({
  path,
  empty: { path, value: null, says },
  ...(label !== undefined && { label }),
});

export function fieldsOf(project: Project, way: Way): readonly FieldSpec[] {
  const guide = guidePath(project);
  const process = `${guide}.process`;
  const profile = `${guide}.profile`;
  if (way === "hand")
    return [
      { path: `${guide}.depth` },
      { path: `${guide}.width`, empty: { path: `${guide}.width`, value: "null", says: "a line" } },
      { path: `${guide}.birefringence` },
    ];
  if (way === "bath")
    return [
      { path: `${process}.salt`, label: "Molten salt", choices: ["potassium", "silver"] },
      { path: `${process}.temperature` },
      { path: `${process}.time` },
      { path: `${process}.window`, label: "Window in the mask" },
      optional(`${process}.indexChange`, "of the salt", "Index change at the face"),
      optional(`${process}.birefringence`, "of the salt", "More of it for TM"),
      optional(`${process}.diffusion`, "of the salt"),
      optional(`${process}.activation`, "of the salt", "Activation energy"),
      optional(`${process}.stress`, "of the salt", "Stress of the face"),
      { path: `${process}.everywhere`, label: "Whole face, no mask", choices: ["true", "false"] },
    ];
  if (way === "layered") return [];
  return [
    ...(way === "graded"
      ? [{ path: `${profile}.kind`, label: "Shape in depth", choices: ["erfc", "gaussian", "exponential"] }]
      : []),
    { path: `${profile}.indexChange`, label: "Index change at the face" },
    optional(`${profile}.birefringence`, "0", "More of it for TM"),
    { path: `${profile}.depth`, label: way === "step" ? "Height of the core" : "Depth of the profile" },
    { path: `${profile}.width`, label: "Width of the core" },
    optional(`${profile}.below`, "0 um", "Buried by"),
    ...(way === "graded" ? [optional(`${profile}.edge`, "sharp", "Spread of the edges")] : []),
    optional(`${profile}.cover`, "1, air", "Index of the cover"),
  ];
}

export const layerFields = (layers: string, index: number): readonly FieldSpec[] => {
  const layer = `${layers}[${index}]`;
  return [
    { path: `${layer}.thickness`, label: "Thickness" },
    { path: `${layer}.index`, label: "Index" },
    {
      path: `${layer}.width`,
      label: "Width of the strip",
      empty: { path: `${layer}.width`, value: "null", says: "everywhere" },
    },
    optional(`${layer}.beside`, "as the cover", "Index beside it"),
  ];
};

/** What only the guide's modes depend on, as a project's text: another bias asks nothing anew. */
export function guideText({ file }: Project): string {
  const { format, version, materials, air, microphone = {} } = file;
  const { diaphragm, frame, guide, light } = microphone;
  return JSON.stringify({ format, version, materials, air, microphone: { diaphragm, frame, guide, light } });
}
