/** Choices from lists, one selection at a time: what is left to search is continuous. */
import type { Choice } from "../../project/choices.ts";

/** One item of each list that is chosen from, by number; null for what lies between two ends. */
export type Selection = readonly (number | null)[];

/** More selections than this are searched all at once, lists as steps. */
const most = 24;

/** All selections, or a single one that leaves everything free where there are too many. */
export function selections(choices: readonly Choice[]): readonly Selection[] {
  const sizes = choices.map((choice) => (choice.kind === "list" ? choice.values.length : null));
  const count = sizes.reduce<number>((product, size) => product * (size ?? 1), 1);
  if (count > most) return [choices.map(() => null)];
  return sizes.reduce<Selection[]>(
    (all, size) =>
      all.flatMap((one) => (size === null ? [[...one, null]] : Array.from({ length: size }, (_, k) => [...one, k]))),
    [[]],
  );
}

/** Whether a point of the unit cube belongs to a selection. */
export const selects = (selection: Selection, choices: readonly Choice[], point: readonly number[]): boolean =>
  selection.every((item, i) => item === null || itemAt(choices[i]!, point[i]!) === item);

const itemAt = (choice: Choice, u: number): number =>
  choice.kind === "list" ? Math.min(choice.values.length - 1, Math.floor(u * choice.values.length)) : 0;

/** The whole point for what is left free of it, in order. */
export function embedded(selection: Selection, choices: readonly Choice[], free: readonly number[]): readonly number[] {
  let next = 0;
  return selection.map((item, i) => {
    const choice = choices[i]!;
    return item === null || choice.kind !== "list" ? free[next++]! : (item + 0.5) / choice.values.length;
  });
}
