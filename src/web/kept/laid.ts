/** Which kept designs are laid over the pictures: three at most, the newest where nobody has said which. */
import { createRoot, createSignal } from "solid-js";
import type { Prediction, Project } from "../../core/index.ts";
import type { Work } from "../shell/work.ts";

/** More curves than this can't be told apart. */
const mostLaid = 3;

/** What was asked for by name, the latest last. It is a way of looking, not a part of the project. */
const [asked, setAsked] = createRoot(() => createSignal<readonly { name: string; wanted: boolean }[]>([]));

export function lay(name: string, wanted: boolean): void {
  setAsked([...asked().filter((one) => one.name !== name), { name, wanted }]);
}

/** Of these names those that are laid over, in their order. */
export function laidNames(names: readonly string[]): readonly string[] {
  const untouched = names.filter((name) => !asked().some((one) => one.name === name));
  const wanted = asked().flatMap(({ name, wanted: on }) => (on && names.includes(name) ? [name] : []));
  const last = [...untouched, ...wanted].slice(-mostLaid);
  return names.filter((name) => last.includes(name));
}

/** A kept design that is known: what it is and what it would do. */
export interface Laid {
  readonly name: string;
  readonly project: Project;
  readonly prediction: Prediction;
}

/** Those that are laid over and have been computed. */
export function laidDesigns({ kept }: Pick<Work, "kept">): readonly Laid[] {
  const names = laidNames(kept().map(({ name }) => name));
  return kept().flatMap(({ name, project, prediction }) =>
    project === null || prediction === null || !names.includes(name) ? [] : [{ name, project, prediction }],
  );
}
