import { describe, expect, test } from "vitest";
import { demo } from "../../../../tests/demoProject.ts";
import { loadProject } from "../../project/load.ts";
import { readColumns } from "./columnsText.ts";
import { recordIds, recordOf } from "./projectRecord.ts";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);

describe("records of a project", () => {
  test("bring their file, recipe, calibration and excitation", () => {
    expect(recordIds(demo)).toEqual(["a3/r1"]);
    const record = recordOf(demo, "r1");
    if (!record.ok) throw new Error(record.problems[0]?.message);
    expect(record.value).toMatchObject({
      file: "a3-tone-off.csv",
      excitation: 1,
      options: { kind: "ring-down", from: 1e-3, to: 9e-3, calibration: { low: 0.12, high: 1.94 } },
    });
    expect(record.value.recipe?.columns).toHaveLength(2);
  });

  test("an unknown record, a record without a file, an unknown calibration", () => {
    const unknown = recordOf(demo, "b7");
    expect(unknown.ok ? [] : codes(unknown.problems)).toEqual(["record-unknown"]);
    const of = (record: string) => {
      const loaded = loadProject(
        `{ "format": "glassdrum-project", "version": 1, "specimens": [{ "id": "a", "records": [${record}] }] }`,
      );
      if (!loaded.ok) throw new Error("broken");
      return recordOf(loaded.value, null);
    };
    const bare = of("{}");
    expect(bare.ok ? [] : codes(bare.problems)).toEqual(["record-without-file"]);
    const lost = of('{ "file": "x.csv", "calibration": "c9" }');
    expect(lost.ok && codes(lost.remarks)).toEqual(["calibration-unknown"]);
  });

  test("columns are read as a person writes them", () => {
    expect(readColumns("1=time ms, 2=output V")).toMatchObject({
      value: [
        { index: 0, is: "time", unit: "ms" },
        { index: 1, is: "output", unit: "V" },
      ],
    });
    for (const text of ["time ms", "0=time ms", "1=clock ms", "1=time parsecs"]) {
      const read = readColumns(text);
      expect(read.ok ? [] : codes(read.problems)).toEqual(["wrong-columns"]);
    }
  });
});
