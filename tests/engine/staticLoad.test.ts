/** A static pressure difference in the whole device: what must hold whatever the numbers. */
import { describe, expect, test } from "vitest";
import { createEngine, engineAnswer, shapeEntry } from "../../src/core/microphone/engine.ts";
import { phaseCurve } from "../../src/core/microphone/loudest/phaseCurve.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { lineAnswer, lineSystem } from "../../src/core/microphone/noise/lineAnswer.ts";
import { findPoles } from "../../src/core/microphone/poles/poles.ts";
import { enginePoles } from "../../src/core/microphone/poles/shapePoles.ts";
import { biasAtRest } from "../../src/core/microphone/rest/biasAtRest.ts";
import { settled } from "../../src/core/microphone/rest/rest.ts";
import { coupledSystem, responseAt } from "../../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../../src/core/microphone/system/line.ts";
import { prepare } from "../../src/core/microphone/system/prepare.ts";
import { withLevelFilm } from "../../src/core/microphone/system/relief.ts";
import { absolute, type Complex, complex } from "../../src/core/numerics/complex.ts";
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

  test("hears the gap as it is, in the whole basis and in a reduced one, at any gap of a class", () => {
    const open = { ...device, film: { ...bare.film!, gap: 20e-6 } };
    const loaded = under(1000, open);
    const level = withLevelFilm(loaded);
    // A film pressed by a quarter of its gap in the middle: the mean is off by some per cent at the resonance.
    const off = (a: Microphone, b: Microphone, frequency: number) => {
      const [one, other] = [at(a, frequency), at(b, frequency)];
      return absolute(complex(one.re - other.re, one.im - other.im)) / absolute(other);
    };
    expect(off(level, loaded, 8000)).toBeGreaterThan(0.02);
    expect(off(level, loaded, 20)).toBeLessThan(1e-3);
    const engine = createEngine();
    const question = { from: 50, to: 15e3, tolerance: 1e-6, manner: "quick" } as const;
    engineAnswer(engine, loaded, question);
    for (const wider of [1, 1.06]) {
      const here = { ...loaded, film: { ...loaded.film!, gap: wider * loaded.film!.gap } };
      const quick = engineAnswer(engine, here, question);
      expect(quick.route).toBe("reduced");
      for (const frequency of [60, 1000, 9000]) {
        const [fast, whole] = [quick.respond(complex(2 * Math.PI * frequency)), at(here, frequency)];
        expect(absolute(complex(fast.re - whole.re, fast.im - whole.im)) / absolute(whole)).toBeLessThan(1e-5);
      }
    }
    expect(engine.shapes.size).toBe(1);
  });

  test("has its poles over the gap as it is: the whole basis and the engine's agree, and S is infinite there", () => {
    const loaded = under(800, { ...device, film: { ...bare.film!, gap: 30e-6 } });
    const engine = createEngine();
    const entry = shapeEntry(engine, loaded);
    const [exact, level] = [findPoles(entry.prepared, loaded), findPoles(entry.prepared, withLevelFilm(loaded))];
    const quick = enginePoles(entry, loaded, { upTo: 0 });
    const line = prepareLine(entry.prepared, loaded);
    const system = coupledSystem(entry.prepared, loaded);
    const [first, even, fast] = [exact, level, quick].map(({ oscillating }) => oscillating[0]!.omega);
    const apart = (a: Complex, b: Complex) => absolute(complex(a.re - b.re, a.im - b.im)) / absolute(b);
    expect(apart(first!, even!)).toBeGreaterThan(2e-3);
    expect(apart(fast!, first!)).toBeLessThan(1e-6);
    const size = (omega: Complex) => absolute(responseAt(system, line, omega));
    const beside = (by: number) => size(complex(first!.re * (1 + by), first!.im * (1 + by)));
    expect(beside(1e-6) / beside(1e-3)).toBeGreaterThan(500);
    expect(exact.real[0]!.rate / quick.real[0]!.rate).toBeCloseTo(1, 4);
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

describe("sound about the bow of stressed layers", () => {
  const bowed = (moment: number, difference = 0): Microphone => {
    const held = { sides: "supported", ends: { rotation: 0.02 } } as const;
    const from = {
      ...device,
      diaphragm: {
        ...device.diaphragm,
        edges: held,
        ...(moment !== 0 && { moment: { across: moment, along: moment } }),
      },
      ...(difference !== 0 && { load: { difference } }),
    };
    const outcome = settled(from);
    if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
    return outcome.value;
  };
  const plateAlone = (microphone: Microphone): Microphone => ({ ...microphone, film: null, back: null });

  test("of almost nothing is the sound without it", () => {
    const [none, little] = [at(bowed(0), 3000), at(bowed(-1e-9), 3000)];
    expect(absolute(complex(little.re - none.re, little.im - none.im)) / absolute(none)).toBeLessThan(1e-5);
  });

  test("is, slow, how the phase of the bowed plate at rest changes with the pressure", () => {
    const alone = plateAlone(bowed(-4e-4));
    const slow = { ...alone, diaphragm: { ...alone.diaphragm, lossFactor: 0 } };
    const phase = (difference: number) => biasAtRest({ ...slow, load: { difference } })[0]!.load;
    expect(Math.abs(slow.load!.settled!.center) / slow.diaphragm.thickness).toBeGreaterThan(0.1);
    const change = (phase(1) - phase(-1)) / 2;
    expect(Math.abs(at(slow, 1).re / change - 1)).toBeLessThan(1e-5);
    // Not that of the flat plate, to first order in the bow.
    expect(Math.abs(at(plateAlone(bowed(0)), 1).re / change - 1)).toBeGreaterThan(0.01);
    expect(phaseCurve(slow).series.linear / change).toBeCloseTo(1, 5);
  });

  test("sets the bias by bending and stretch, and the film by its mean", () => {
    const [inward, outward] = [bowed(-2e-4), bowed(2e-4)];
    const { gap = null, mean = 0 } = inward.load?.settled ?? {};
    expect(gap).toBe(60e-6);
    expect(mean).toBeGreaterThan(0);
    expect(inward.film?.gap).toBeCloseTo(60e-6 - mean, 15);
    expect(outward.film?.gap).toBeGreaterThan(60e-6);
    const [one, other] = [inward, outward].map((microphone) => biasAtRest(microphone)[0]!.load) as [number, number];
    // Bending turns with the bow, stretch does not.
    expect(one * other).toBeLessThan(0);
    expect(Math.abs(one + other)).toBeGreaterThan(1e-3 * Math.abs(one));
  });

  test("is a shape of its own to the engine, and says what it supposes", () => {
    const engine = createEngine();
    for (const moment of [0, -1e-4, -2e-4]) shapeEntry(engine, bowed(moment));
    expect(engine.shapes.size).toBe(3);
    const flat = { ...bowed(0), diaphragm: { ...bowed(0).diaphragm, moment: { across: -2e-4, along: -2e-4 } } };
    expect(codes(flat)).toEqual(["bowed-by-layers"]);
    expect(codes({ ...flat, load: { difference: 50 } })).toEqual(["static-difference", "bowed-by-layers"]);
    expect(codes({ ...flat, film: { ...flat.film!, gap: 1.5e-6 } })).toEqual(["touches-back-plate"]);
    const clamped = { ...flat.diaphragm, edges: device.diaphragm.edges };
    expect(settled({ ...flat, diaphragm: clamped }).ok && codes({ ...flat, diaphragm: clamped })).toEqual([]);
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
