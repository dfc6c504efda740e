import { expect, test } from "vitest";
import { unitPlate } from "../../../../truth/devices.ts";
import { bandCholesky, bandSolve } from "../../numerics/kronecker.ts";
import { plate, stiffness } from "./plate.ts";
import { plateShape } from "./shape.ts";
import { staticPlate, staticPlateFrom } from "./statics.ts";

test("the deflection in the middle does not mind more functions along than across, nor the other way round", () => {
  const diaphragm = unitPlate({ along: 1.5 });
  const square = staticPlate(diaphragm, { functions: 10 }).deflection(0, 0);
  for (const functions of [
    { across: 8, along: 14 },
    { across: 14, along: 8 },
  ]) {
    const even = plate(plateShape(diaphragm), { across: "even", along: "even", functions });
    const q = bandSolve(bandCholesky(stiffness(even))!, even.load);
    expect(Math.abs(staticPlateFrom(even, q, diaphragm).deflection(0, 0) / square - 1)).toBeLessThan(1e-6);
  }
});
