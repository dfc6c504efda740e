import { expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem } from "../system/coupled.ts";
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
