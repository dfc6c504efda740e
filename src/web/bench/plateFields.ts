/** The values of the diaphragm's edges and of what loads it at rest. */
import type { Project } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { FieldSpec } from "../shell/fieldSpec.ts";

type Diaphragm = NonNullable<NonNullable<Project["file"]["microphone"]>["diaphragm"]>;

const edges = "microphone.diaphragm.edges";

/** What a choice writes: a place to start from. */
const held = {
  [words.elastic]: '{ "rotation": "0.35 N" }',
  [words.glued]: '{ "bond": { "thickness": "10 um", "youngsModulus": "3 GPa" } }',
};
const choices = ["clamped", "supported", words.elastic, words.glued];

/** Each pair of edges by a word, and below it the numbers of an elastic or a glued one. */
export function edgeFields(said: Diaphragm["edges"]): readonly FieldSpec[] {
  return [
    { path: `${edges}.sides`, label: words.words["edges.sides"], choices, writes: held },
    ...softFields(said, "sides"),
    { path: `${edges}.ends`, label: words.words["edges.ends"], choices, writes: held },
    ...softFields(said, "ends"),
    ...(typeof said === "object" && (said.sides === undefined || said.ends === undefined)
      ? numbersOf(said, edges, "")
      : []),
  ];
}

function softFields(said: Diaphragm["edges"], pair: "sides" | "ends"): readonly FieldSpec[] {
  const own = typeof said === "object" ? said[pair] : undefined;
  return typeof own === "object" ? numbersOf(own, `${edges}.${pair}`, words.words[`edges.${pair}`]) : [];
}

function numbersOf(
  { rotation, bond }: { readonly rotation?: unknown; readonly bond?: unknown },
  path: string,
  of: string,
): readonly FieldSpec[] {
  return [
    ...(rotation === undefined ? [] : [{ path: `${path}.rotation`, label: words.edgeStiffness(of) }]),
    ...(bond === undefined
      ? []
      : [
          { path: `${path}.bond.thickness`, label: words.bondThickness(of) },
          { path: `${path}.bond.youngsModulus`, label: words.bondModulus(of) },
          {
            path: `${path}.bond.overlap`,
            label: words.bondOverlap(of),
            empty: { path: `${path}.bond.overlap`, value: null, says: words.longOverlap },
          },
        ]),
  ];
}

export const loadFields: readonly FieldSpec[] = [
  {
    path: "microphone.load.difference",
    empty: { path: "microphone.load", value: "null", says: words.none },
  },
];
