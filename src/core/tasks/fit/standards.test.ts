import { expect, test } from "vitest";
import type { RecordColumn } from "../../record/table.ts";
import { standardsOf } from "./standards.ts";

/** "x=thickness, standard=u(x), y=damping": what each column is, and its heading. */
function owners(...columns: readonly (readonly [is: RecordColumn["is"], heading: string])[]) {
  const made = columns.map(([is, heading], index): RecordColumn => {
    return { index, heading, is, unit: "", values: new Float64Array(2), missing: 0, clipping: null };
  });
  const [y, ...x] = made.filter(({ is }) => is !== "standard").reverse();
  const table = {
    kind: "text" as const,
    columns: made,
    rows: 2,
    time: null,
    recipe: { columns: [] },
    questions: [],
    faults: [],
    lines: null,
    head: [],
    datasets: [],
  };
  return [...standardsOf(table, x.reverse(), y!)].map(([column, { index }]) => `${column.index}<${index}`).sort();
}

test("a standard uncertainty belongs to the column that its heading names", () => {
  expect(owners(["x", "x"], ["y", "y"], ["standard", "sy"], ["standard", "sx"])).toEqual(["0<3", "1<2"]);
  expect(owners(["thickness", "thickness (um)"], ["y", "damping"], ["standard", "thickness error (um)"])).toEqual([
    "0<2",
  ]);
});

test("else to the one right before it, to the first and the last, and one alone to what was measured", () => {
  expect(owners(["x", ""], ["standard", ""], ["y", ""], ["standard", ""])).toEqual(["0<1", "2<3"]);
  expect(owners(["x", ""], ["y", ""], ["standard", ""], ["standard", ""])).toEqual(["0<2", "1<3"]);
  expect(owners(["x", "a"], ["x", "b"], ["y", "c"], ["standard", "std"])).toEqual(["2<3"]);
});
