/** `glassdrum choose`: designs that meet the brief, or what stands in the way. */
import type { Choices } from "../core/index.ts";
import { chooseLines } from "../words/en/choose.ts";
import { chooseInCrew, endChoosing } from "../worker/chooseCrew.ts";
import { answerJson, answerLine, answerProblems } from "./print.ts";
import { createProgress, onInterrupt } from "./progress.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";
import { chooseCsv, writeTable } from "./tables.ts";
import { startThreads } from "./threads.ts";

export interface ChooseVerbOptions {
  readonly seed: number;
  readonly evaluations: number;
  readonly csv?: string;
  readonly svg?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export async function chooseDesigns(file: string, options: ChooseVerbOptions): Promise<Status> {
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok) {
    answerProblems("choose", file, obtained.problems, options.json);
    return obtained.status;
  }
  const { askers, close } = startThreads();
  const progress = createProgress("searching");
  const search = { text: obtained.project.text, run: 1, seed: options.seed, evaluations: options.evaluations };
  let stopped = false;
  const off = onInterrupt(() => {
    stopped = true;
    endChoosing(askers, search.run);
  });
  const found = await chooseInCrew(askers, search, ({ done, of }) => progress.show(done, of));
  off();
  progress.end();
  close();
  if (found.kind !== "answer") {
    answerProblems("choose", file, found.kind === "refused" ? found.problems : [], options.json);
    return status.no;
  }
  if (!(await writeTable("choose", file, options, () => chooseCsv(found.value)))) return status.wrongUse;
  if (options.svg !== undefined) {
    const { writeTradeOff } = await import("./pictures.ts");
    const written = await writeTradeOff(options.svg, found.value, obtained.project);
    if (!written.ok) {
      answerProblems("choose", file, written.problems, options.json);
      return status.wrongUse;
    }
  }
  show(found.value, options);
  if (stopped) return status.stopped;
  return found.value.refused.length === 0 ? status.done : status.no;
}

function show(found: Choices, { json, csv }: ChooseVerbOptions): void {
  if (json) answerJson(found);
  else if (csv !== "-") answerLine(chooseLines(found).join("\n"));
}
