import { expect, test } from "vitest";
import type { Diaphragm } from "./diaphragm.ts";
import { bendingStress, largestBendingStress } from "./stress.ts";

const plate = (across: number, along: number): Diaphragm => ({
  across,
  along,
  thickness: 30e-6,
  stiffness: { q11: 76e9, q12: 16e9, q22: 76e9, q66: 30e9 },
  density: 2510,
  edges: { sides: "clamped", ends: "clamped" },
  tension: { across: 0, along: 0 },
  lossFactor: 0,
});

test("the largest stress of a clamped plate lies at the front face, in the middle of its longer edges", () => {
  const wide = largestBendingStress(plate(8e-3, 5e-3), { functions: 12 });
  expect([wide.face, wide.axis, wide.x]).toEqual(["front", "along", 0]);
  expect(wide.y).toBeCloseTo(2.5e-3, 12);
  const tall = largestBendingStress(plate(5e-3, 8e-3), { functions: 12 });
  expect([tall.face, tall.axis, tall.y]).toEqual(["front", "across", 0]);
  expect(tall.stress / wide.stress).toBeCloseTo(1, 9);
});

test("the two faces are under opposite stress", () => {
  const field = bendingStress(plate(5e-3, 5e-3), { functions: 10 });
  const [front, back] = [field.at(1e-3, 2e-3, "front"), field.at(1e-3, 2e-3, "back")];
  expect(front.x).toBe(-back.x);
  expect(front.y).toBe(-back.y);
});
