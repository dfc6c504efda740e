import { describe, expect, test } from "vitest";
import { seededNormal, seededUniform } from "../numerics/random.ts";
import { fitBiasSweep } from "./biasSweep.ts";
import { combineUncertainty } from "./budget.ts";
import { compareSensitivity, phaseOfOutput, pressureLineNames } from "./calibration.ts";
import { bandPower, separateNull } from "./nullRecords.ts";
import { fitLine, fitPowerLaw } from "./powerLaw.ts";
import { responseOfNoise, responseOfSweep, responseOfTone } from "./recordedResponse.ts";
import { fitScan } from "./scan.ts";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);

describe("power laws", () => {
  const x = [20, 30, 40, 55, 70, 100];

  test("the exponent comes back, with errors in both axes", () => {
    const normal = seededNormal(8);
    const noisy = x.map((value) => value * (1 + 0.01 * normal()));
    const y = x.map((value) => 3 * value ** -2 * (1 + 0.02 * normal()));
    const law = fitPowerLaw({
      x: noisy,
      y,
      standardX: noisy.map((value) => 0.01 * value),
      standardY: y.map((value) => 0.02 * value),
    });
    if (!law.ok) throw new Error(law.problems[0]?.message);
    const { exponent } = law.value.values;
    expect(exponent.low! < -2 && -2 < exponent.high!).toBe(true);
    expect(law.remarks).toEqual([]);
  });

  test("exact data give the exact law", () => {
    const law = fitPowerLaw({ x, y: x.map((value) => 0.5 * value ** 3) });
    expect(law.ok && law.value.values.exponent.value).toBeCloseTo(3, 12);
    expect(law.ok && law.value.values.factor.value).toBeCloseTo(0.5, 10);
  });

  test("points that scatter more than their uncertainty say so", () => {
    const y = x.map((value, i) => value ** 2 * (1 + 0.2 * (-1) ** i));
    const law = fitPowerLaw({ x, y, standardY: y.map((value) => 0.01 * value) });
    expect(law.ok && codes(law.remarks)).toEqual(["scatter-beyond-uncertainty"]);
  });

  test.each([
    ["not-positive", { x: [1, 2, 3], y: [1, -2, 3] }],
    ["too-few-points", { x: [1, 2], y: [1, 2] }],
    ["all-equal", { x: [2, 2, 2], y: [1, 2, 3] }],
    ["columns-unequal", { x: [1, 2, 3], y: [1, 2] }],
  ])("%s is refused", (code, question) => {
    const law = fitPowerLaw(question);
    expect(law.ok ? [] : codes(law.problems)).toContain(code);
  });

  test("a line without errors in x is the plain one", () => {
    const line = fitLine({ x: [1, 2, 3, 4], y: [2, 4.1, 5.9, 8] });
    expect(line.ok && line.value.slope).toBeCloseTo(1.98, 12);
    const wrong = fitLine({ x: [1, 2, 3], y: [1, 2, 3], standardY: [1, 0, 1] });
    expect(wrong.ok ? [] : codes(wrong.problems)).toEqual(["not-finite"]);
  });
});

describe("scans over the guide's position", () => {
  const place = Array.from({ length: 101 }, (_, i) => (i * 2.5e-3) / 100);
  const curve = { position: place, sensitivity: place.map((p) => 0.2e-3 - 0.9e-3 * (p / 2.5e-3) ** 3) };
  const predicted = (p: number) => 0.2e-3 - 0.9e-3 * (Math.abs(p) / 2.5e-3) ** 3;

  test("height, offset and side of the whole curve come back", () => {
    const normal = seededNormal(3);
    const position = Array.from({ length: 25 }, (_, i) => -2.3e-3 + i * 0.19e-3);
    const sensitivity = position.map((p) => 0.8 * predicted((p - 0.12e-3) / 1.03) + 3e-6 * normal());
    const scan = fitScan({ position, sensitivity, curve });
    if (!scan.ok) throw new Error(scan.problems[0]?.message);
    const { amplitude, offset, side } = scan.value.values;
    expect(Math.abs(amplitude.value - 0.8)).toBeLessThan(4 * amplitude.standardUncertainty!);
    expect(Math.abs(offset.value - 0.12e-3)).toBeLessThan(4 * offset.standardUncertainty!);
    expect(Math.abs(side.value - 1.03)).toBeLessThan(4 * side.standardUncertainty!);
  });

  test("too few points are refused", () => {
    const scan = fitScan({ position: [0, 1e-3], sensitivity: [1, 2], curve });
    expect(scan.ok ? [] : codes(scan.problems)).toEqual(["too-few-points"]);
  });
});

