/** Problems and remarks as lines of text. */
import { type Problem, pathText } from "../../core/problem.ts";
import { hanging } from "../wrap.ts";

const width = 98;

/** "  microphone.film.gap: Found ...", wrapped; the code stands in `--json`. */
export function problemLines(problems: readonly Problem[]): string[] {
  return problems.flatMap(({ path, message }) => {
    const where = pathText(path);
    return hanging("  - ", where === "" ? message : `${where}: ${message}`, width);
  });
}

/** "1 problem", "3 problems". */
export function counted(count: number, one: string): string {
  return `${count === 0 ? "no" : count} ${one}${count === 1 ? "" : "s"}`;
}
