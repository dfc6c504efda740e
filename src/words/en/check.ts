/** The answer of `check` in words. */
import type { Problem } from "../../core/problem.ts";
import type { Contradiction } from "../../core/tasks/check/contradictions.ts";
import { hanging } from "../wrap.ts";
import { contradictionText } from "./contradictions.ts";
import { counted, problemLines } from "./problems.ts";

export interface CheckText {
  readonly file: string;
  readonly problems: readonly Problem[];
  readonly remarks: readonly Problem[];
  readonly contradictions?: readonly Contradiction[];
}

const width = 98;

export function checkLines({ file, problems, remarks, contradictions = [] }: CheckText): string[] {
  return [
    `${file}: ${counted(problems.length, "problem")}, ${counted(remarks.length, "remark")}`,
    ...(problems.length === 0 ? [] : ["Problems", ...problemLines(problems)]),
    ...(contradictions.length === 0
      ? []
      : [
          "The brief asks for more than any such diaphragm gives",
          ...contradictions.flatMap((one) => hanging("  ", contradictionText(one), width)),
        ]),
    ...(remarks.length === 0 ? [] : ["Remarks", ...problemLines(remarks)]),
  ];
}
