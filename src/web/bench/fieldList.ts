/** Which values of a project stand on the page, in which group, and how each is typed. */
import { builtInMaterials, completed, type Project, partsToAdd } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { edgeFields, loadFields } from "./plateFields.ts";

/** What of the microphone and its surroundings is looked at; the drawing's parts among them. */
export const parts = ["diaphragm", "guide", "film", "front", "back", "frame", "body", "air", "light"] as const;
export type Part = (typeof parts)[number];

export const isPart = (name: string | undefined): name is Part => parts.some((part) => part === name);

export interface FieldGroup {
  readonly part: Part;
  readonly title: string;
  readonly fields: readonly FieldSpec[];
}

const plate = "microphone.diaphragm";
const filmPath = "microphone.film";
const filmEdge = ["open", "closed"];
const holeEnds = ["piston", "flanged", "free", "none"];

type Microphone = NonNullable<Project["file"]["microphone"]>;

export function fieldGroups(project: Project): readonly FieldGroup[] {
  const { microphone } = completed(project.file);
  const guides = Array.isArray(microphone?.guide) ? microphone.guide.map((_, i) => `[${i}]`) : [""];
  const { film } = microphone ?? {};
  return [
    {
      part: "diaphragm",
      title: words.groups.diaphragm,
      fields: [
        { path: `${plate}.material`, label: words.words.material, choices: materialNames(project) },
        { path: `${plate}.across` },
        { path: `${plate}.along` },
        { path: `${plate}.thickness` },
        ...edgeFields(microphone?.diaphragm?.edges),
        { path: `${plate}.tension.across` },
        { path: `${plate}.tension.along` },
        { path: `${plate}.lossFactor` },
        ...loadFields,
        ...(microphone?.diaphragm?.layers ?? []).flatMap((_, i) => layerFields(`${plate}.layers[${i}]`, i, project)),
      ],
    },
    ...guides.map((index, i) => ({
      part: "guide" as const,
      title: guides.length > 1 ? `${words.groups.guide} ${i + 1}` : words.groups.guide,
      fields: guideFields(`microphone.guide${index}`),
    })),
    {
      part: "film",
      title: words.groups.film,
      fields: [
        { path: "microphone.film.gap", empty: { path: "microphone.film", value: "null", says: words.emptyFilm } },
        ...(film
          ? [
              {
                path: "microphone.film.edges.sides",
                label: words.words["film.edges.sides"],
                choices: filmEdge,
              },
              { path: "microphone.film.edges.ends", label: words.words["film.edges.ends"], choices: filmEdge },
            ]
          : []),
        ...(film ? [wallField] : []),
        ...(film?.backPlate?.holes ? holeFields(`${filmPath}.backPlate.holes`, ["diameter", "pitch", "length"]) : []),
        ...(film?.backPlate?.hole ? holeAt(`${filmPath}.backPlate.hole`, film.backPlate.hole) : []),
        ...(film?.backPlate?.admittance === undefined ? [] : [{ path: `${filmPath}.backPlate.admittance` }]),
      ],
    },
    { part: "front", title: words.groups.front, fields: frontFields(microphone?.front) },
    { part: "back", title: words.groups.back, fields: backFields(microphone?.back) },
    { part: "frame", title: words.groups.frame, fields: frameFields(microphone?.frame, project) },
    { part: "body", title: words.groups.body, fields: bodyFields(microphone?.body) },
    {
      part: "air",
      title: words.groups.air,
      fields: [{ path: "air.temperature" }, { path: "air.pressure" }, { path: "air.humidity" }],
    },
    { part: "light", title: words.groups.light, fields: [{ path: "microphone.light.wavelength" }] },
  ];
}

const layerFields = (layer: string, i: number, project: Project): readonly FieldSpec[] => [
  { path: `${layer}.material`, label: words.layerMaterial(i + 1), choices: materialNames(project) },
  { path: `${layer}.thickness`, label: words.layerThickness(i + 1) },
  { path: `${layer}.stress`, label: words.layerStress(i + 1) },
];

