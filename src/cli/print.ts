/** Answers go to standard output, the rest to standard error. */
import type { Problem } from "../core/problem.ts";
import { problemLines } from "../words/en/problems.ts";

export function answerLine(text: string): void {
  process.stdout.write(`${text}\n`);
}

export function sayLine(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** The one object that `--json` promises. */
export function answerJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}

/** What stands in the way: as an object with `--json`, in words on standard error without. */
export function answerProblems(verb: string, file: string, problems: readonly Problem[], json: boolean): void {
  if (json) answerJson({ problems });
  else sayLine([`glassdrum ${verb} ${file}: no answer`, ...problemLines(problems)].join("\n"));
}
