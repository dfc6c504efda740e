import { describe, expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { findPoles } from "../poles/poles.ts";
import { coupledSystem } from "../system/coupled.ts";
import { prepare } from "../system/prepare.ts";
import { energyParts, poleEnergies } from "./energies.ts";

const device = wholeDevice(0);
const prepared = prepare(device);
const poles = findPoles(prepared, device).oscillating;

describe("what makes a pole", () => {
  test("hole and front cavity the first of the worked device, plate and film the second, as was found otherwise", () => {
    const [first, second] = poles.map(({ omega }) => poleEnergies(coupledSystem(prepared, device), omega));
    expect(first!.frontHoles + first!.frontCavity).toBeGreaterThan(0.6);
    expect(second!.plate + second!.film).toBeGreaterThan(0.6);
    for (const one of [first!, second!]) {
      expect(energyParts.reduce((sum, part) => sum + one[part], 0)).toBeCloseTo(1, 12);
      for (const part of energyParts) expect(one[part]).toBeGreaterThanOrEqual(0);
    }
  });

  test("the plate alone where nothing is around it", () => {
    const alone = { ...device, film: null, front: null, back: null };
    const system = coupledSystem(prepare(alone), alone);
    const [pole] = findPoles(system.prepared, alone).oscillating;
    expect(poleEnergies(system, complex(pole!.omega.re)).plate).toBe(1);
  });

  test("the plate's part of a bare one in a body shrinks by the air that it moves", () => {
    const bare = {
      ...device,
      film: null,
      front: null,
      back: null,
      body: { shape: "sphere", diameter: 0.02, length: null } as const,
    };
    const system = coupledSystem(prepare(bare), bare);
    const [pole] = findPoles(system.prepared, bare).oscillating;
    const { plate, outside } = poleEnergies(system, pole!.omega);
    expect(plate + outside).toBeCloseTo(1, 12);
    // Kinetic energy alone is shared: half of added mass over the whole, some 0.67 rho0 a / (rho h) of it.
    expect(outside).toBeGreaterThan(0.01);
    expect(outside).toBeLessThan(0.03);
  });
});
