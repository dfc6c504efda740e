/** Answers go to standard output, the rest to standard error. */
import type { Problem } from "../core/problem.ts";
import { problemLines } from "../words/en/problems.ts";

export function answerText(text: string): void {
  process.stdout.write(text);
}

export function answerLine(text: string): void {
  answerText(`${text}\n`);
}

export function sayLine(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** The one object that `--json` promises. */
export function answerJson(value: unknown): void {
  answerLine(JSON.stringify(value, null, 2));
}

/** A FILE in a sentence. */
export const named = (file: string): string => (file === "-" ? "standard input" : file);

/** What stands in the way: as an object with `--json`, in words on standard error without. */
export function answerProblems(verb: string, file: string, problems: readonly Problem[], json: boolean): void {
  if (json) answerJson({ problems });
  else sayLine([`glassdrum ${verb} ${named(file)}: no answer`, ...problemLines(problems)].join("\n"));
}