const holeFields = (hole: string, keys: readonly string[]): readonly FieldSpec[] => [
  ...keys.map((key) => ({ path: `${hole}.${key}` })),
  { path: `${hole}.ends`, label: words.words.ends, choices: holeEnds },
];

/** A hole with its place, where the file says it; `number`: which of several, from 1. */
function holeAt(hole: string, { at }: { readonly at?: unknown }, number: number | null = null): readonly FieldSpec[] {
  const labels = number === null ? words.oneHole : words.holeNumber(number);
  const places = at === undefined ? [] : ([0, 1] as const);
  return [
    { path: `${hole}.diameter`, label: labels.diameter },
    { path: `${hole}.length`, label: labels.length },
    ...places.map((i) => ({ path: `${hole}.at[${i}]`, label: labels.at[i] })),
    { path: `${hole}.ends`, label: labels.ends, choices: holeEnds },
  ];
}

/** What ends the film behind; a choice writes a place to start from. */
const wallField: FieldSpec = {
  path: `${filmPath}.backPlate`,
  label: words.wall.label,
  choices: [words.wall.none, words.wall.holes, words.wall.hole],
  writes: {
    [words.wall.none]: partsToAdd.backPlate.absent,
    [words.wall.holes]: partsToAdd.backPlate.value,
    [words.wall.hole]: '{ "hole": { "diameter": "1 mm", "length": "0.5 mm", "at": ["0 mm", "0 mm"] } }',
  },
};

const cavityFields = (cavity: string): readonly FieldSpec[] => [
  { path: `${cavity}.volume`, label: words.words.volume },
  { path: `${cavity}.surface`, label: words.words.surface },
];

function frontFields(front: Microphone["front"]): readonly FieldSpec[] {
  if (!front) return [];
  return [
    ...(front.holes ?? []).flatMap((hole, i, all) =>
      holeAt(`microphone.front.holes[${i}]`, hole, all.length > 1 ? i + 1 : null),
    ),
    ...(front.cavity ? cavityFields("microphone.front.cavity") : []),
  ];
}

function backFields(back: Microphone["back"]): readonly FieldSpec[] {
  if (!back) return [];
  const at = "microphone.back";
  const opening = back.vent?.shape === "slit" ? ["height", "width"] : ["diameter"];
  return [
    ...(back.cavity ? cavityFields(`${at}.cavity`) : []),
    ...(back.vent
      ? [
          { path: `${at}.vent.shape`, label: words.words.ventShape, choices: ["round", "slit"] },
          ...[...opening, "length"].map((key) => ({ path: `${at}.vent.${key}` })),
          { path: `${at}.vent.exposed`, label: words.words.exposed, choices: ["true", "false"] },
        ]
      : []),
    ...(back.leak
      ? [
          ...["height", "width", "length"].map((key) => ({ path: `${at}.leak.${key}` })),
          { path: `${at}.leak.from`, label: words.words.from, choices: ["front", "outside"] },
        ]
      : []),
  ];
}

function frameFields(frame: Microphone["frame"], project: Project): readonly FieldSpec[] {
  if (!frame) return [];
  const at = "microphone.frame";
  return [
    { path: `${at}.material`, label: words.words.material, choices: materialNames(project) },
    { path: `${at}.thickness` },
    { path: `${at}.bondedAt` },
  ];
}

function bodyFields(body: Microphone["body"]): readonly FieldSpec[] {
  if (!body) return [];
  const at = "microphone.body";
  return [
    { path: `${at}.shape`, label: words.words.bodyShape, choices: ["sphere", "cylinder"] },
    { path: `${at}.diameter` },
    ...(body.shape === "cylinder" ? [{ path: `${at}.length` }] : []),
  ];
}

function guideFields(guide: string): readonly FieldSpec[] {
  return [
    { path: `${guide}.at` },
    { path: `${guide}.face`, label: words.words.face, choices: ["front", "back"] },
    { path: `${guide}.depth` },
    { path: `${guide}.width`, empty: { path: `${guide}.width`, value: "null", says: words.none } },
  ];
}

function materialNames({ file }: Project): readonly string[] {
  return [...Object.keys(file.materials ?? {}), ...Object.keys(builtInMaterials)];
}
