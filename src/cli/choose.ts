/** `glassdrum choose`: designs that meet the brief, or what stands in the way. */
import { type Choices, choose } from "../core/index.ts";
import { chooseLines } from "../words/en/choose.ts";
import { answerJson, answerLine, answerProblems } from "./print.ts";
import { createProgress, onInterrupt } from "./progress.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";
import { chooseCsv, writeTable } from "./tables.ts";

export interface ChooseVerbOptions {
  readonly seed: number;
  readonly evaluations: number;
  readonly csv?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function chooseDesigns(file: string, options: ChooseVerbOptions): Promise<Status> {
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok) {
    answerProblems("choose", file, obtained.problems, options.json);
    return obtained.status;
  }
  let stopped = false;
  const off = onInterrupt(() => {
    stopped = true;
  });
  const progress = createProgress("searching");
  const work = choose(obtained.project, {
    seed: options.seed,
    evaluations: options.evaluations,
    stopped: () => stopped,
  });
  let step = work.next();
  let turns = 0;
  while (step.done !== true) {
    progress.show(step.value.done, step.value.of);
    // Ctrl-C is heard between steps only.
    if (++turns % 8 === 0) await new Promise(setImmediate);
    step = work.next();
  }
  progress.end();
  off();
  const found = step.value;
  if (!found.ok) {
    answerProblems("choose", file, found.problems, options.json);
    return status.no;
  }
  if (!(await writeTable("choose", file, options, () => chooseCsv(found.value)))) return status.wrongUse;
  show(found.value, options);
  if (stopped) return status.stopped;
  return found.value.refused.length === 0 ? status.done : status.no;
}

function show(found: Choices, { json, csv }: ChooseVerbOptions): void {
  if (json) answerJson(found);
  else if (csv !== "-") answerLine(chooseLines(found).join("\n"));
}
