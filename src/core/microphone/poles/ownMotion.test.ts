import { describe, expect, test } from "vitest";
import { wholeDevice, workedMicrophone } from "../../../../truth/devices.ts";
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { reducedResponseAt, reducedSystem, reduceLine } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { prepareLine } from "../system/line.ts";
import { prepare } from "../system/prepare.ts";
import { contourOf } from "./contour.ts";
import { motionResidue } from "./motionResidue.ts";
import { ownMotion } from "./ownMotion.ts";
import { reducedModel, wholeModel } from "./poleModel.ts";
import { findPoles } from "./poles.ts";

const around = wholeDevice(0.001);
/** One hole in the wall behind the film, off its middle. */
const inWall = { diameter: 4e-4, length: 5e-4, ends: "piston", at: [3e-4, 2e-4] } as const;
const drained: Microphone = {
  ...around,
  film: around.film && { ...around.film, backPlate: { kind: "hole", hole: inWall } },
};
const devices: readonly (readonly [string, Microphone])[] = [
  ["an open film", workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 60e-6, at: 2.25e-3 })],
  ["air in front and behind", around],
  ["one hole in the wall, air in front and behind", drained],
  ["one hole in the wall alone", { ...drained, front: null, back: null }],
  ["air behind alone", { ...around, front: null }],
  ["air in front alone", { ...around, back: null }],
  [
    "a body around a bare diaphragm",
    { ...around, front: null, body: { shape: "sphere", diameter: 0.02, length: null } },
  ],
];

describe.each(devices)("%s", (_, microphone) => {
  const prepared = prepare(microphone);
  // Found by the secant method on the determinant, which knows nothing of motions.
  const poles = findPoles(prepared, microphone);
  const { basis } = poles;
  const model = reducedModel(prepared, basis, microphone);

  test("Rayleigh's quotient leads to the zeros of the determinant", () => {
    const whole = wholeModel(prepared, microphone);
    for (const { omega } of poles.oscillating.slice(0, 3)) {
      const motion = ownMotion(whole.form, multiply(omega, complex(1.002, 0.001)));
      expect(absolute(subtract(motion!.omega, omega))).toBeLessThan(1e-8 * absolute(omega));
    }
  });

  test("the residue is the integral of the response around the pole", () => {
    const line = reduceLine(basis, prepareLine(prepared, microphone));
    const system = reducedSystem(basis, microphone);
    for (const { omega } of poles.oscillating.slice(0, 2)) {
      const motion = ownMotion(model.form, omega, { within: 1e-8 })!;
      const nearest = Math.min(
        ...poles.oscillating
          .map((other) => absolute(subtract(other.omega, omega)))
          .filter((distance) => distance > 1e-6 * absolute(omega)),
      );
      // The mean over 24 points of a circle: exact to (radius / distance)^24.
      const radius = Math.min(0.2 * nearest, 0.02 * absolute(omega));
      let integral: Complex = complex(0);
      for (let i = 0; i < 24; i++) {
        const angle = (2 * Math.PI * (i + 0.5)) / 24;
        const step = scale(complex(Math.cos(angle), Math.sin(angle)), radius);
        integral = add(
          integral,
          multiply(scale(step, 1 / 24), reducedResponseAt(system, line, add(motion.omega, step))),
        );
      }
      const ratio = divide(motionResidue(motion, { microphone, basis, line }), integral);
      // 1e-6: dR / d omega is a central difference over 1e-4.
      expect(absolute(subtract(ratio, complex(1)))).toBeLessThan(1e-6);
    }
  });

  test("the short contour misses as many poles as are left out, and says where one is", () => {
    const { missing } = contourOf(model, { upTo: poles.upTo, below: 0.95 });
    const known = poles.oscillating.map(({ omega }) => omega);
    expect(missing(known)?.count).toBeCloseTo(0, 12);
    for (const left of known) {
      const one = missing(known.filter((pole) => pole !== left));
      expect(one?.count).toBe(1);
      // "To a per cent or two of the sector's size": contour.ts.
      expect(absolute(subtract(one!.near[0]!, left))).toBeLessThan(0.02 * 2 * Math.PI * poles.upTo);
    }
  });
});

test("from a start that no pole is near, the answer is none", () => {
  const { microphone, prepared } = { microphone: devices[0]![1], prepared: prepare(devices[0]![1]) };
  const model = wholeModel(prepared, microphone);
  const { oscillating } = findPoles(prepared, microphone);
  const between = scale(add(oscillating[0]!.omega, oscillating[1]!.omega), 0.5);
  const motion = ownMotion(model.form, between, { steps: 2, within: 1e-12 });
  expect(motion).toBeNull();
});