describe("calibration", () => {
  const bias = Array.from({ length: 40 }, (_, i) => -1.6 + i * 0.09);
  const output = bias.map((b) => 1.03 + 0.91 * Math.sin(b - 0.1));

  test("a swept bias gives volts per radian, a straight line beside it", () => {
    const sweep = fitBiasSweep({ bias, output, at: 0.1 });
    if (!sweep.ok) throw new Error(sweep.problems[0]?.message);
    expect(sweep.value.values.slope.value).toBeCloseTo(0.91, 6);
    expect(sweep.value.values.zero?.value).toBeCloseTo(0.1, 6);
    expect(sweep.value.secondOpinion.value! / 0.91).toBeGreaterThan(0.98);
  });

  test("off quadrature it warns; a sweep of sound's size gives a slope alone", () => {
    const off = fitBiasSweep({ bias, output, at: 0.9 });
    expect(off.ok && codes(off.remarks)).toEqual(["off-quadrature"]);
    const sound = bias.map((b) => b / 1000);
    const short = fitBiasSweep({ bias: sound, output: sound.map((b) => 1.03 + 0.91 * Math.sin(b - 0.1)) });
    expect(short.ok && codes(short.remarks)).toEqual(["straight-only"]);
    expect(short.ok && short.value.values.slope.value).toBeCloseTo(0.91 * Math.cos(0.1), 4);
    const codesOf = (question: Parameters<typeof fitBiasSweep>[0]) => {
      const read = fitBiasSweep(question);
      return read.ok ? [] : codes(read.problems);
    };
    expect(codesOf({ bias: sound, output: sound, turn: null })).toEqual(["sweep-too-short"]);
    expect(codesOf({ bias, output: [1] })).toEqual(["columns-unequal"]);
    expect(codesOf({ bias: [0, 1, Number.NaN], output: [0, 1, 2] })).toEqual(["not-finite"]);
  });

  test("a sweep by temperature or wavelength finds its radians per unit, and where the slope is largest", () => {
    const noise = seededNormal(4);
    const temperature = Array.from({ length: 60 }, (_, i) => 290 + 0.25 * i);
    const volts = temperature.map((t) => 1.03 + 0.91 * Math.sin(0.83 * (t - 297)) + 0.004 * noise());
    const sweep = fitBiasSweep({ bias: temperature, output: volts, turn: null });
    if (!sweep.ok) throw new Error(sweep.problems[0]?.message);
    const { turn, zero, half, slope } = sweep.value.values;
    for (const [read, true_] of [
      [turn!, 0.83],
      [zero!, 297],
      [half!, 0.91],
      [slope, 0.91],
    ] as const)
      expect(Math.abs(read.value - true_)).toBeLessThan(4 * read.standardUncertainty!);
    const elsewhere = fitBiasSweep({ bias: temperature, output: volts, turn: null, at: 298 });
    expect(elsewhere.ok && elsewhere.value.values.slope.value).toBeCloseTo(0.91 * Math.cos(0.83), 2);
  });

  test("volts become phase by the curve, not by its slope", () => {
    const { phase, outside } = phaseOfOutput(Float64Array.of(1.03, 1.03 + 0.91 * Math.sin(1), 2.5), {
      low: 0.12,
      high: 1.94,
    });
    expect(phase[0]).toBeCloseTo(0, 12);
    expect(phase[1]).toBeCloseTo(1, 12);
    expect(outside).toBe(1);
  });

  test("a comparison has a line for everything, and names those that are missing", () => {
    const lines = Object.fromEntries(pressureLineNames.map((name) => [name, 0.01]));
    const question = { output: 1e-3, referenceOutput: 0.05, referenceSensitivity: 0.05, lines } as const;
    const whole = compareSensitivity({ ...question, how: "substitution" });
    expect(whole.ok && whole.value.standardUncertainty / whole.value.value).toBeCloseTo(0.01 * Math.sqrt(8), 4);
    expect(whole.ok && whole.remarks).toEqual([]);
    const bare = compareSensitivity({
      ...question,
      how: "calibrator",
      coupler: { volume: 1e-6, added: 1e-8 },
      lines: { level: 0.02 },
    });
    expect(bare.ok && bare.value.value).toBeCloseTo(1.01e-3, 8);
    expect(bare.ok && codes(bare.remarks)).toEqual(["line-missing"]);
    const none = compareSensitivity({ ...question, how: "simultaneous", referenceSensitivity: 0 });
    expect(none.ok ? [] : codes(none.problems)).toEqual(["no-reference"]);
  });
});

