/** Readings out of records of tones, sweeps and rooms. The records are made here, by code that shares nothing with the fits. */
import { describe, expect, test } from "vitest";
import { good } from "../../../tests/outcomes.ts";
import { seededNormal } from "../numerics/random.ts";
import { fitFreeReadout } from "./freeReadout.ts";
import { gatedResponse } from "./gate.ts";
import { fitRingDown } from "./ringDown.ts";
import { readSensitivity } from "./sensitivity.ts";
import { responseOfSteps } from "./steppedTones.ts";
import { fitTone } from "./tone.ts";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);
const sampling = 48_000;
const tone = (amplitude: number, frequency: number, phase: number, noise: number, seed: number, count = 2400) => {
  const normal = seededNormal(seed);
  return Float64Array.from(
    { length: count },
    (_, i) => 0.3 + amplitude * Math.cos((2 * Math.PI * frequency * i) / sampling + phase) + noise * normal(),
  );
};

describe("a tone", () => {
  test("its frequency, amplitude and phase lie within their uncertainty, with samples missing too", () => {
    const y = tone(0.02, 997.3, 0.8, 0.004, 5);
    y[100] = Number.NaN;
    const { frequency, amplitude, phase, standard } = good(fitTone(y, sampling));
    expect(Math.abs(frequency - 997.3)).toBeLessThan(4 * standard!.frequency);
    expect(Math.abs(amplitude - 0.02)).toBeLessThan(4 * standard!.amplitude);
    // sigma sqrt(2 / n): the bound for a tone in white noise, an exact result.
    expect(standard!.amplitude / (0.004 * Math.sqrt(2 / 2399))).toBeCloseTo(1, 1);
    expect(phase).toBeCloseTo(0.8, 1);
  });

  test("without noise it is exact, wherever between two lines of the spectrum it lies", () => {
    for (const f of [997.3, 1001, 1010.123]) {
      const { frequency, amplitude, phase, stopped } = good(fitTone(tone(0.02, f, 0.8, 0, 1), sampling));
      expect([frequency / f, amplitude / 0.02, phase / 0.8].map((one) => one.toFixed(9))).toEqual(
        Array(3).fill("1.000000000"),
      );
      expect(stopped).toBe("converged");
    }
  });

  test("silence and a few samples are refused", () => {
    const no = (y: Float64Array) => {
      const read = fitTone(y, sampling);
      return read.ok ? [] : codes(read.problems);
    };
    expect(no(new Float64Array(100).fill(2))).toEqual(["silent"]);
    expect(no(new Float64Array(3))).toEqual(["too-few-samples"]);
  });
});

describe("sensitivity against a known pressure", () => {
  // 94 dB is 1.0024 Pa root mean square, 1.4176 Pa in amplitude: 20 uPa 10^(94 / 20), by hand.
  const pressure = 20e-6 * 10 ** (94 / 20);
  const lines = { reference: 0.01, level: 0.02, volume: 0, ambient: 0, position: 0, repeat: 0, drift: 0, biasSlope: 0 };

  test("in a calibrator: the coupler's load, a pistonphone's ambient pressure, the budget", () => {
    const record = { y: tone(0.0141, 1000, 0, 1e-5, 1), sampling };
    const plain = readSensitivity({ record, source: { how: "calibrator", pressure }, lines });
    const { values, budget, secondOpinion } = good(plain);
    expect(values.sensitivity.value / (0.0141 / (Math.SQRT2 * pressure))).toBeCloseTo(1, 4);
    expect(budget.standardUncertainty / budget.value).toBeCloseTo(Math.hypot(0.01, 0.02), 4);
    expect(secondOpinion.value! / values.sensitivity.value).toBeCloseTo(1, 3);
    expect(plain.ok && codes(plain.remarks)).toEqual(["no-conductor"]);
    const loaded = readSensitivity({
      record,
      source: { how: "calibrator", pressure, coupler: { volume: 2e-6, added: 1e-7 }, ambient: 0.95 },
      lines,
    });
    expect(good(loaded).values.sensitivity.value / values.sensitivity.value).toBeCloseTo(1.05 / 0.95, 4);
  });

  test("beside a reference, in its place, and with the reference's own record in a calibrator", () => {
    const record = { y: tone(0.003, 1000, 0, 1e-5, 1), sampling };
    const reference = { y: tone(0.05, 1000, 1, 1e-5, 2), sampling };
    const inCalibrator = { y: tone(0.0125 * Math.SQRT2 * pressure, 250, 0, 1e-5, 3), sampling };
    for (const sensitivity of [0.0125, { record: inCalibrator, pressure }])
      for (const how of ["simultaneous", "substitution"] as const) {
        const read = readSensitivity({ record, source: { how, reference, sensitivity }, lines: {} });
        expect(good(read).values.sensitivity.value / (0.003 / (0.05 / 0.0125))).toBeCloseTo(1, 3);
        expect(read.ok && codes(read.remarks).filter((code) => code === "line-missing")).toHaveLength(1);
      }
    const other = { y: tone(0.05, 1250, 1, 1e-7, 2), sampling };
    const differ = readSensitivity({
      record,
      source: { how: "substitution", reference: other, sensitivity: 1 },
      lines,
    });
    expect(differ.ok ? [] : codes(differ.problems)).toEqual(["tones-differ"]);
    const none = readSensitivity({ record, source: { how: "substitution", reference, sensitivity: 0 }, lines });
    expect(none.ok ? [] : codes(none.problems)).toEqual(["no-reference"]);
  });
});

