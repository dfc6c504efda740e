/**
 * `npm run truth`: every number from outside against ours, as a table. Exit status 1 if one row fails.
 * `npm run truth -- plate` shows the files whose name contains "plate".
 */
import { collectRows, judge, type RowResult, type TruthFile } from "./collect.ts";

const number = (value: number | null) => (value === null ? "-" : Number(value.toPrecision(9)).toString());
const small = (value: number | null) => (value === null ? "-" : value.toExponential(1));

/** Error in units of what is allowed; a row without a number counts as infinitely wrong. */
const share = ({ error, row }: RowResult) => (error === null ? Number.POSITIVE_INFINITY : error / row.within);

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}

function printRow(result: RowResult): void {
  const { row, got, error, passed, thrown } = result;
  console.log(
    `${passed ? "  ok " : "FAIL "} ${row.what}\n` +
      `       got ${number(got)}  expected ${number(row.expected)}  error ${small(error)}  within ${small(row.within)} (${row.why})\n` +
      `       ${row.origin}: ${row.source}${thrown === null ? "" : `\n       ours: ${thrown}`}`,
  );
}

function printFile(file: TruthFile): readonly RowResult[] {
  console.log(`\n${file.name}`);
  if (file.broken !== null) console.log(`FAIL  the file could not be read: ${file.broken}`);
  const results = file.rows.map(judge);
  results.forEach(printRow);
  return results;
}

const asked = process.argv[2] ?? "";
const files = (await collectRows()).filter((file) => file.name.includes(asked));
const results = files.flatMap(printFile);
const broken = files.filter((file) => file.broken !== null);
const passed = results.filter((result) => result.passed);
const worst = results.reduce<RowResult | null>(
  (best, result) => (best === null || share(result) > share(best) ? result : best),
  null,
);

console.log(
  `\n${results.length} rows in ${files.length} files: ${passed.length} passed, ${results.length - passed.length} failed`,
);
if (broken.length > 0)
  console.log(`${broken.length} files could not be read: ${broken.map((file) => file.name).join(", ")}`);
if (worst !== null) {
  console.log(
    `error over what is allowed: median ${median(results.map(share)).toPrecision(2)}, worst ${share(worst).toPrecision(2)}`,
  );
  console.log(`worst: ${worst.row.what}`);
}
if (results.length === 0) console.log(`No rows found${asked === "" ? "" : ` for "${asked}"`}.`);
process.exitCode = results.length > 0 && passed.length === results.length && broken.length === 0 ? 0 : 1;