describe("null records", () => {
  const record = (size: number, seed: number) => {
    const normal = seededNormal(seed);
    return Float64Array.from({ length: 20_000 }, () => size * normal());
  };
  const band = (size: number, seed: number) => {
    const power = bandPower(record(size, seed), { sampling: 96_000, from: 1000, to: 20_000 });
    if (!power.ok) throw new Error(power.problems[0]?.message);
    return power.value;
  };

  test("white noise has its share of power in a band", () => {
    const { power, degreesOfFreedom } = band(0.1, 1);
    expect(power / (0.01 * (19_000 / 48_000))).toBeCloseTo(1, 1);
    expect(degreesOfFreedom).toBeGreaterThan(1000);
  });

  test("electrical, intensity and phase parts are told apart", () => {
    const parts = separateNull({
      dark: band(1, 1),
      oneMode: band(Math.sqrt(2), 2),
      plus: band(2, 3),
      minus: band(2, 4),
      plugged: band(Math.sqrt(3), 5),
      fieldOff: band(1, 6),
      fieldOn: band(1.5, 7),
    });
    if (!parts.ok) throw new Error("refused");
    const { electrical, intensity, phase, phaseWithoutSound, field } = parts.value.values;
    const share = 19_000 / 48_000;
    for (const [value, expected] of [
      [electrical, 1],
      [intensity, 1],
      [phase, 2],
      [phaseWithoutSound!, 1],
      [field!, 1.25],
    ] as const)
      expect(Math.abs(value.value - expected * share)).toBeLessThan(4 * value.standardUncertainty!);
    expect(codes(parts.remarks)).toEqual(["field-seen"]);
  });

  test("contradictions are named", () => {
    const parts = separateNull({ dark: band(1, 1), oneMode: band(0.5, 2), plus: band(2, 3), minus: band(1, 4) });
    expect(parts.ok && codes(parts.remarks)).toEqual(["part-negative", "biases-differ"]);
    const short = bandPower(new Float64Array(10), { sampling: 1000, from: 1, to: 100 });
    expect(short.ok ? [] : codes(short.problems)).toEqual(["too-few-samples"]);
    const high = bandPower(record(1, 1), { sampling: 1000, from: 1, to: 600 });
    expect(high.ok ? [] : codes(high.problems)).toEqual(["band-outside"]);
  });
});

describe("responses out of records", () => {
  const sampling = 50_000;
  /** A resonance at 5 kHz with a damping ratio of 0.05 as a recursion; its own response is exact. */
  const [a1, a2] = [2 * 0.9691 * Math.cos(0.6275), -(0.9691 ** 2)];
  const filtered = (x: Float64Array) => {
    const y = new Float64Array(x.length);
    for (let i = 0; i < x.length; i++) y[i] = x[i]! + a1 * (y[i - 1] ?? 0) + a2 * (y[i - 2] ?? 0);
    return y;
  };
  const exact = (frequency: number) => {
    const w = (2 * Math.PI * frequency) / sampling;
    const [re, im] = [1 - a1 * Math.cos(w) - a2 * Math.cos(2 * w), a1 * Math.sin(w) + a2 * Math.sin(2 * w)];
    return { re: re / (re * re + im * im), im: -im / (re * re + im * im) };
  };

  test("noise: the response within its uncertainty, with its coherence", () => {
    const normal = seededNormal(6);
    const x = Float64Array.from({ length: 200_000 }, () => normal());
    const y = filtered(x).map((value) => value + 0.3 * normal());
    const response = responseOfNoise({ reference: x, output: y, sampling }, 50);
    if (!response.ok) throw new Error(response.problems[0]?.message);
    const { frequency, re, im, standard, coherence } = response.value;
    const errors = Array.from(
      frequency,
      (f, i) => Math.hypot(re[i]! - exact(f).re, im[i]! - exact(f).im) / standard[i]!,
    );
    expect(errors.filter((error) => error < 3).length / errors.length).toBeGreaterThan(0.93);
    expect(Math.min(...coherence)).toBeGreaterThan(0.2);
  });

  test("a sweep: the same", () => {
    const [f1, seconds] = [500, 0.5];
    const L = seconds / Math.log(20_000 / f1);
    const x = Float64Array.from({ length: sampling * seconds }, (_, i) =>
      Math.sin(2 * Math.PI * f1 * L * (Math.exp(i / sampling / L) - 1)),
    );
    const response = responseOfSweep({ reference: x, output: filtered(x), sampling }, 40);
    if (!response.ok) throw new Error(response.problems[0]?.message);
    const { frequency, re, im } = response.value;
    const at = frequency.findIndex((f) => f >= 4000);
    expect(
      Math.hypot(re[at]! - exact(frequency[at]!).re, im[at]! - exact(frequency[at]!).im) /
        Math.hypot(exact(4000).re, exact(4000).im),
    ).toBeLessThan(0.02);
  });

  test("stepped tones: one sine at a time", () => {
    const x = Float64Array.from({ length: 4000 }, (_, i) => Math.cos((2 * Math.PI * 3000 * i) / sampling));
    const settled = filtered(x).subarray(1000);
    const tone = responseOfTone({ reference: x.subarray(1000), output: settled, sampling }, 3000);
    expect(tone.ok && tone.value.re).toBeCloseTo(exact(3000).re, 6);
    expect(tone.ok && tone.value.im).toBeCloseTo(exact(3000).im, 6);
  });

  test.each([
    ["columns-unequal", new Float64Array(10), new Float64Array(9)],
    ["too-few-samples", new Float64Array(10), new Float64Array(10)],
    ["silent", new Float64Array(5000), new Float64Array(5000)],
  ])("%s is refused", (code, reference, output) => {
    const found = responseOfNoise({ reference, output, sampling }, 500);
    expect(found.ok ? [] : codes(found.problems)).toEqual([code]);
  });

  test("an output that has nothing to do with the reference says so", () => {
    const random = seededUniform(4);
    const noise = () => Float64Array.from({ length: 20_000 }, () => random() - 0.5);
    const found = responseOfNoise({ reference: noise(), output: noise(), sampling }, 500);
    expect(found.ok && codes(found.remarks)).toEqual(["coherence-low"]);
  });
});

