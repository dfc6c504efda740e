import { describe, expect, test } from "vitest";
import { lastPeriod, type MassInFilm } from "../../../../tests/steppedMass.ts";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { complex } from "../../numerics/complex.ts";
import { largeDeflection } from "../../parts/diaphragm/largeDeflection.ts";
import { staticPlate } from "../../parts/diaphragm/statics.ts";
import { referencePressure } from "../../quantity/kinds.ts";
import { createEngine, shapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem, filmPressure, responseAt, setFrequency, solveLoad } from "../system/coupled.ts";
import { prepareLine } from "../system/line.ts";
import { loudestAt } from "./loudest.ts";
import { phaseSeries } from "./phaseSeries.ts";

const frequency = 1000;
const omega = 2 * Math.PI * frequency;

function limits(microphone: Microphone, bias = Math.PI / 2, distortion = 0.03) {
  const entry = shapeEntry(createEngine(), microphone);
  return { entry, loudest: loudestAt(entry, microphone, { frequency, distortion, bias: [bias] }) };
}

/** One period of deflection after it has settled. */
const simulated = (mass: MassInFilm, pressure: number): Float64Array =>
  lastPeriod(mass, { pressure, omega }, { periods: 30, samples: 400, fine: 1 });

function harmonic(samples: Float64Array, k: number): number {
  let [re, im] = [0, 0];
  samples.forEach((value, i) => {
    re += value * Math.cos((2 * Math.PI * k * i) / samples.length);
    im += value * Math.sin((2 * Math.PI * k * i) / samples.length);
  });
  return (2 * Math.hypot(re, im)) / samples.length;
}

/** Amplitude of the tone. */
const pascals = (level: number | null) => Math.SQRT2 * referencePressure * 10 ** ((level ?? Number.NaN) / 20);

describe("the loudest sound", () => {
  test("a squeezed film distorts as much as a simulation of one mode in time says", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 25e-6 });
    // So little that the gap closes by a few per cent only: the series counts no further.
    const { entry, loudest } = limits(microphone, Math.PI / 2, 0.003);
    const system = coupledSystem(entry.prepared, microphone);
    setFrequency(system, complex(omega));
    const q = solveLoad(system, entry.prepared.plate.load);
    const film = entry.prepared.film;
    if (!film || !system.ones) throw new Error("This microphone has a film.");
    const pressure = filmPressure(system, film, q);
    const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
    const mean = {
      re: (system.scales.deflection * dot(entry.prepared.plate.load, q.re)) / 4,
      im: (system.scales.deflection * dot(entry.prepared.plate.load, q.im)) / 4,
    };
    const push = { re: dot(system.ones, pressure.re) / 4, im: dot(system.ones, pressure.im) / 4 };
    // Re of push / (i omega mean).
    const friction = (push.im * mean.re - push.re * mean.im) / (omega * (mean.re ** 2 + mean.im ** 2));
    const plate = staticPlate(microphone.diaphragm, { functions: 8 });
    const stiffness = 1 / plate.meanDeflection;
    // <w^2> / <w>^2 of the plate at rest, by a grid of its quarter.
    let [squares, sum] = [0, 0];
    for (let i = 0.5; i < 40; i++) {
      for (let j = 0.5; j < 40; j++) {
        const w = plate.deflection((2.5e-3 * i) / 40, (2.5e-3 * j) / 40);
        squares += w * w;
        sum += w;
      }
    }
    const closing = (squares * 1600) / sum ** 2 / 25e-6;
    const first = entry.modes[0]?.lambda ?? Number.NaN;
    const mass = (stiffness * system.scales.lambda) / first;
    const shape = { mass, stiffness, cubic: 0, friction, closing };
    const samples = simulated(shape, pascals(loudest.byCause.film));
    // One mode and one mean pressure stand for plate and film: a fifth, 1.6 dB.
    const ratio = harmonic(samples, 2) / harmonic(samples, 1) / 0.003;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.2);
  });

  test("a stretched diaphragm distorts as much as a simulation of one mode in time says", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
    const { loudest } = limits(microphone);
    const series = phaseSeries(largeDeflection(microphone.diaphragm), {
      guide: microphone.guides[0],
      wavelength: 633e-9,
      diaphragm: microphone.diaphragm,
    });
    const { linear, cubic } = largeDeflection(microphone.diaphragm).stiffening;
    const mass = linear / (2 * Math.PI * 10.94e3) ** 2;
    const w = simulated(
      { mass, stiffness: linear, cubic, friction: 0.02 * Math.sqrt(linear * mass), closing: 0 },
      pascals(loudest.byCause.diaphragm),
    );
    // In terms of the pressure that would hold it: what the phase is a series of.
    const phase = w.map((value) => series.linear * linear * value + series.quadratic * (linear * value) ** 2);
    expect(Math.hypot(harmonic(phase, 2), harmonic(phase, 3)) / harmonic(phase, 1) / 0.03).toBeCloseTo(1, 1);
  });

  test("a bias off quadrature lowers it, one without slope leaves none", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 100e-6, at: 2.4e-3 });
    const best = limits(microphone).loudest;
    const off = limits(microphone, Math.PI / 2 + 0.2).loudest;
    expect(off.byCause.readout ?? 0).toBeLessThan((best.byCause.readout ?? 0) - 1);
    expect(limits(microphone, 0).loudest.level).toBeNull();
  });

  test("the readout alone gives the tone whose phase has the amplitude of Bessel's 3 %: levels are of root mean squares", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 100e-6, at: 2.4e-3 });
    const { entry, loudest } = limits(microphone);
    const line = prepareLine(entry.prepared, microphone);
    const s = responseAt(coupledSystem(entry.prepared, microphone), line, complex(omega));
    // J_odd of 0.82999 rad make 3 % [evaluated apart]; the pressure's amplitude is root two times its mean square's root.
    const rms = 0.82999016 / Math.hypot(s.re, s.im) / Math.SQRT2;
    expect(loudest.byCause.readout).toBeCloseTo(20 * Math.log10(rms / 20e-6), 2);
  });

  test("the wall is met where the deflection at the center uses up the gap", () => {
    const thin = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 100e-6 });
    const wide = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 200e-6 });
    expect((limits(wide).loudest.contact ?? 0) - (limits(thin).loudest.contact ?? 0)).toBeCloseTo(
      20 * Math.log10(2),
      0,
    );
  });
});
