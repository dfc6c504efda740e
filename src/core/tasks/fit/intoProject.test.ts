import { describe, expect, test } from "vitest";
import { demo } from "../../../../tests/demoProject.ts";
import { good } from "../../../../tests/outcomes.ts";
import { loadProject, type Project } from "../../project/load.ts";
import { finished } from "../../record/finished.ts";
import { readRecord } from "../../record/readRecord.ts";
import { readColumns } from "./columnsText.ts";
import { fitTable } from "./fitTable.ts";
import { againstKept, intoProject, readingsOf } from "./intoProject.ts";
import { recordOf } from "./projectRecord.ts";
import { readBudgetLine, readSensitivityText, readStart } from "./referenceText.ts";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);
/** 18,650 Hz, damping ratio 0.0176: written here, not by the simulator. */
const omega = 2 * Math.PI * 18_650;
const text = `time (ms),out (V)\n${Array.from({ length: 1200 }, (_, i) => {
  const t = i / 400_000;
  return `${(1e3 * t).toFixed(6)},${(Math.exp(-0.0176 * omega * t) * Math.cos(omega * Math.sqrt(1 - 0.0176 ** 2) * t) + 0.01 * Math.sin(i * i)).toFixed(6)}`;
}).join("\n")}\n`;
const table = good(finished(readRecord(new TextEncoder().encode(text))));
const { reading } = good(fitTable(table));
const given = { specimen: "A3", file: "again.csv", kind: reading.kind, recipe: table.recipe, reading } as const;
const specimensOf = ({ file }: Project) => file.specimens ?? [];

describe("a fit written into a project", () => {
  test("becomes a record of the specimen, is read back by its recipe, and written over when it is fitted again", () => {
    const once = good(intoProject(demo, given));
    const [before, after] = [specimensOf(demo)[0]!, specimensOf(once)[0]!];
    expect(after.records).toHaveLength((before.records?.length ?? 0) + 1);
    const kept = good(recordOf(once, "again.csv" === after.records!.at(-1)!.file ? after.records!.at(-1)!.id! : ""));
    expect(kept.recipe?.columns).toEqual(table.recipe.columns);
    expect(kept.options.kind).toBe("ring-down");
    const twice = good(intoProject(once, { ...given, use: { from: "0 ms", to: "2 ms" } }));
    expect(specimensOf(twice)[0]!.records).toHaveLength(after.records!.length);
    expect(specimensOf(twice)[0]!.records!.at(-1)!.recipe?.use).toEqual({ from: "0 ms", to: "2 ms" });
    // Everything else stands as it stood.
    expect(once.text.startsWith(demo.text.slice(0, demo.text.indexOf('"specimens"')))).toBe(true);
  });

  test("makes a specimen where there is none, and refuses one without a name", () => {
    const bare = good(loadProject('{ "format": "glassdrum-project", "version": 1 }'));
    const made = good(
      intoProject(bare, { ...given, specimen: "B 7", sha256: "00", calibration: "c1", excitation: "1 Pa" }),
    );
    expect(specimensOf(made)).toMatchObject([
      {
        id: "b-7",
        name: "B 7",
        records: [{ id: "r1", file: "again.csv", sha256: "00", conditions: { excitation: "1 Pa" } }],
      },
    ]);
    const none = intoProject(bare, { ...given, specimen: " " });
    expect(none.ok ? [] : codes(none.problems)).toEqual(["specimen-unnamed"]);
  });

  test("readings have their unit and the digits that they deserve", () => {
    const { dampingRatio, frequency } = readingsOf(reading) as Record<string, { value: unknown; standard: unknown }>;
    expect(Math.abs(Number(dampingRatio!.value) / 0.0176 - 1)).toBeLessThan(0.02);
    expect(String(dampingRatio!.value).length).toBeLessThan(11);
    expect(frequency!.value).toMatch(/^18\.6\d+ kHz$/);
    expect(frequency!.standard).toMatch(/Hz$/);
  });

  test("a kept reading is held against the new one", () => {
    const kept = readingsOf(reading) as Parameters<typeof againstKept>[0];
    expect(againstKept(kept, reading, [])).toEqual([]);
    const moved = { ...kept, dampingRatio: { value: 0.0181, standard: 0.0001 }, frequency: { value: "18.9 kHz" } };
    const found = againstKept(moved, reading, ["specimens", 0, "records", 0]);
    expect(codes(found)).toEqual(["reading-differs", "reading-differs"]);
    expect(found[0]!.path.at(-1)).toBe("dampingRatio");
    expect(found[0]!.message).toContain("0.0181");
  });
});

describe("what a person writes of a reference", () => {
  test("sensitivities, lines of a budget, starts", () => {
    expect(good(readSensitivityText("12.5 mV/Pa", "r"))).toBeCloseTo(0.0125, 15);
    expect(good(readSensitivityText("-40 dB", "r"))).toBeCloseTo(0.01, 15);
    expect(good(readBudgetLine("reference = 0.5 %", "line"))).toEqual({ reference: 0.005 });
    expect(good(readBudgetLine("level=0.1 dB", "line")).level).toBeCloseTo(0.01158, 5);
    expect(good(readStart("b1=500, b2 = -1e-4", "s"))).toEqual({ b1: 500, b2: -1e-4 });
    for (const wrong of [
      readSensitivityText("12.5 mV", "r"),
      readBudgetLine("weather=1 %", "l"),
      readBudgetLine("level=much", "l"),
      readStart("b1", "s"),
      readColumns("1=nothing"),
    ])
      expect(wrong.ok ? [] : codes(wrong.problems)[0]).toMatch(/^wrong-/);
  });
});
