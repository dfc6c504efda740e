/** `glassdrum check`: every problem and remark of a project, and what its brief asks beyond every law. */
import { contradictions, describe } from "../core/index.ts";
import { checkLines } from "../words/en/check.ts";
import { answerJson, answerLine, answerProblems, named } from "./print.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";

export async function check(file: string, options: { json: boolean; set: readonly string[] }): Promise<Status> {
  const obtained = await obtainProject(file, options.set);
  if (!obtained.ok && obtained.status === status.wrongUse) {
    answerProblems("check", file, obtained.problems, options.json);
    return obtained.status;
  }
  const described = obtained.ok ? describe(obtained.project) : obtained;
  const problems = described.ok ? [] : described.problems;
  const remarks = described.ok && obtained.ok ? [...obtained.project.remarks, ...described.remarks] : [];
  const against = obtained.ok && described.ok ? contradictions(obtained.project) : null;
  const found = { problems, remarks, contradictions: against?.ok ? against.value : [] };
  if (options.json) answerJson(found);
  else answerLine(checkLines({ file: named(file), ...found }).join("\n"));
  return problems.length + found.contradictions.length === 0 ? status.done : status.no;
}