describe("budgets", () => {
  // n numbers of which each two correlate by r can be where 1 + (n - 1) r >= 0: the variance of their sum, over n.
  test("refuse correlations that no numbers can have together, and name the lines", () => {
    const inputs = ["length", "gap", "load", "air"].map((name) => ({ name, value: 1, standard: 0.1 }));
    const pairs = [[0, 1] as const, [0, 2] as const, [1, 2] as const];
    const combined = (value: number) =>
      combineUncertainty({
        model: ([a, b, c, d]) => a! + b! + c! + d!,
        inputs,
        correlations: pairs.map((between) => ({ between, value })),
        monteCarlo: { count: 2000, seed: 1 },
      });
    expect(combined(-0.51)).toEqual({
      ok: false,
      problems: [
        {
          code: "impossible-correlation",
          path: ["correlations"],
          message: expect.stringMatching(
            /between length, gap, load contradict each other: .* -0\.020 of their variance.*Lower some/,
          ),
        },
      ],
    });
    // At the limit the sum of the three does not vary at all: what is left is the fourth.
    const limit = combined(-0.5);
    expect(limit.ok && limit.value.standardUncertainty).toBeCloseTo(0.1, 9);
    expect(limit.ok && limit.value.monteCarlo?.standardUncertainty).toBeCloseTo(0.1, 2);
  });

  test("say where the linear picture fails", () => {
    const bent = combineUncertainty({ model: ([x]) => x! ** 2, inputs: [{ name: "x", value: 0.1, standard: 1 }] });
    expect(bent.ok && codes(bent.remarks)).toEqual(["linear-picture-fails"]);
  });

  test("refuse what is no budget", () => {
    const refusals = (question: Parameters<typeof combineUncertainty>[0]) => {
      const outcome = combineUncertainty(question);
      return outcome.ok ? [] : codes(outcome.problems);
    };
    const one = { name: "x", value: 1, standard: 1 };
    expect(refusals({ model: () => 1, inputs: [] })).toEqual(["no-inputs"]);
    expect(refusals({ model: () => 1, inputs: [{ ...one, standard: -1 }] })).toEqual(["wrong-input"]);
    expect(refusals({ model: () => 1, inputs: [one], correlations: [{ between: [0, 0], value: 1 }] })).toEqual([
      "wrong-correlation",
    ]);
    const [there, back] = [[0, 1] as const, [1, 0] as const].map((between) => ({ between, value: 0.5 }));
    expect(refusals({ model: () => 1, inputs: [one, one], correlations: [there!, back!] })).toEqual([
      "wrong-correlation",
    ]);
    expect(refusals({ model: () => Number.NaN, inputs: [one] })).toEqual(["model-not-finite"]);
  });
});
