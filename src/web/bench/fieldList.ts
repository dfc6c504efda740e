/** Which values of a project stand on the page, in which group, and how each is typed. */
import { builtInMaterials, completed, type Project } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { edgeFields, loadFields } from "./plateFields.ts";

/** What of the microphone and its surroundings is looked at; the drawing's parts among them. */
export type Part = "diaphragm" | "guide" | "film" | "air" | "light";

export interface FieldGroup {
  readonly part: Part;
  readonly title: string;
  readonly fields: readonly FieldSpec[];
}

const plate = "microphone.diaphragm";
const filmEdge = ["open", "closed"];

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
      ],
    },
    {
      part: "air",
      title: words.groups.air,
      fields: [{ path: "air.temperature" }, { path: "air.pressure" }, { path: "air.humidity" }],
    },
    { part: "light", title: words.groups.light, fields: [{ path: "microphone.light.wavelength" }] },
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
