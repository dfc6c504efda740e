/** `glassdrum check`: every problem and remark of a project. */
import { describe } from "../core/index.ts";
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
  if (options.json) answerJson({ problems, remarks });
  else answerLine(checkLines({ file: named(file), problems, remarks }).join("\n"));
  return problems.length === 0 ? status.done : status.no;
}
