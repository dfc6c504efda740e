/** Values of many outcomes, and all that they say. */
import type { Outcome, Problem } from "../problem.ts";

export class Gathered {
  readonly problems: Problem[] = [];
  private readonly remarks: Problem[] = [];

  take<T>(outcome: Outcome<T>): T | null {
    if (outcome.ok) {
      this.remarks.push(...outcome.remarks);
      return outcome.value;
    }
    this.problems.push(...outcome.problems);
    return null;
  }

  distinctRemarks(): Problem[] {
    const seen = new Set<string>();
    return this.remarks.filter(({ code, message }) => {
      const key = `${code} ${message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  }
}
