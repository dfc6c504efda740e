import { expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { prepareLine } from "../system/line.ts";
import { prepare } from "../system/prepare.ts";
import { influences } from "./influence.ts";

test("hole and front cavity end the band of the worked device, not the diaphragm", () => {
  const device = wholeDevice(0.001);
  const prepared = prepare(device);
  const [resonance] = influences(prepared, device, prepareLine(prepared, device), {
    frequencies: [4000],
    reference: 1000,
  });
  expect(
    resonance!
      .slice(0, 2)
      .map(({ part }) => part)
      .sort(),
  ).toEqual(["frontCavity", "frontHoles"]);
  // A wider hole raises the resonance above the band, a larger cavity lowers it.
  expect(resonance!.find(({ part }) => part === "frontHoles")!.decibels).toBeLessThan(0);
  expect(resonance!.find(({ part }) => part === "frontCavity")!.decibels).toBeGreaterThan(0);
});

test("without a front the film does, and parts that are not there have no say", () => {
  const device = { ...wholeDevice(0.001), front: null };
  const prepared = prepare(device);
  const [near] = influences(prepared, device, prepareLine(prepared, device), { frequencies: [11000], reference: 1000 });
  expect(near![0]!.part).toBe("film");
  expect(near!.map(({ part }) => part).sort()).toEqual(["backCavity", "film", "plate", "vent"]);
});
