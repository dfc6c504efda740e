/** The rows between two times, with a time base of their own: what lies beside a fault is a record too. */
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
