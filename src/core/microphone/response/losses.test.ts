import { describe, expect, test } from "vitest";
import { wholeDevice, workedGuide } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { seededUniform } from "../../numerics/random.ts";
import type { Microphone } from "../microphone.ts";
import { settled } from "../rest/rest.ts";
import { coupledSystem, deviceAt, setFrequency } from "../system/coupled.ts";
import { guideVector, prepareLine } from "../system/line.ts";
import { prepare, prepareClass, resolution } from "../system/prepare.ts";
import { type Drive, readState, stateAt } from "../system/state.ts";
import { lossesOf, lossParts, lossShares, suppliedPower, totalLoss } from "./losses.ts";

const base = wholeDevice(0.002);
const body = { shape: "sphere", diameter: 0.02, length: null } as const;
const holes = { diameter: 2e-4, pitch: 8e-4, length: 3e-4, ends: "piston" } as const;

/** The same under a static pressure that takes a fifth of the gap in the middle. */
function bent(microphone: Microphone): Microphone {
  const stands = settled({ ...microphone, load: { difference: 2200 } });
  if (!stands.ok) throw new Error(stands.problems.map(({ message }) => message).join(" "));
  return stands.value;
}

/** Every part in some device, every kind of film edge. */
const devices: readonly (readonly [string, Microphone])[] = [
  ["hole, cavities, hidden vent, open film", base],
  [
    "no front, vent exposed",
    { ...base, front: null, back: { ...base.back!, vent: { ...base.back!.vent!, exposed: true } } },
  ],
  ["no back, no front", { ...base, front: null, back: null }],
  [
    "closed film, many holes in the wall, leak from the front",
    {
      ...base,
      film: { gap: 30e-6, edges: { sides: "closed", ends: "closed" }, backPlate: { kind: "holes", holes } },
      back: { ...base.back!, leak: { height: 8e-6, width: 3e-3, length: 1e-3, from: "front" } },
    },
  ],
  [
    "half open film, given admittance, leak from outside, no vent",
    {
      ...base,
      film: {
        gap: 15e-6,
        edges: { sides: "open", ends: "closed" },
        backPlate: { kind: "admittance", admittance: 2e-5 },
      },
      back: { ...base.back!, vent: null, leak: { height: 8e-6, width: 3e-3, length: 1e-3, from: "outside" } },
    },
  ],
  [
    "bent over a film with one hole in its wall, off the middle",
    bent({
      ...base,
      film: {
        gap: 30e-6,
        edges: { sides: "open", ends: "closed" },
        backPlate: { kind: "hole", hole: { diameter: 4e-4, length: 3e-4, at: [4e-4, -3e-4], ends: "flanged" } },
      },
    }),
  ],
  ["bare in a body", { ...base, front: null, body }],
  ["bare in a body, nothing behind", { ...base, front: null, back: null, body }],
  [
    "bare in a body, leak from the front",
    {
      ...base,
      front: null,
      body,
      back: { ...base.back!, leak: { height: 8e-6, width: 3e-3, length: 1e-3, from: "front" } },
    },
  ],
  ["no film, no back cavity", { ...base, film: null, back: { ...base.back!, cavity: null } }],
  [
    "leak from an open front",
    { ...base, front: null, back: { ...base.back!, leak: { height: 8e-6, width: 3e-3, length: 1e-3, from: "front" } } },
  ],
];

const frequencies = [3, 100, 1e3, 6e3, 13e3, 30e3];
const drives: readonly (readonly [string, Drive])[] = [
  ["sound", { sound: complex(1, 0.3) }],
  ["an accelerated frame", { acceleration: complex(9.81) }],
];

function system(microphone: Microphone) {
  return coupledSystem(prepare(microphone, resolution({ across: 6, along: 6 })), microphone);
}

describe("what the parts lose, added up part by part, is what goes in, to 1e-8", () => {
  test.each(devices)("%s", (_, microphone) => {
    const device = system(microphone);
    const uniform = seededUniform(3);
    const load = {
      re: Float64Array.from(device.prepared.plate.load, () => uniform() - 0.5),
      im: Float64Array.from(device.prepared.plate.load, () => uniform() - 0.5),
    };
    for (const [, drive] of [
      ...drives,
      ["any load", { load }] as const,
      ["all", { ...drives[0]![1], ...drives[1]![1], load }] as const,
    ]) {
      for (const frequency of frequencies) {
        const omega = complex(2 * Math.PI * frequency);
        setFrequency(device, omega);
        const state = stateAt(device, omega, drive);
        const losses = lossesOf(device, state);
        for (const part of lossParts) expect(losses[part]).toBeGreaterThanOrEqual(0);
        expect(Math.abs(totalLoss(losses) / suppliedPower(device, state) - 1)).toBeLessThan(1e-8);
      }
    }
  });

  test("shapes odd across the guide lose in film and plate alone", () => {
    const microphone = { ...base, guides: [workedGuide(1e-3)] as const };
    const prepared = prepareClass(microphone, "odd", resolution({ across: 6, along: 6 }));
    const device = coupledSystem(prepared, microphone);
    const omega = complex(2 * Math.PI * 4e3);
    setFrequency(device, omega);
    const c = guideVector(prepared.plate, microphone);
    const state = stateAt(device, omega, { load: { re: c, im: new Float64Array(c.length) } });
    const losses = lossesOf(device, state);
    expect(Math.abs(totalLoss(losses) / suppliedPower(device, state) - 1)).toBeLessThan(1e-8);
    expect(losses.frontHoles).toBe(0);
    expect(losses.vent).toBe(0);
  });
});

describe("a state", () => {
  test.each(devices)("reads as the response does: %s", (_, microphone) => {
    const device = system(microphone);
    const line = prepareLine(device.prepared, microphone);
    for (const frequency of frequencies) {
      const omega = complex(2 * Math.PI * frequency);
      const { response, front, back } = deviceAt(device, line, omega);
      const state = stateAt(device, omega, { sound: complex(1) });
      const read = readState(device, line, state);
      const size = Math.hypot(response.re, response.im);
      expect(Math.hypot(read.re - response.re, read.im - response.im)).toBeLessThan(1e-9 * size);
      expect(Math.hypot(state.front.re - front.re, state.front.im - front.im)).toBeLessThan(1e-9);
      expect(Math.hypot(state.back.re - back.re, state.back.im - back.im)).toBeLessThan(1e-9);
    }
  });

  test("a bare diaphragm without any other loss sends out all that goes in", () => {
    const free = { ...base, front: null, back: null, film: null, body };
    const device = system({ ...free, diaphragm: { ...free.diaphragm, lossFactor: 0 } });
    const omega = complex(2 * Math.PI * 3000);
    setFrequency(device, omega);
    const state = stateAt(device, omega, { sound: complex(1) });
    expect(lossShares(lossesOf(device, state))!.radiation).toBe(1);
    expect(Math.abs(lossesOf(device, state).radiation / suppliedPower(device, state) - 1)).toBeLessThan(1e-8);
  });

  test("shares add up to one; nothing is shared where nothing is lost", () => {
    const device = system(base);
    const omega = complex(6000);
    setFrequency(device, omega);
    const losses = lossesOf(device, stateAt(device, omega, { sound: complex(1) }));
    const shares = lossShares(losses)!;
    expect(lossParts.reduce((sum, part) => sum + shares[part], 0)).toBeCloseTo(1, 12);
    const still = lossesOf(device, stateAt(device, omega, {}));
    expect(lossShares(still)).toBeNull();
  });
});
