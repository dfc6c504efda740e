/** The table that `npm run bench` prints. */
import { median, spread } from "./statistics.ts";
import type { Timed } from "./task.ts";

const head = ["task", "median", "min", "max", "spread", "x kernel", "asked"];

export function tableLines(timed: readonly Timed[]): readonly string[] {
  const rows = timed.map(({ name, seconds, overKernel, asked }) => [
    name,
    time(median(seconds)),
    time(Math.min(...seconds)),
    time(Math.max(...seconds)),
    `${(100 * spread(seconds)).toFixed(1)} %`,
    ratio(median(overKernel)),
    asked ?? "",
  ]);
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]!.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) =>
        column === 0 || column === 6 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
      )
      .join("  ")
      .trimEnd();
  return [
    line(head),
    ...rows.map(line),
    "",
    "spread: distance of the quartiles over the median; x kernel: median of the ratios to the kernel measured next to it",
    ...timed.map(({ name, notes }) => `${name}: ${notes.join("; ")}`),
  ];
}

function time(seconds: number): string {
  if (seconds < 1e-3) return `${(1e6 * seconds).toPrecision(3)} us`;
  if (seconds < 1) return `${(1e3 * seconds).toPrecision(3)} ms`;
  return `${seconds.toPrecision(3)} s`;
}

const ratio = (value: number) => (value < 100 ? value.toPrecision(3) : value.toFixed(0));