/** One resonance as a filter of second order, run over any excitation: exact for its difference equation. */
function resonator(x: Float64Array, frequency: number, dampingRatio: number) {
  const w = (2 * Math.PI * frequency) / sampling;
  const r = Math.exp(-dampingRatio * w);
  const [a1, a2] = [2 * r * Math.cos(w * Math.sqrt(1 - dampingRatio ** 2)), -r * r];
  const gain = 1 - a1 - a2;
  const y = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) y[i] = gain * x[i]! + a1 * (y[i - 1] ?? 0) + a2 * (y[i - 2] ?? 0);
  const at = (f: number) => {
    const angle = (2 * Math.PI * f) / sampling;
    const re = 1 - a1 * Math.cos(angle) - a2 * Math.cos(2 * angle);
    const im = a1 * Math.sin(angle) + a2 * Math.sin(2 * angle);
    const squared = re * re + im * im;
    return { re: (gain * re) / squared, im: (-gain * im) / squared };
  };
  return { y, at };
}

describe("stepped tones", () => {
  const frequencies = [800, 950, 1000, 1040, 1100, 1300];
  const told: number[] = [];
  const x = Float64Array.from(
    frequencies.flatMap((f) => {
      const count = Math.round(0.12 * sampling);
      told.push(...new Array<number>(count).fill(f));
      return Array.from({ length: count }, (_, i) => Math.sin((2 * Math.PI * f * i) / sampling));
    }),
  );
  const { y, at } = resonator(x, 1000, 0.05);
  const normal = seededNormal(8);
  const output = y.map((value) => value + 0.02 * normal());

  test.each([
    ["found", undefined],
    ["told", told],
  ] as const)("each step that is %s gives a point with its uncertainty and coherence", (_, said) => {
    const read = good(responseOfSteps({ reference: x, output, sampling }, said));
    expect(Array.from(read.frequency, Math.round)).toEqual(frequencies);
    read.frequency.forEach((f, i) => {
      const { re, im } = at(f);
      expect(Math.abs(read.re[i]! - re)).toBeLessThan(5 * read.standard[i]!);
      expect(Math.abs(read.im[i]! - im)).toBeLessThan(5 * read.standard[i]!);
      expect(read.coherence[i]!).toBeGreaterThan(0.99);
    });
  });

  test("one tone, noise, and channels of unlike length are refused; a step with a hole is left out", () => {
    const no = (reference: Float64Array, other: Float64Array) => {
      const read = responseOfSteps({ reference, output: other, sampling });
      return read.ok ? codes(read.remarks) : codes(read.problems);
    };
    expect(no(x.slice(0, 5000), output.slice(0, 5000))).toEqual(["no-steps"]);
    const noise = seededNormal(3);
    const hiss = x.map(() => noise());
    expect(no(hiss, hiss)).toEqual(["no-steps"]);
    expect(no(x, output.slice(1))).toEqual(["columns-unequal"]);
    const holed = output.slice();
    holed[4000] = Number.NaN;
    expect(no(x, holed)).toEqual(["steps-left-out"]);
  });
});

