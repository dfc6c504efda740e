import { describe, expect, test } from "vitest";
import { demo } from "../../../../tests/demoProject.ts";
import { changeValue } from "../../project/load.ts";
import { finished } from "../../record/finished.ts";
import { readRecord } from "../../record/readRecord.ts";
import { watch } from "../predict/predict.ts";
import { fitRecord } from "./fitRecord.ts";

/** Each value by itself, exactly, from the changed project: not by the curve that the fit uses. */
function predicted(path: string, value: string) {
  const changed = changeValue(demo, path, value);
  const found = changed.ok ? watch(changed.value, { frequencies: [1000] }) : changed;
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  return found.value.resonance;
}
function fitted(text: string, options: Parameters<typeof fitRecord>[0]["options"] = {}) {
  const table = finished(readRecord(new TextEncoder().encode(text)));
  if (!table.ok) throw new Error(table.problems.map(({ message }) => message).join(" "));
  const found = fitRecord({ table: table.value, options, project: demo });
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  if (found.value.reading.kind !== "curve") throw new Error(`kind: ${found.value.reading.kind}`);
  return { ...found.value.reading, codes: found.remarks.map(({ code }) => code) };
}

describe("readings under the whole predicted curve", () => {
  test("damping over the gap: the offset of the film, the factor of its damping, what is there without it", () => {
    const gaps = [45, 60, 75, 90, 110, 140];
    const rows = gaps.map((gap) => {
      const { dampingRatio } = predicted("microphone.film.gap", `${gap + 2} um`);
      return `${gap},${(1.1 * dampingRatio! + 0.004).toPrecision(9)}`;
    });
    const { values, over, of, stopped } = fitted(`gap (um),damping ratio\n${rows.join("\n")}\n`);
    expect([over, of, stopped]).toEqual(["gap", "dampingRatio", "converged"]);
    expect(values.offset.value * 1e6).toBeCloseTo(2, 1);
    expect(values.factor.value).toBeCloseTo(1.1, 2);
    expect(values.added!.value).toBeCloseTo(0.004, 4);
  });

  test("resonance over the thickness, with errors in both axes; a power law only where it is asked for", () => {
    const rows = [28, 31, 35, 39].map((thickness) => {
      const { frequency } = predicted("microphone.diaphragm.thickness", `${thickness - 0.5} um`);
      return `${thickness},0.2,${(0.95 * frequency!).toPrecision(9)},10`;
    });
    const text = `thickness (um),u(thickness) (um),resonance (Hz),u(resonance) (Hz)\n${rows.join("\n")}\n`;
    const { values, reducedSum } = fitted(text);
    expect(values.offset.value * 1e6).toBeCloseTo(-0.5, 1);
    expect(values.factor.value).toBeCloseTo(0.95, 3);
    // Exact readings: all that is left is the interpolation of the curve.
    expect(reducedSum).toBeLessThan(1e-3);
    expect(values.offset.standardUncertainty).toBeGreaterThan(1e-7);
    expect(() => fitted(text, { kind: "power-law" })).toThrow("kind: power-law");
  });
});
