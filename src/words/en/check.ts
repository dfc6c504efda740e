/** The answer of `check` in words. */
import type { Problem } from "../../core/problem.ts";
import { counted, problemLines } from "./problems.ts";

export interface CheckText {
  readonly file: string;
  readonly problems: readonly Problem[];
  readonly remarks: readonly Problem[];
}

export function checkLines({ file, problems, remarks }: CheckText): string[] {
  return [
    `${file}: ${counted(problems.length, "problem")}, ${counted(remarks.length, "remark")}`,
    ...(problems.length === 0 ? [] : ["Problems", ...problemLines(problems)]),
    ...(remarks.length === 0 ? [] : ["Remarks", ...problemLines(remarks)]),
  ];
}
