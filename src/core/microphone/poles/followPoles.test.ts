import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { absolute, type Complex, subtract } from "../../numerics/complex.ts";
import { prepare } from "../system/prepare.ts";
import { contourOf } from "./contour.ts";
import { reducedModel } from "./poleModel.ts";
import { findPoles } from "./poles.ts";

const isNear = (a: Complex, b: Complex, within: number) => absolute(subtract(a, b)) < within * absolute(b);

/** Waves of a square film come in twins: some parts in a thousand to a million apart here, nearer than a small basis errs. */
const squares = [
  { across: 5e-3, gap: 200e-6, edges: "closed" },
  { across: 3e-3, gap: 20e-6, edges: "open" },
  { across: 3e-3, gap: 200e-6, edges: "open" },
] as const;

describe.each(squares)("an exact square, $across m over $gap m, $edges", ({ across, gap, edges }) => {
  const microphone = workedMicrophone({ across, thickness: 80e-6, gap, edges, lossFactor: 1e-3 });
  const prepared = prepare(microphone);
  const { oscillating, near, upTo, basis, confirmed } = findPoles(prepared, microphone);

  test("the number of its poles is proven, and both of each pair of twins are there", () => {
    expect(confirmed).toBe(true);
    for (const [i, { omega }] of oscillating.entries()) {
      const next = oscillating[i + 1]?.omega;
      if (next) expect(absolute(next) - absolute(omega)).toBeGreaterThan(1e-7 * absolute(omega));
    }
  });

  test("what is divided out of the determinant on the imaginary axis changes no count", () => {
    const model = reducedModel(prepared, basis, microphone);
    const end = 2 * Math.PI * upTo;
    // With those a little beyond, which turn the determinant at the border.
    const known = near.map((start) => oscillating.find(({ omega }) => isNear(omega, start, 1e-4))?.omega ?? start);
    const first = known.findIndex((omega) => absolute(omega) < end);
    const creeping = { device: [0.01 * end, 0.2 * end, 0.5 * end], film: [0.02 * end, 0.9 * end] };
    const { missing } = contourOf(model, { upTo, below: 0.98 }, creeping);
    // Each pole that is left out is missed, and no other.
    expect(missing(known)?.count).toBeCloseTo(0, 12);
    expect(missing(known.toSpliced(first, 1))?.count).toBe(1);
  });
});
