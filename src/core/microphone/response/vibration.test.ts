import { describe, expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import { reducedSystem, reduceLine } from "../basis/reduced.ts";
import type { Microphone } from "../microphone.ts";
import { findPoles } from "../poles/poles.ts";
import { coupledSystem, responseAt, setFrequency } from "../system/coupled.ts";
import { guideVector, prepareLine } from "../system/line.ts";
import { inner } from "../system/network.ts";
import { prepare } from "../system/prepare.ts";
import { stateAt } from "../system/state.ts";
import { accelerationAt, equivalentLevelDb, reducedAccelerationAt } from "./vibration.ts";

const base = wholeDevice(0.001);
const holes = { diameter: 2e-4, pitch: 8e-4, length: 3e-4, ends: "piston" } as const;
const perforated: Microphone = {
  ...base,
  film: { ...base.film!, edges: { sides: "closed", ends: "closed" }, backPlate: { kind: "holes", holes } },
};
const body = { shape: "sphere", diameter: 0.02, length: null } as const;
const omega = complex(2 * Math.PI * 2500);

function whole(microphone: Microphone) {
  const prepared = prepare(microphone);
  return { prepared, system: coupledSystem(prepared, microphone), line: prepareLine(prepared, microphone) };
}

describe("an accelerated frame", () => {
  test.each([
    ["hole, cavities, vent", base],
    ["holes in the wall", perforated],
    ["holes in the wall, nothing else", { ...perforated, front: null, back: null }],
    ["bare in a body", { ...base, front: null, body }],
  ] as const)("reads alike in whole and reduced basis: %s", (_, microphone) => {
    const { prepared, system, line } = whole(microphone);
    const { basis } = findPoles(prepared, microphone);
    const exact = accelerationAt(system, line, omega);
    const fast = reducedAccelerationAt(reducedSystem(basis, microphone), reduceLine(basis, line), omega);
    expect(Math.hypot(fast.re - exact.re, fast.im - exact.im)).toBeLessThan(1e-6 * Math.hypot(exact.re, exact.im));
  });

  test("shakes a bare plate as a pressure of its mass does, at every frequency", () => {
    const bare = { ...base, film: null, front: null, back: null };
    const { system, line } = whole(bare);
    const mass = bare.diaphragm.density * bare.diaphragm.thickness;
    for (const frequency of [20, 3e3, 11e3, 25e3]) {
      const at = complex(2 * Math.PI * frequency);
      const level = equivalentLevelDb(accelerationAt(system, line, at), responseAt(system, line, at))!;
      expect(level).toBeCloseTo(20 * Math.log10(mass / 20e-6), 9);
    }
  });

  test("moves a front hole's air against the plate's own: slow, its mass rho l adds to the plate's", () => {
    // Far below the resonances an open hole passes its push rho l on to the plate, in front; the two masses add.
    const long = { ...base, back: null, front: { holes: [{ ...base.front!.holes[0]!, length: 5e-3 }], cavity: null } };
    const { system, line } = whole(long);
    const at = complex(2 * Math.PI * 20);
    const level = equivalentLevelDb(accelerationAt(system, line, at), responseAt(system, line, at))!;
    const { diaphragm, air, film } = long;
    const mass = diaphragm.density * diaphragm.thickness + air.density * (5e-3 + film!.gap / 2);
    expect(level).toBeCloseTo(20 * Math.log10(mass / 20e-6), 3);
  });

  test("has no level where the light reads nothing", () => {
    expect(equivalentLevelDb(complex(0), complex(1))).toBeNull();
    expect(equivalentLevelDb(complex(1), complex(0))).toBeNull();
  });

  test("is reciprocal: it moves the light as much as the light's own load moves plate and hole against its pushes", () => {
    const { prepared, system } = whole(base);
    const { across, along } = base.diaphragm;
    const quarter = (across * along) / 4;
    const c = guideVector(prepared.plate, base);
    setFrequency(system, omega);
    const shaken = stateAt(system, omega, { acceleration: complex(1) });
    const load = { re: c.map((value) => value / quarter), im: new Float64Array(c.length) };
    const loaded = stateAt(system, omega, { load });
    const deflection = system.scales.deflection;
    const read = scale(inner({ re: c, im: new Float64Array(c.length) }, shaken.q), deflection);
    const uniform = { re: prepared.plate.load, im: new Float64Array(c.length) };
    const swept = scale(inner(uniform, loaded.q), deflection * quarter);
    const hole = base.front!.holes[0]!;
    const entered = divide(scale(loaded.front, -1), holeImpedance({ ...hole, air: base.air, omega }));
    const volume = divide(entered, multiply(complex(0, 1), omega));
    const work = subtract(multiply(shaken.pushes.plate, swept), multiply(shaken.pushes.holes[0]!, volume));
    expect(Math.hypot(work.re - read.re, work.im - read.im)).toBeLessThan(1e-9 * Math.hypot(read.re, read.im));
  });
});
