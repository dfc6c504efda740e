/** The rows between two times, with a time base of their own: what lies beside a fault is a record too. */

import { answer, type Outcome, refuse } from "../../problem.ts";
import type { RecordTable } from "../../record/table.ts";
import { timeBaseOf } from "../../record/timeBase.ts";
import { inSi } from "../../record/units.ts";
import { columnOf } from "./signal.ts";

/**
 * Of a table with a fault in its times the longest run of rows within `from` to `to` [s] that has none; the table itself where it
 * has no fault, or where no part was asked for.
 */
export function partOfTable(table: RecordTable, from: number | undefined, to: number | undefined): RecordTable {
  const times = columnOf(table, "time");
  if (table.faults.length === 0 || times === undefined || (from === undefined && to === undefined)) return table;
  const seconds = inSi(times);
  const inside = (row: number) =>
    seconds[row]! >= (from ?? Number.NEGATIVE_INFINITY) && seconds[row]! <= (to ?? Number.POSITIVE_INFINITY);
  let best = { first: 0, last: 0 };
  for (let first = 0; first < table.rows; ) {
    let last = first;
    while (last < table.rows && inside(last) && (last === first || seconds[last]! > seconds[last - 1]!)) last += 1;
    if (last - first > best.last - best.first) best = { first, last };
    first = Math.max(last, first + 1);
  }
  if (best.last - best.first < 2) return table;
  const { first, last } = best;
  const lines = table.lines?.slice(first, last) ?? null;
  const { base, problems } = timeBaseOf(seconds.slice(first, last), (row) => lines?.[row] ?? first + row + 1);
  return {
    ...table,
    rows: last - first,
    columns: table.columns.map((column) => ({ ...column, values: column.values.slice(first, last) })),
    time: base,
    faults: problems,
    lines,
  };
}

/** Least samples of a part that says anything. */
const fewest = 16;

/** The rows from `since` to `until` [s]. Problem: `part-too-short`. */
export function duringTable(
  table: RecordTable,
  since = Number.NEGATIVE_INFINITY,
  until = Number.POSITIVE_INFINITY,
): Outcome<RecordTable> {
  const { time } = table;
  if (time === null || (since === Number.NEGATIVE_INFINITY && until === Number.POSITIVE_INFINITY)) return answer(table);
  const times = columnOf(table, "time");
  const seconds = times === undefined || time.rounded ? null : inSi(times);
  const at = (row: number) => seconds?.[row] ?? time.start + row * time.step;
  let [first, last] = [0, table.rows];
  // A sample at the very end that was told belongs to the part.
  const near = 1e-6 * time.step;
  while (first < last && at(first) < since - near) first += 1;
  while (last > first && at(last - 1) > until + near) last -= 1;
  if (last - first < fewest)
    return refuse({
      code: "part-too-short",
      path: ["use"],
      message: `The part that was marked holds ${last - first} samples; needed: ${fewest} or more.`,
    });
  const { base, problems } =
    seconds === null
      ? { base: { ...time, start: at(first) }, problems: table.faults }
      : timeBaseOf(seconds.slice(first, last), (row) => table.lines?.[first + row] ?? first + row + 1);
  return answer({
    ...table,
    rows: last - first,
    columns: table.columns.map((column) => ({ ...column, values: column.values.slice(first, last) })),
    time: base,
    faults: problems,
    lines: table.lines?.slice(first, last) ?? null,
  });
}
