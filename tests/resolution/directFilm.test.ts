/** The film's sum in two one-dimensional passes against the plain sum over all terms for every pair of functions. */
import { describe, expect, test } from "vitest";
import { directSystem, setFrequencyDirectly } from "../../bench/directFilm.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { coupledSystem, setFrequency } from "../../src/core/microphone/system/coupled.ts";
import { type Prepared, prepare } from "../../src/core/microphone/system/prepare.ts";
import { type Complex, complex } from "../../src/core/numerics/complex.ts";
import { seededDevices } from "./seededDevices.ts";

/** Without plate what remains of the system is the film alone. */
const filmOnly = (prepared: Prepared): Prepared => ({
  ...prepared,
  bending: prepared.bending.map(() => 0),
  tension: null,
  mass: prepared.mass.map(() => 0),
});

/** Largest difference of an entry of Z over the largest entry, lower triangles. */
function difference(microphone: Microphone, omega: Complex): number {
  const prepared = filmOnly(prepare(microphone));
  const passes = coupledSystem(prepared, microphone);
  const direct = directSystem(prepared, microphone);
  setFrequency(passes, omega);
  setFrequencyDirectly(direct, omega);
  const size = prepared.plate.size;
  let [largest, worst] = [0, 0];
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      const at = i * size + j;
      largest = Math.max(largest, Math.hypot(direct.system.re[at]!, direct.system.im[at]!));
      worst = Math.max(
        worst,
        Math.hypot(passes.re[at]! - direct.system.re[at]!, passes.im[at]! - direct.system.im[at]!),
      );
    }
  }
  expect(largest).toBeGreaterThan(0);
  return worst / largest;
}

describe("the film's matrix in two passes equals the direct sum to 1e-12", () => {
  const devices = seededDevices(6, 7);

  test.each(devices)("at real and complex frequencies: $says", ({ microphone }) => {
    for (const omega of [complex(2 * Math.PI * 20), complex(2 * Math.PI * 7000), complex(4e4, 3e4)])
      expect(difference(microphone, omega)).toBeLessThan(1e-12);
  });
});
