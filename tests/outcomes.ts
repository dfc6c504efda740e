/** The value of an answer that a test takes for granted, and the codes of one that it does not get. */
import type { Outcome } from "../src/core/problem.ts";

/** The value; throws with all reasons where there is none. */
export function good<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ code, message }) => `${code}: ${message}`).join(" "));
}

/** Codes of the problems; none of an answer. */
export const codesOf = (outcome: Outcome<unknown>): string[] =>
  outcome.ok ? [] : outcome.problems.map(({ code }) => code);
