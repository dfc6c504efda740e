/** What may be chosen: the free values of a project, each from a list or between two ends. */
import { pow } from "../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { readField } from "./fields.ts";
import type { Project } from "./load.ts";
import { findPath, type ValuePath, vary } from "./paths.ts";

export type Choice = {
  readonly path: ValuePath;
} & (
  | { readonly kind: "list"; readonly values: readonly number[] }
  /** [SI]; searched in equal ratios where both ends are above 0. */
  | { readonly kind: "between"; readonly from: number; readonly to: number }
);

/** Values that are free where a project does not say: about the present ones, a factor of so much either way. */
const usual: readonly (readonly [path: string, factor: number])[] = [
  ["microphone.diaphragm.across", 2.5],
  ["microphone.diaphragm.thickness", 3],
  ["microphone.film.gap", 5],
];

/**
 * The project's `choices`, or the usual ones where it has none (remark `usual-choices`).
 *
 * Problems: `no-choice` for an entry without `from` or `between` or with an empty list, `empty-range`, `twice`, those of
 * `findPath`, `not-a-value` for a word.
 */
export function readChoices(project: Project): Outcome<readonly Choice[]> {
  const entries = project.file.choices ?? [];
  if (entries.length === 0) return usualChoices(project);
  const problems: Problem[] = [];
  const choices: Choice[] = [];
  entries.forEach((entry, i) => {
    const one = choiceOf(entry, i);
    if (!one.ok) problems.push(...one.problems);
    else if (choices.some(({ path }) => path.text === one.value.path.text))
      problems.push({ code: "twice", path: ["choices", i], message: `${one.value.path.text} is to be chosen twice.` });
    else choices.push(one.value);
  });
  return problems.length > 0 ? refuse(...problems) : answer(choices);
}

function choiceOf(entry: NonNullable<Project["file"]["choices"]>[number], i: number): Outcome<Choice> {
  const at = ["choices", i];
  const place = findPath(entry.path ?? "");
  if (!place.ok) return refuse(...place.problems.map((problem) => ({ ...problem, path: [...at, "path"] })));
  const path = place.value;
  const numbers = (values: readonly unknown[], key: string): Outcome<readonly number[]> => {
    const read = values.map((value, k) => readField(value as string | number, path, [...at, key, k]));
    const problems = read.flatMap((one) => (one.ok ? [] : one.problems));
    return problems.length > 0 ? refuse(...problems) : answer(read.flatMap((one) => (one.ok ? [one.value] : [])));
  };
  if (entry.from !== undefined && entry.from.length > 0) {
    const values = numbers(entry.from, "from");
    return values.ok ? answer({ path, kind: "list", values: [...new Set(values.value)] }) : values;
  }
  if (entry.between === undefined)
    return refuse({
      code: "no-choice",
      path: at,
      message: `Nothing to choose ${path.text} from. Give "from", a list of values, or "between", its two ends.`,
    });
  const ends = numbers(entry.between, "between");
  if (!ends.ok) return ends;
  const [from = 0, to = 0] = ends.value;
  if (!(to > from))
    return refuse({
      code: "empty-range",
      path: [...at, "between"],
      message: `The first end of ${path.text} must be below the second.`,
    });
  return answer({ path, kind: "between", from, to });
}

function usualChoices(project: Project): Outcome<readonly Choice[]> {
  const choices = usual.flatMap(([text, factor]): Choice[] => {
    const variation = vary(project, [text]);
    const start = variation.ok ? (variation.value.start[0] ?? null) : null;
    const path = variation.ok ? variation.value.paths[0] : undefined;
    return start === null || path === undefined || !(start > 0)
      ? []
      : [{ path, kind: "between", from: start / factor, to: start * factor }];
  });
  if (choices.length === 0)
    return refuse({
      code: "no-choice",
      path: ["choices"],
      message:
        'Nothing may be chosen. Add "choices", for example { "path": "microphone.film.gap", "between": ["15 um", "200 um"] }.',
    });
  return answer(choices, [
    {
      code: "usual-choices",
      path: ["choices"],
      message: `The project does not say what may be chosen; free are ${choices.map(({ path }) => path.text).join(", ")}, within a factor of the present values.`,
    },
  ]);
}

/** Value [SI] for a number of 0 .. 1. */
export function chosenAt(choice: Choice, u: number): number {
  if (choice.kind === "list") {
    const { values } = choice;
    return values[Math.min(values.length - 1, Math.floor(u * values.length))]!;
  }
  const { from, to } = choice;
  return from > 0 ? from * pow(to / from, u) : from + (to - from) * u;
}

/** The number of 0 .. 1 that gives a value, as near as the choice comes. */
export function placeOf(choice: Choice, value: number): number {
  if (choice.kind === "list") {
    const { values } = choice;
    const nearest = values.reduce(
      (best, one, i) => (Math.abs(one - value) < Math.abs(values[best]! - value) ? i : best),
      0,
    );
    return (nearest + 0.5) / values.length;
  }
  const { from, to } = choice;
  const u = from > 0 && value > 0 ? Math.log(value / from) / Math.log(to / from) : (value - from) / (to - from);
  return Math.min(1, Math.max(0, u));
}
