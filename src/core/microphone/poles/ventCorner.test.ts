import { expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { complex, divide, multiply, subtract } from "../../numerics/complex.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem, portState, setFrequency } from "../system/coupled.ts";
import { prepare } from "../system/prepare.ts";
import { ventCorner } from "./ventCorner.ts";

const base = wholeDevice(0);
const corner = (microphone: Microphone) => ventCorner(coupledSystem(prepare(microphone), microphone));

test("a capillary and a volume whose walls keep it isothermal, behind a stiff plate: 1 / (2 pi R C)", () => {
  const { viscosity, pressure } = base.air;
  const stiff = { ...base, diaphragm: { ...base.diaphragm, thickness: 4e-4 } };
  const narrow = {
    ...stiff,
    back: { ...base.back!, vent: { ...base.back!.vent!, shape: "round", diameter: 30e-6, length: 2e-3 } },
  } as const;
  const resistance = (8 * viscosity * 2e-3) / (Math.PI * 15e-6 ** 4);
  const { across, along } = base.diaphragm;
  const volume = 400e-9 + across * along * 50e-6;
  expect(corner(narrow)! / (pressure / (2 * Math.PI * resistance * volume))).toBeCloseTo(1, 2);
});

test("a wider vent follows sooner, a leak beside it too", () => {
  const back = base.back!;
  const wide = {
    ...base,
    back: { ...back, vent: { shape: "round", diameter: 0.2e-3, length: 2e-3, exposed: false } },
  } as const;
  const leaky = {
    ...base,
    back: { ...back, leak: { height: 2e-5, width: 2e-3, length: 1e-3, from: "front" } },
  } as const;
  expect(corner(wide)!).toBeGreaterThan(10 * corner(base)!);
  expect(corner(leaky)!).toBeGreaterThan(corner(base)!);
});

test("no vent and no leak, or nothing behind: no corner", () => {
  expect(corner({ ...base, back: { ...base.back!, vent: null } })).toBeNull();
  expect(corner({ ...base, back: null })).toBeNull();
});

test("under a film that creeps slower than the vent, it is the slowest frequency at which as much leaves as is stored", () => {
  const { across, along, thickness } = base.diaphragm;
  const soft = {
    ...base,
    diaphragm: { ...base.diaphragm, across: 3 * across, along: 3 * along, thickness: thickness / 2 },
    film: { ...base.film!, gap: 12e-6 },
  };
  const system = coupledSystem(prepare(soft), soft);
  /** What leaves over what is stored. */
  const leaving = (frequency: number): number => {
    const omega = complex(2 * Math.PI * frequency);
    setFrequency(system, omega);
    const { front, mixed, back } = portState(system, omega)!;
    const taken = subtract(back!, divide(multiply(mixed, mixed), front!));
    return taken.re / taken.im;
  };
  const found = ventCorner(system)!;
  expect(leaving(found)).toBeCloseTo(1, 2);
  for (let f = found / 1.1; f > 1e-3; f /= 1.3) expect(leaving(f)).toBeGreaterThan(1);
  // Storage that goes with the frequency alone, as it is at rest, would put it elsewhere.
  expect(Math.abs(1e-3 * leaving(1e-3) - found) / found).toBeGreaterThan(0.2);
});
