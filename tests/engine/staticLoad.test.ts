/** A static pressure difference in the whole device: what must hold whatever the numbers. */
import { describe, expect, test } from "vitest";
import { coupledSystem, responseAt } from "../../src/core/microphone/coupled.ts";
import { createEngine, engineAnswer, shapeEntry } from "../../src/core/microphone/engine.ts";
import { prepareLine } from "../../src/core/microphone/line.ts";
import { lineAnswer, lineSystem } from "../../src/core/microphone/lineAnswer.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { prepare } from "../../src/core/microphone/prepare.ts";
import { settled } from "../../src/core/microphone/rest.ts";
import { absolute, complex } from "../../src/core/numerics/complex.ts";
import { workedMicrophone } from "../../truth/devices.ts";

const bare = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 60e-6, at: 2.25e-3, lossFactor: 1e-3 });
const device: Microphone = {
  ...bare,
  back: {
    cavity: { volume: 400e-9, surface: 350e-6 },
    vent: { shape: "round", diameter: 0.1e-3, length: 2e-3, exposed: false },
    leak: null,
  },
};
const under = (difference: number, from: Microphone = device): Microphone => {
  const outcome = settled({ ...from, load: { difference } });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
};
const codes = (microphone: Microphone) => {
  const outcome = settled(microphone);
  return (outcome.ok ? outcome.remarks : outcome.problems).map(({ code }) => code);
};
const at = (microphone: Microphone, frequency: number) => {
  const prepared = prepare(microphone);
  const system = coupledSystem(prepared, microphone);
  return responseAt(system, prepareLine(prepared, microphone), complex(2 * Math.PI * frequency));
};

describe("sound about a static load", () => {
  test("of almost nothing is the sound without it", () => {
    for (const frequency of [100, 9000]) {
      const [none, little] = [at(device, frequency), at(under(1e-3), frequency)];
      expect(absolute(complex(little.re - none.re, little.im - none.im)) / absolute(none)).toBeLessThan(1e-5);
    }
  });

  test("a stretched diaphragm rings higher, whichever way it is bent", () => {
    const alone = { ...device, film: null, back: null };
    const first = (difference: number) =>
      Math.sqrt(shapeEntry(createEngine(), under(difference, alone)).modes[0]?.lambda ?? 0);
    expect(first(2000)).toBeGreaterThan(1.05 * first(0));
    expect(first(-2000) / first(2000)).toBeCloseTo(1, 9);
  });

  test("the reduced basis gives what the whole one gives", () => {
    const engine = createEngine();
    const loaded = under(1500);
    const question = { from: 50, to: 15e3, tolerance: 1e-7, manner: "quick" } as const;
    engineAnswer(engine, loaded, question);
    const quick = engineAnswer(engine, loaded, question);
    expect(quick.route).toBe("reduced");
    for (const frequency of [60, 1000, 9000]) {
      const [fast, whole] = [quick.respond(complex(2 * Math.PI * frequency)), at(loaded, frequency)];
      expect(absolute(complex(fast.re - whole.re, fast.im - whole.im)) / absolute(whole)).toBeLessThan(1e-5);
    }
  });

  test("heat still comes from what dissipates: the answer to the line's own load never gives power", () => {
    const loaded = under(1500, { ...device, diaphragm: { ...device.diaphragm, lossFactor: 0 } });
    for (const frequency of [100, 3000, 12e3])
      expect(lineAnswer(lineSystem(loaded), complex(2 * Math.PI * frequency)).total.im).toBeLessThan(0);
  });

  test("the film keeps the gap that the mean deflection leaves, once", () => {
    const loaded = under(1500);
    const { mean = 0, gap } = loaded.load?.settled ?? {};
    expect(mean).toBeGreaterThan(0);
    expect(gap).toBe(60e-6);
    expect(loaded.film?.gap).toBeCloseTo(60e-6 - mean, 15);
    const again = settled(loaded);
    expect(again.ok && again.value).toBe(loaded);
    expect(under(-1500).film?.gap).toBeGreaterThan(60e-6);
  });
});

describe("a static load says", () => {
  test("when the diaphragm would lie on the back plate, or the film is far from even", () => {
    const film = { ...bare.film!, gap: 5e-6 };
    expect(codes({ ...device, film, load: { difference: 2000 } })).toEqual(["touches-back-plate"]);
    expect(codes({ ...device, film: { ...film, gap: 15e-6 }, load: { difference: 1500 } })).toEqual([
      "static-difference",
      "uneven-gap",
    ]);
    expect(codes({ ...device, film, load: { difference: -2000 } })).toEqual(["static-difference", "uneven-gap"]);
  });

  test("when slopes are no longer small", () => {
    expect(codes({ ...device, film: null, load: { difference: 5e6 } })).toEqual([
      "static-difference",
      "steep-deflection",
    ]);
  });

  test("what makes such a difference, with a vent and without", () => {
    const says = (microphone: Microphone) => {
      const outcome = settled({ ...microphone, load: { difference: 100 } });
      return outcome.ok ? (outcome.remarks[0]?.message ?? "") : "";
    };
    expect(says(device)).toContain("vent blocked");
    expect(says({ ...device, back: null })).toContain("barometer");
  });

  test("when the diaphragm is buckled before any load", () => {
    const diaphragm = { ...bare.diaphragm, tension: { across: -1e4, along: -1e4 } };
    expect(codes({ ...device, diaphragm, load: { difference: 100 } })).toEqual(["buckled"]);
  });
});
