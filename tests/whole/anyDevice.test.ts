/** Any combination of parts makes one system: a sample; hundreds in tests/deep. */
import { describe, expect, test } from "vitest";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { prepare, resolution } from "../../src/core/microphone/system/prepare.ts";
import { wholeDevice } from "../../truth/devices.ts";
import { anyBentDevice, anyDevice, anyDevices } from "./anyDevice.ts";
import { judgeAnyPoles, judgeDevice, judgePrepared } from "./judgeDevice.ts";
import { limitsOf, offAtLimit } from "./partLimits.ts";

const sample = anyDevices(12, 5);

describe("any device, drawn by chance from project files", () => {
  test("is finite, loses in its parts what goes in, to 1e-8, and hears where it moves", () => {
    sample.forEach(({ microphone, text }, i) => {
      const { finite, energy, reciprocity } = judgeDevice(microphone, i);
      expect(finite, text).toBe(true);
      expect(energy, text).toBeLessThan(1e-8);
      expect(reciprocity, text).toBeLessThan(1e-8);
    });
  });

  test("is so bent at rest, by a pressure or by its layers, over a film as uneven as that leaves it", () => {
    for (let i = 0; i < 6; i++) {
      const { microphone, text } = anyBentDevice(60_000 + i);
      const { finite, energy, reciprocity } = judgeDevice(microphone, i);
      expect(finite, text).toBe(true);
      expect(energy, text).toBeLessThan(1e-8);
      expect(reciprocity, text).toBeLessThan(1e-8);
    }
  });

  test("with a part at its limit is the device without that part", () => {
    sample.slice(0, 8).forEach(({ microphone, text }) => {
      for (const limit of limitsOf(microphone)) {
        expect(offAtLimit(limit), `${limit.says}: ${text}`).toBeLessThan(1e-5);
      }
    });
  });

  test("has as many poles as the contour counts, and all of them decay", () => {
    // One with a hole off the middle of the wall: two of its five rings are film modes odd across or along.
    for (const { microphone, text } of [anyDevice(70_111)]) {
      const { found, counted, leastDamping, leastRate } = judgeAnyPoles(microphone);
      expect(found, text).toBe(counted);
      expect(leastDamping, text).toBeGreaterThan(-1e-12);
      expect(leastRate, text).toBeGreaterThan(0);
    }
  });
});

describe("a coupling with the wrong sign does not pass", () => {
  const few = resolution({ across: 5, along: 5 });
  const microphone: Microphone = wholeDevice(0);

  test("of the pressure behind on the film", () => {
    const prepared = prepare(microphone, few);
    expect(judgePrepared(prepared, microphone, 1).energy).toBeLessThan(1e-8);
    const flipped = judgePrepared(prepared, microphone, 1, (state) => ({
      ...state,
      back: { re: -state.back.re, im: -state.back.im },
    }));
    expect(flipped.energy).toBeGreaterThan(1e-3);
  });

  test("of the film on the plate", () => {
    const prepared = prepare(microphone, few);
    const film = { ...prepared.film!, pairsAcross: prepared.film!.pairsAcross.map((value) => -value) };
    expect(judgePrepared({ ...prepared, film }, microphone, 1).energy).toBeGreaterThan(1e-3);
  });

  test("of the plate's motion on the pressure in front", () => {
    const prepared = prepare(microphone, few);
    const flipped = judgePrepared(prepared, microphone, 1, (state) => ({
      ...state,
      q: { re: state.q.re.map((value) => -value), im: state.q.im.map((value) => -value) },
    }));
    expect(flipped.energy).toBeGreaterThan(1e-3);
    expect(flipped.reciprocity).toBeGreaterThan(1e-3);
  });
});