describe("a gate", () => {
  /** Direct sound through the resonator, and an echo of 40 % after 6 ms. */
  function inRoom(x: Float64Array) {
    const { y, at } = resonator(x, 6000, 0.1);
    const late = Math.round(0.006 * sampling);
    return { output: y.map((value, i) => value + 0.4 * (y[i - late] ?? 0)), at };
  }
  const noise = seededNormal(4);
  const hiss = Float64Array.from({ length: 2 ** 16 }, () => noise());
  const length = 2 ** 15;
  const sweep = Float64Array.from({ length }, (_, i) => {
    const end = length * 0.8;
    return i < end ? Math.sin((2 * Math.PI * (200 * i + ((20_000 - 200) * i * i) / (2 * end))) / sampling) : 0;
  });

  test.each([
    ["noise", hiss, false],
    ["a sweep", sweep, true],
  ] as const)("takes the echo off %s", (_, x, isSweep) => {
    const { output, at } = inRoom(x);
    const read = gatedResponse({ reference: x, output, sampling }, { gate: 0.004, sweep: isSweep });
    const { frequency, re, im } = good(read);
    expect(codes(read.ok ? read.remarks : [])).toEqual(["gated"]);
    let [worst, count] = [0, 0];
    frequency.forEach((f, i) => {
      if (f < 1000 || f > 15_000) return;
      const true_ = at(f);
      worst = Math.max(worst, Math.hypot(re[i]! - true_.re, im[i]! - true_.im) / Math.hypot(true_.re, true_.im));
      count += 1;
    });
    expect(count).toBeGreaterThan(40);
    // The echo alone would be 0.4 off; 5 % is what a taper and a finite band leave.
    expect(worst).toBeLessThan(0.05);
  });

  test("too short a gate, too short a record, silence and channels of unlike length are refused", () => {
    const no = (reference: Float64Array, output: Float64Array, gate: number) => {
      const read = gatedResponse({ reference, output, sampling }, { gate, sweep: false });
      return read.ok ? [] : codes(read.problems);
    };
    expect(no(hiss, hiss, 1e-5)).toEqual(["gate-wrong"]);
    expect(no(hiss, hiss, 0.5)).toEqual(["too-few-samples"]);
    expect(no(new Float64Array(65_536), hiss, 0.004)).toEqual(["silent"]);
    expect(no(hiss, hiss.slice(1), 0.004)).toEqual(["columns-unequal"]);
  });
});

describe("the readout's curve fitted with the decay", () => {
  /** 0.9 V half span, 20 degrees off quadrature; damping ratio 0.02 at 12 kHz. */
  const record = (m: number) => {
    const normal = seededNormal(6);
    const omega = 2 * Math.PI * 12_000;
    return Float64Array.from({ length: 1500 }, (_, i) => {
      const t = i / 400_000;
      const phase = m * Math.exp(-0.02 * omega * t) * Math.cos(Math.sqrt(1 - 0.02 ** 2) * omega * t + 0.4);
      return 1.03 + 0.9 * Math.sin(0.35 + phase) + 0.002 * normal();
    });
  };
  const through = (m: number) => {
    const y = record(m);
    const before = good(fitRingDown({ y, step: 1 / 400_000, from: 0, modes: 1 }));
    return fitFreeReadout(y.slice(before.used.first), 1 / 400_000, before);
  };

  test("a large phase tells span, bias and the true damping; the fit in volts stands beside it", () => {
    const { values, readout, secondOpinion } = good(through(1.8));
    for (const [read, true_] of [
      [values.dampingRatio, 0.02],
      [values.frequency, 12_000],
      [readout.values.half, 0.9],
      [readout.values.middle, 1.03],
    ] as const)
      expect(Math.abs(read.value - true_)).toBeLessThan(4 * read.standardUncertainty!);
    expect(Math.abs(readout.values.bias.value)).toBeCloseTo(0.35, 2);
    expect(Math.abs(secondOpinion.value! - 0.02)).toBeGreaterThan(4 * values.dampingRatio.standardUncertainty!);
  });

  test("a small one does not bend enough, and says so", () => {
    const small = through(0.02);
    expect(small.ok ? [] : codes(small.problems)).toEqual(["curve-not-seen"]);
  });
});
