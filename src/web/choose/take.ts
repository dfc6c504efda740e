/** A found design in place of the present one, or kept beside it; a requirement as a search proposes it. */
import { type ChosenDesign, changeValue, type Outcome, type Project, plainQuantity } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { withKept } from "../kept/keptDesigns.ts";
import { lay } from "../kept/laid.ts";
import type { Work } from "../shell/work.ts";

type Values = ChosenDesign["set"];

/** The project with those values. Problems: those of `changeValue`. */
const withSet = (project: Project, set: Values): Outcome<Project> =>
  Object.entries(set).reduce<Outcome<Project>>(
    (changed, [path, value]) => (changed.ok ? changeValue(changed.value, path, value) : changed),
    { ok: true, value: project, remarks: [] },
  );

export function take(work: Work, set: Values, says: string): void {
  const changed = withSet(work.project(), set);
  if (changed.ok) work.replace(changed.value, says);
}

export function keep(work: Work, set: Values, name: string): void {
  const other = withSet(work.project(), set);
  const kept = other.ok ? withKept(work.project(), name, other.value) : other;
  if (!kept.ok) return;
  lay(name, true);
  work.replace(kept.value, words.kept(name));
}

/** A relaxed requirement as the project file says it. */
export const relaxedText = (requirement: string, value: number): string =>
  plainQuantity(value, requirementWords(requirement).kind, { digits: 4 });
