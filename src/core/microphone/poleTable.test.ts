import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../truth/devices.ts";
import { absolute, complex, subtract } from "../numerics/complex.ts";
import { createEngine, shapeEntry } from "./engine.ts";
import { findPoles } from "./poles.ts";
import { type PoleTable, startsAt, tableGaps } from "./poleTable.ts";
import { enginePoles } from "./shapePoles.ts";

describe("between two gaps of a table", () => {
  const table: PoleTable = {
    gaps: [1e-5, 4e-5],
    poles: [[complex(1, 0.4)], [complex(1.1, 0.3), complex(3, 0.1)]],
    upTo: 4,
  };

  test("a pole that is at both lies between in the gap's logarithm", () => {
    const [pole, ...others] = startsAt(table, 2e-5);
    expect(pole!.re).toBeCloseTo(1.05, 12);
    expect(pole!.im).toBeCloseTo(0.35, 12);
    expect(others).toEqual([complex(3, 0.1)]);
  });

  test("one that is at one of them alone is a start on either side", () => {
    for (const gap of [1.1e-5, 3.9e-5]) expect(startsAt(table, gap)[1]).toEqual(complex(3, 0.1));
  });

  test("outside, the nearest gap's poles are taken", () => {
    expect(startsAt(table, 1e-6)).toEqual(table.poles[0]);
    expect(startsAt(table, 1e-3)).toEqual(table.poles[1]);
  });

  test("tables go from the widest gap to the thinnest, both included", () => {
    const gaps = tableGaps(5e-6, 5e-4);
    expect(gaps[0]).toBeCloseTo(5e-4, 12);
    expect(gaps.at(-1)).toBeCloseTo(5e-6, 12);
  });
});

test("led by the table, a shape's poles are those that a search finds, at another thickness too", () => {
  const engine = createEngine();
  const made = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 60e-6 });
  for (let question = 0; question < 2; question++) enginePoles(shapeEntry(engine, made), made, { upTo: 0 });
  for (const [thickness, gap] of [
    [30e-6, 45e-6],
    [45e-6, 80e-6],
  ] as const) {
    const microphone = workedMicrophone({ across: 5e-3, thickness, gap });
    const entry = shapeEntry(engine, microphone);
    expect(entry.poleTable).not.toBeNull();
    const fast = enginePoles(entry, microphone, { upTo: 0 }).oscillating;
    const searched = findPoles(entry.prepared, microphone).oscillating;
    expect(fast.length).toBe(searched.length);
    searched.forEach(({ omega }, i) => {
      expect(absolute(subtract(fast[i]!.omega, omega))).toBeLessThan(1e-6 * absolute(omega));
    });
  }
});
