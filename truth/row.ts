/** A value from outside this program, and how to get ours. */
export interface TruthRow {
  /** What is compared, with its unit: "clamped square, mode 1, omega a^2 sqrt(m / D) [-]". */
  readonly what: string;
  /** Our number. A throw, or anything not finite, fails the row. */
  readonly got: () => number;
  readonly expected: number;
  /** Relative, or absolute in the quantity's own unit where `expected` is 0. */
  readonly within: number;
  /** Why that much: round-off, digits printed, model difference. */
  readonly why: string;
  /** Best first. */
  readonly origin: "exact" | "certified" | "published" | "independent method" | "own derivation" | "common practice";
  /** A key of docs/sources.md in brackets, or words; "from memory" where nobody had the book at hand. */
  readonly source: string;
}

/** Error of a row as `within` counts it: relative, or absolute where zero is expected. */
export function rowError(row: TruthRow, got: number): number {
  const difference = Math.abs(got - row.expected);
  return row.expected === 0 ? difference : difference / Math.abs(row.expected);
}
