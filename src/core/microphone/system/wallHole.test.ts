import { describe, expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { reducedResponseAt, reducedSystem, reduceLine } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { lineAnswer, lineSystem } from "../noise/lineAnswer.ts";
import { countPoles } from "../poles/countPoles.ts";
import { wholeModel } from "../poles/poleModel.ts";
import { findPoles } from "../poles/poles.ts";
import { lossesOf, totalLoss, wallFlow } from "../response/losses.ts";
import { coupledSystem, deviceAt, setFrequency } from "./coupled.ts";
import { guideVector, prepareLine } from "./line.ts";
import { prepare, resolution } from "./prepare.ts";
import { stateAt } from "./state.ts";

const base = wholeDevice(0);
const omega = complex(2 * Math.PI * 3000);

function device(
  diameter: number,
  at: readonly [number, number] = [0, 0],
  edge: "open" | "closed" = "closed",
): Microphone {
  const hole = { diameter, length: 0.3e-3, at, ends: "flanged" } as const;
  return {
    ...base,
    film: { gap: 40e-6, edges: { sides: edge, ends: edge }, backPlate: diameter > 0 ? { kind: "hole", hole } : null },
  };
}

function answered(microphone: Microphone) {
  const prepared = prepare(microphone);
  return deviceAt(coupledSystem(prepared, microphone), prepareLine(prepared, microphone), omega);
}

const off = (a: { re: number; im: number }, b: { re: number; im: number }) =>
  Math.hypot(a.re - b.re, a.im - b.im) / Math.hypot(b.re, b.im);

describe("one hole in the wall behind the film", () => {
  test("that has no width is no hole, for closed and for open films", () => {
    for (const edge of ["closed", "open"] as const) {
      expect(
        off(answered(device(1e-6, [0, 0], edge)).response, answered(device(0, [0, 0], edge)).response),
      ).toBeLessThan(1e-6);
    }
  });

  test("lets a closed film breathe: the wider, the more", () => {
    const flows = [0.1e-3, 0.3e-3, 0.9e-3].map((diameter) => {
      const microphone = device(diameter);
      const system = coupledSystem(prepare(microphone), microphone);
      setFrequency(system, omega);
      const { re, im } = wallFlow(system, stateAt(system, omega, { sound: complex(1) }));
      return Math.hypot(re, im);
    });
    expect(flows[0]).toBeLessThan(flows[1]!);
    expect(flows[1]).toBeLessThan(flows[2]!);
  });

  test("does not care which side of the middle it is on", () => {
    const one = answered(device(0.4e-3, [0.9e-3, -0.4e-3])).response;
    expect(off(answered(device(0.4e-3, [-0.9e-3, 0.4e-3])).response, one)).toBeLessThan(1e-9);
    expect(off(answered(device(0.4e-3, [0, 0])).response, one)).toBeGreaterThan(1e-3);
  });

  test("hardly depends on how many film terms are its own: the rest is counted by constants", () => {
    const microphone = device(0.4e-3, [0.5e-3, 0]);
    const line = (terms: number) => {
      const prepared = prepare(microphone, { ...resolution({ across: 8, along: 8 }), filmTerms: terms });
      return deviceAt(coupledSystem(prepared, microphone), prepareLine(prepared, microphone), omega).response;
    };
    expect(off(line(28), line(44))).toBeLessThan(2e-4);
  });

  test.each([
    ["in the middle", device(0.4e-3)],
    ["off it", device(0.4e-3, [0.9e-3, -0.4e-3])],
  ] as const)("answers alike in the basis of its poles and in the whole one: %s", (_, microphone) => {
    const prepared = prepare(microphone);
    const line = prepareLine(prepared, microphone);
    const { basis } = findPoles(prepared, microphone);
    const fast = reducedResponseAt(reducedSystem(basis, microphone), reduceLine(basis, line), omega);
    expect(off(fast, answered(microphone).response)).toBeLessThan(1e-6);
  });

  test("has as many poles as the contour counts, all of them decay", () => {
    const microphone = device(0.4e-3);
    const prepared = prepare(microphone);
    const { oscillating, upTo } = findPoles(prepared, microphone);
    const ringing = oscillating.filter(({ dampingRatio, frequency }) => dampingRatio < 0.95 && frequency > upTo / 100);
    expect(countPoles(wholeModel(prepared, microphone), { upTo, below: 0.95 })).toBe(ringing.length);
    for (const { omega: pole } of oscillating) expect(pole.im).toBeGreaterThan(0);
  });

  test("makes noise as its losses say: two routes, the even shapes", () => {
    const microphone = device(0.4e-3, [0.9e-3, -0.4e-3]);
    const prepared = prepare(microphone);
    const system = coupledSystem(prepared, microphone);
    setFrequency(system, omega);
    const c = guideVector(prepared.plate, microphone);
    const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
    const load = { re: c.map((value) => value / quarter), im: new Float64Array(c.length) };
    const lost = totalLoss(lossesOf(system, stateAt(system, omega, { load })));
    const { even } = lineAnswer(lineSystem(microphone), omega);
    expect(Math.abs(lost / ((-omega.re / 2) * even.im) - 1)).toBeLessThan(1e-4);
  });
});
