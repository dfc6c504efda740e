import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { sphereRandom } from "../../parts/acoustics/diffraction.ts";
import { soundSpeed } from "../../parts/acoustics/radiation.ts";
import { fieldResponse } from "./field.ts";

const bare = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
const response = complex(3e-4, -4e-4);

test("without a body only the pressure is known", () => {
  expect(fieldResponse(bare, 1e3, response)).toBeNull();
});

test("a sphere adds its own factors, exact; a cylinder is marked", () => {
  const frequency = soundSpeed(bare.air) / (0.02 * Math.PI);
  const at = (shape: "sphere" | "cylinder") =>
    fieldResponse({ ...bare, body: { shape, diameter: 0.02, length: null } }, frequency, response)!;
  // ka = 1: 1.4184 facing, as truth/radiation.truth.ts has it.
  expect(Math.hypot(at("sphere").free.re, at("sphere").free.im) / 5e-4).toBeCloseTo(1.4184, 4);
  expect(at("sphere").random / 5e-4).toBeCloseTo(sphereRandom(1), 9);
  expect(at("sphere").approximate).toBe(false);
  expect(at("cylinder").approximate).toBe(true);
});
