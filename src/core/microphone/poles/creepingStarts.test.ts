import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { reducedSystem } from "../basis/reduced.ts";
import { createEngine, shapeEntry } from "../engine.ts";
import { creepingStarts } from "./creepingStarts.ts";
import { poleBasisOf } from "./shapePoles.ts";

test("under a plate too thick to follow, a thin open film creeps as Reynolds' film of its own does", () => {
  // 8 mm of glass: the film alone, P0 g^2 k^2 / (12 mu) with k^2 = (pi / a)^2 ((2 m + 1)^2 + (2 n + 1)^2) [blech-1983].
  const microphone = workedMicrophone({ across: 5e-3, thickness: 8e-3, gap: 5e-6 });
  const { air } = microphone;
  const entry = shapeEntry(createEngine(), microphone);
  const system = reducedSystem(poleBasisOf(entry, microphone), microphone);
  const rate = (m: number, n: number) =>
    (air.pressure * 5e-6 ** 2 * (Math.PI / 5e-3) ** 2 * ((2 * m + 1) ** 2 + (2 * n + 1) ** 2)) / (12 * air.viscosity);
  const [slowest] = creepingStarts(system, 2 * rate(0, 0), rate(0, 0));
  // (g / 2)^2 rate rho / mu is 0.006 here: by so little Psi and chi are not Reynolds'.
  expect(Math.abs(slowest!.rate / rate(0, 0) - 1)).toBeLessThan(0.01);
});
