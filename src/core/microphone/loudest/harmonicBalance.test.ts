import { describe, expect, test } from "vitest";
import { lastPeriod } from "../../../../tests/steppedMass.ts";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import { createEngine, settle, shapeEntry } from "../engine.ts";
import { type Balance, balanceTone, samples } from "./harmonicBalance.ts";
import { loudestAt } from "./loudest.ts";
import { stretchFor } from "./phaseSeries.ts";
import { steadyTones } from "./steadyTone.ts";

/** A mass on a stiffening spring in a film of slow flow, per area; moved by a tone. SI. */
const mode = { mass: 0.09, stiffness: 4e8, cubic: 3e17, friction: 3e3, closing: 3e4 };
const omega = 2 * Math.PI * 3000;

/** One period of the spring's pull stiffness w [Pa] after it has settled, by another method. */
const stepped = (pressure: number): Float64Array =>
  lastPeriod(mode, { pressure, omega }, { periods: 40, samples, fine: 16 }).map((w) => mode.stiffness * w);

/** The same as a linear device with forces off its straight line. */
function balance(count: number): Balance {
  const { mass, stiffness, cubic, friction, closing } = mode;
  const zero = complex(0);
  const multiples = Array.from({ length: count + 1 }, (_, k) => {
    const turning = complex(0, k * omega);
    const moved: Complex = divide(complex(stiffness), {
      re: stiffness - mass * (k * omega) ** 2,
      im: k * omega * friction,
    });
    const film = multiply(scale(turning, friction / stiffness), moved);
    return {
      moved: { sound: k === 1 ? moved : zero, plate: moved },
      film: { sound: k === 1 ? film : zero, plate: film },
      slow: complex(1),
    };
  });
  return { multiples, stiffening: { square: 0, cube: cubic / stiffness ** 3 }, closing: closing / stiffness };
}

describe("a steady tone balanced by its multiples", () => {
  test("is the motion that steps in time come to, while spring and film change by a third", () => {
    const pressure = 3000;
    const found = balanceTone(balance(16), pressure, null);
    const expected = stepped(pressure);
    const size = Math.max(...expected.map(Math.abs));
    // The film's gap changes by a fifth, the spring's stiffness by a third of that: far from a straight line.
    expect((mode.closing * size) / mode.stiffness).toBeGreaterThan(0.2);
    const off = Math.max(...expected.map((value, i) => Math.abs(value - (found?.moved[i] ?? 0))));
    expect(off / size).toBeLessThan(1e-5);
  });

  test("a film that would close has no steady state here", () => {
    expect(balanceTone(balance(8), 3e5, null)).toBeNull();
  });
});

describe("the loudest sound by simulation", () => {
  const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 25e-6, at: 2.4e-3 });
  const entry = shapeEntry(createEngine(), microphone);
  const both = (distortion: number) => {
    const question = { frequency: 4000, bias: [Math.PI / 2] };
    const series = loudestAt(entry, microphone, { ...question, distortion });
    const [tone] = steadyTones(entry, microphone, { ...question, distortions: [distortion] }) ?? [];
    return { series, tone };
  };

  test("is the level that counts, from a faint distortion to a tenth", () => {
    for (const distortion of [1e-4, 0.03, 0.1]) {
      const { tone, series } = both(distortion);
      // Halved to 0.005 dB; multiples beyond three leave the rest.
      expect(Math.abs((tone?.level ?? 0) - (series.summed ?? 0))).toBeLessThan(0.02);
      expect(tone?.left).toBeLessThan(1e-3);
    }
  });

  test("of a slow tone about a static load is that of the series of the phase", () => {
    // 1 Hz is slow enough, and a readout so wide that it adds nothing.
    const still = { ...workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null }), load: { difference: 2000 } };
    const settledNow = settle(createEngine(), still);
    if (!settledNow.ok) throw new Error(settledNow.problems[0]?.message);
    const made = shapeEntry(createEngine(), settledNow.value);
    const { byCause } = loudestAt(made, settledNow.value, { frequency: 1, distortion: 1e-3, bias: [Math.PI / 2] });
    const [about] = stretchFor(settledNow.value, null).series;
    const p = Math.SQRT2 * 20e-6 * 10 ** ((byCause.diaphragm ?? Number.NaN) / 20);
    expect(Math.abs((about!.quadratic * p) / 2 / about!.linear) / 1e-3).toBeCloseTo(1, 2);
  });

  test("there is none where a bias is unknown", () => {
    expect(steadyTones(entry, microphone, { frequency: 1000, distortions: [0.03], bias: [null] })).toBeNull();
  });
});
