import { describe, expect, test } from "vitest";
import { demo } from "../../../../tests/demoProject.ts";
import { createEngine } from "../../microphone/engine.ts";
import { seededNormal } from "../../numerics/random.ts";
import { changeValue, loadProject } from "../../project/load.ts";
import { simulateRingDown } from "../../reading/simulateRingDown.ts";
import { finished } from "../../record/finished.ts";
import { readRecord } from "../../record/readRecord.ts";
import type { Recipe } from "../../record/recipe.ts";
import { watch } from "../predict/predict.ts";
import type { FitOptions } from "./fitKinds.ts";
import { fitRecord } from "./fitRecord.ts";
import { fitTable, kindOf } from "./fitTable.ts";
import { recordByFile } from "./projectRecord.ts";
import { readAndFit } from "./readAndFit.ts";
import { readStart } from "./referenceText.ts";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);

function tableOf(text: string, recipe?: Recipe) {
  const table = finished(readRecord(new TextEncoder().encode(text), recipe));
  if (!table.ok) throw new Error(table.problems[0]?.message);
  return table.value;
}

const { time, output } = simulateRingDown({
  modes: [{ frequency: 18650, dampingRatio: 0.0176, amplitude: 0.3 }],
  sampling: 4e5,
  duration: 4e-3,
  noise: 0.001,
  seed: 2,
  readout: { bias: 0, half: 0.9 },
});
const ringDown = (heading: string) =>
  `${heading}\n${Array.from(time, (t, i) => `${(t * 1e3).toFixed(5)},${output[i]!.toFixed(5)}`).join("\n")}\n`;
const rows = (row: (i: number) => string, count = 30) => Array.from({ length: count }, (_, i) => row(i)).join("\n");

/** Shapes that are prepared once for all of them. */
const engine = createEngine();

function refusals(text: string, options?: FitOptions) {
  const fitted = fitTable(tableOf(text), options);
  return fitted.ok ? [] : codes(fitted.problems);
}

describe("fitting a record", () => {
  test("the kind is told by the columns, and the phase is fitted where the readout's curve is known", () => {
    const table = tableOf(ringDown("time (ms),out (V)"));
    const volts = fitTable(table);
    const phase = fitTable(table, { calibration: { low: -0.9, high: 0.9 } });
    if (!volts.ok || !phase.ok) throw new Error("refused");
    expect([volts.value.reading.kind, volts.value.curve.unit, phase.value.curve.unit]).toEqual([
      "ring-down",
      "V",
      "rad",
    ]);
    expect(volts.value.reading.kind === "ring-down" && volts.value.reading.values.dampingRatio.value).toBeLessThan(
      0.0176,
    );
    expect(phase.value.reading.kind === "ring-down" && phase.value.reading.values.dampingRatio.value).toBeCloseTo(
      0.0176,
      3,
    );
  });

  test("beside a project, the drive level rules the readout's curve in or out", () => {
    const table = tableOf(ringDown("time (ms),out (rad)"));
    const at = (excitation: number | null) => {
      const fitted = fitRecord({ table, project: demo, excitation, conditions: { film: null }, engine });
      return fitted.ok ? codes(fitted.remarks).filter((code) => /readout-(r|p)|excitation/.test(code)) : [];
    };
    expect([at(0.1), at(1e5), at(null)]).toEqual([["readout-ruled-out"], ["readout-possible"], ["excitation-unknown"]]);
  });

  test("a line at twice the predicted resonance is taken for the doubled tone", () => {
    const bare = changeValue(demo, "microphone.film", "null");
    const predicted = bare.ok ? watch(bare.value, { frequencies: [1000], engine, manner: "quick" }) : bare;
    if (!predicted.ok) throw new Error("the bare demo is broken");
    const resonance = predicted.value.resonance.frequency!;
    const record = simulateRingDown({
      modes: [{ frequency: 2 * resonance, dampingRatio: 0.02, amplitude: 0.1 }],
      sampling: 40 * resonance,
      duration: 60 / resonance,
      noise: 0.001,
      seed: 2,
    });
    const lines = Array.from(record.time, (t, i) => `${(t * 1e3).toFixed(6)},${record.output[i]!.toFixed(6)}`);
    const table = tableOf(`time (ms),out (rad)\n${lines.join("\n")}\n`);
    const fitted = fitRecord({ table, project: demo, excitation: 0.1, conditions: { film: null }, engine });
    expect(fitted.ok && codes(fitted.remarks)).toContain("line-doubled");
  });

  test("half a radian in the 10 mm, 0.22 mm specimen takes about 145 dB, counted by the amplitude of the pressure", () => {
    const loaded = loadProject(
      '{ "format": "glassdrum-project", "version": 1, "microphone": { "diaphragm": { "material": { "youngsModulus": "72.9 GPa", "poissonRatio": 0.21,' +
        ' "density": "2500 kg/m^3", "index": 1.5, "p11": 0.121, "p12": 0.27 }, "across": "10 mm", "along": "10 mm", "thickness": "0.22 mm" },' +
        ' "guide": { "at": "0 mm", "depth": "3 um", "length": "20 mm" }, "film": { "gap": "0.2 mm" } } }',
    );
    const record = simulateRingDown({
      modes: [{ frequency: 18650, dampingRatio: 0.0176, amplitude: 0.1 }],
      sampling: 4e5,
      duration: 4e-3,
      noise: 0.001,
      seed: 3,
    });
    const text = Array.from(record.time, (t, i) => `${(t * 1e3).toFixed(5)},${record.output[i]!.toFixed(6)}`).join(
      "\n",
    );
    if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
    const fitted = fitRecord({ table: tableOf(`time (ms),out (rad)\n${text}`), project: loaded.value });
    // 145 dB: independent method, two digits and a half; the root mean square lies 3.01 dB below the amplitude.
    expect(fitted.ok && Math.abs(fitted.value.explanation!.levelForHalfRadian! + 3.01 - 145)).toBeLessThan(1);
  });

  test("a response over frequency, as level and phase or as real and imaginary parts", () => {
    const at = (i: number) => 15000 + 150 * i;
    const value = (f: number) => {
      const u = f / 18650;
      const [re, im] = [1 - u * u, 0.08 * u];
      return { re: re / (re * re + im * im), im: -im / (re * re + im * im) };
    };
    const parts = rows((i) => `${at(i)},${value(at(i)).re},${value(at(i)).im}`, 50);
    const levels = rows(
      (i) =>
        `${at(i)},${20 * Math.log10(Math.hypot(value(at(i)).re, value(at(i)).im))},${(Math.atan2(value(at(i)).im, value(at(i)).re) * 180) / Math.PI}`,
      50,
    );
    for (const text of [`frequency (Hz),re (V),im (V)\n${parts}`, `frequency (Hz),level (dB),phase (deg)\n${levels}`]) {
      const fitted = fitTable(tableOf(text));
      expect(
        fitted.ok && fitted.value.reading.kind === "response" && fitted.value.reading.values.dampingRatio.value,
      ).toBeCloseTo(0.04, 6);
    }
  });

  test("a scan is laid under the project's own curve", () => {
    const text = `position (mm),sensitivity (mrad/Pa)\n${rows((i) => `${-2.6 + 0.18 * i},${(0.2 - (0.1 * (i - 14.5) ** 2) / 50).toFixed(4)}`)}`;
    expect(refusals(text)).toEqual(["no-curve"]);
    const fitted = fitRecord({ table: tableOf(text), project: demo, engine });
    expect(fitted.ok && Object.keys(fitted.value.reading.values)).toEqual(["amplitude", "offset", "side"]);
  });

  test("a power law over thickness, a sweep of the bias", () => {
    const law = fitTable(
      tableOf(
        `thickness (um),sensitivity (mrad/Pa)\n${rows((i) => `${20 + i},${(100 / (20 + i) ** 2).toExponential(8)}`)}`,
      ),
    );
    expect(law.ok && law.value.reading.kind === "power-law" && law.value.reading.values.exponent.value).toBeCloseTo(
      -2,
      6,
    );
    const sweep = fitTable(
      tableOf(
        `bias (deg),output (V)\n${rows((i) => `${-90 + 6 * i},${(1 + 0.9 * Math.sin(((-90 + 6 * i) * Math.PI) / 180)).toFixed(6)}`)}`,
      ),
    );
    expect(sweep.ok && sweep.value.reading.kind === "bias-sweep" && sweep.value.reading.values.slope.value).toBeCloseTo(
      0.9,
      4,
    );
  });

  test("noise against a reference becomes a response, then values", () => {
    // A recursion with poles e^{(-s +- i w) / 50 kHz}: what it does to noise is known, whoever reads it.
    const [s, w] = [0.03 * 2 * Math.PI * 5000, Math.sqrt(1 - 0.03 ** 2) * 2 * Math.PI * 5000];
    const normal = seededNormal(11);
    let [before, last] = [0, 0];
    const text = rows((i) => {
      const x = normal();
      const y = 2 * Math.exp(-s / 5e4) * Math.cos(w / 5e4) * last - Math.exp((-2 * s) / 5e4) * before + x;
      [before, last] = [last, y];
      return `${i / 5e4},${x.toFixed(5)},${(0.1 * y).toFixed(5)}`;
    }, 30_000);
    const fitted = fitTable(tableOf(`time (s),reference (V),output (V)\n${text}`), { kind: "noise" });
    if (!fitted.ok || fitted.value.reading.kind !== "response") throw new Error("no response was read");
    const { dampingRatio, frequency } = fitted.value.reading.values;
    expect(frequency.value).toBeCloseTo(5000, -1.5);
    expect(Math.abs(dampingRatio.value / 0.03 - 1)).toBeLessThan(0.05);
    expect(fitted.value.response?.coherence.every((one) => one <= 1)).toBe(true);
    expect(codes(fitted.remarks)).toContain("part-chosen");
  });

  test("null records side by side, and in files of their own", () => {
    const noise = (size: number, seed: number) => {
      const normal = seededNormal(seed);
      return Array.from({ length: 2048 }, () => size * normal());
    };
    const parts = {
      plus: noise(2, 1),
      minus: noise(2, 2),
      dark: noise(1, 3),
      oneMode: noise(1.2, 4),
      plugged: noise(1.5, 5),
    };
    const one = (columns: readonly (readonly [string, readonly number[]])[]) =>
      `sampling rate: 48 kHz\n${columns.map(([name]) => name).join(",")}\n${rows((i) => columns.map(([, list]) => list[i]!.toFixed(6)).join(","), 2048)}\n`;
    const side = fitTable(
      tableOf(
        one([
          ["bias +90 (V)", parts.plus],
          ["bias -90 (V)", parts.minus],
          ["light blocked (V)", parts.dark],
          ["one mode (V)", parts.oneMode],
          ["hole plugged (V)", parts.plugged],
        ]),
      ),
    );
    const table = (list: readonly number[]) => tableOf(one([["out (V)", list]]));
    const apart = fitTable(table(parts.plus), {
      kind: "null",
      beside: {
        minus: table(parts.minus),
        dark: table(parts.dark),
        oneMode: table(parts.oneMode),
        plugged: table(parts.plugged),
      },
    });
    if (!side.ok || !apart.ok) throw new Error("refused");
    expect(side.value.reading.kind).toBe("null");
    expect(side.value.reading.values).toEqual(apart.value.reading.values);
    expect(refusals(one([["out (V)", parts.plus]]), { kind: "null" })).toEqual(["null-records-missing"]);
  });

  test("a tone in a calibrator, beside a reference, and without anything that is known", () => {
    const tone = (a: number, i: number) => (a * Math.sin((2 * Math.PI * 1000 * i) / 48_000)).toFixed(6);
    const text = `time (ms),out (mrad),ref (V)\n${rows((i) => `${(i / 48).toFixed(6)},${tone(1.4, i)},${tone(0.05, i)}`, 480)}`;
    const read = (options: FitOptions) => {
      const fitted = fitTable(tableOf(text), { kind: "sensitivity", ...options });
      if (!fitted.ok || fitted.value.reading.kind !== "sensitivity") return null;
      return [fitted.value.reading.how, fitted.value.reading.values.sensitivity.value] as const;
    };
    expect(read({ referenceSensitivity: 0.05 })?.[0]).toBe("simultaneous");
    expect(read({ referenceSensitivity: 0.05 })?.[1]).toBeCloseTo(1.4e-3, 6);
    expect(read({ pressure: 1 })?.[0]).toBe("calibrator");
    expect(read({ referenceSensitivity: 0.05, beside: { reference: tableOf(text) } })?.[0]).toBe("substitution");
    expect(refusals(text, { kind: "sensitivity" })).toEqual(["pressure-unknown"]);
  });

  test("stepped tones by their own column; a sweep with a reference's sensitivity is output per pascal", () => {
    const [from, step] = [900, 50];
    let angle = 0;
    // 1 / (1 - u^2 + 2 i zeta u), u over 1075 Hz, zeta 0.1.
    const section = (f: number) => {
      const [a, b] = [1 - (f / 1075) ** 2, (0.2 * f) / 1075];
      return { re: a / (a * a + b * b), im: -b / (a * a + b * b) };
    };
    const text = `time (s),frequency (Hz),reference (V),output (V)\n${rows((i) => {
      const f = from + step * Math.floor(i / 1200);
      angle += (2 * Math.PI * f) / 48_000;
      const { re, im } = section(f);
      const output = 0.2 * (re * Math.sin(angle) + im * Math.cos(angle)) + 1e-3 * Math.sin(i * i);
      return `${(i / 48_000).toFixed(8)},${f},${Math.sin(angle).toFixed(6)},${output.toFixed(6)}`;
    }, 9600)}`;
    const fitted = fitTable(tableOf(text), { referenceSensitivity: 0.05 });
    const response = fitted.ok ? fitted.value.response : null;
    expect(Array.from(response?.frequency ?? [], Math.round)).toEqual([900, 950, 1000, 1050, 1100, 1150, 1200, 1250]);
    response?.frequency.forEach((f, i) => {
      expect(response.re[i]).toBeCloseTo(0.2 * 0.05 * section(f).re, 4);
    });
    expect(fitted.ok && fitted.value.reading.values).toMatchObject({ dampingRatio: { value: expect.closeTo(0.1, 3) } });
    expect(kindOf(tableOf(text))).toBe("tones");
  });

  test("a flat response is shown all the same, and said to have no resonance", () => {
    let angle = 0;
    const text = `time (s),frequency (Hz),reference (V),output (V)\n${rows((i) => {
      const f = 900 + 50 * Math.floor(i / 1200);
      angle += (2 * Math.PI * f) / 48_000;
      const output = 0.2 * Math.sin(angle) + 1e-3 * Math.sin(i * i);
      return `${(i / 48_000).toFixed(8)},${f},${Math.sin(angle).toFixed(6)},${output.toFixed(6)}`;
    }, 9600)}`;
    const fitted = fitTable(tableOf(text), {});
    expect(fitted.ok && Array.from(fitted.value.response?.re ?? [])).toEqual(Array(8).fill(expect.closeTo(0.2, 3)));
    expect(fitted.ok && fitted.remarks.map(({ code }) => code)).toContain("no-resonance");
  });

  test("numbers alone, over one predictor and over several are told apart", () => {
    const kinds = ["y", "y x", "y x1 x2"].map((heading) => {
      const width = heading.split(" ").length;
      const lines = rows((i) => Array.from({ length: width }, (_, k) => `${(i * (k + 2)) % 7}.5`).join(" "));
      return kindOf(tableOf(`Data:  ${heading}\n${lines}\n`));
    });
    expect(kinds).toEqual(["statistics", "polynomial", "linear"]);
    expect(readStart("b1=0.1 b2=-2e-5; b3 = 4", "")).toMatchObject({ value: { b1: 0.1, b2: -2e-5, b3: 4 } });
  });

  test("plain tables need no unit: polynomial, plane, formula, statistics", () => {
    const plain = (options: FitOptions, text: string) => {
      const fitted = fitTable(tableOf(text), options);
      if (!fitted.ok) throw new Error(fitted.problems[0]?.message);
      return Object.values(fitted.value.reading.values).map((one: { value: number }) => Number(one.value.toFixed(6)));
    };
    const xy = `x y\n${rows((i) => `${i} ${3 + 2 * i - 0.1 * i * i}`)}`;
    expect(plain({ kind: "polynomial", degree: 2 }, xy)).toEqual([3, 2, -0.1]);
    expect(plain({ kind: "formula", formula: "a + b*x + c*x^2" }, xy)).toEqual([3, 2, -0.1]);
    const two = `x1,x2,y\n${rows((i) => `${i},${i % 7},${1 + 2 * i - 3 * (i % 7)}`)}`;
    expect(plain({ kind: "linear" }, two)).toEqual([1, 2, -3]);
    expect(plain({ kind: "linear", throughZero: true, channel: 2 }, two).map(Math.round)).toEqual([2, -3]);
    expect(plain({ kind: "statistics" }, "1\n2\n3\n4\n5\n")[0]).toBe(3);
    expect(refusals("1\n2\n3\n4\n", { kind: "polynomial" })).toEqual(["no-output"]);
    expect(refusals(xy, { kind: "formula" })).toEqual(["formula-unreadable"]);
  });

  test("what is open or missing is said", () => {
    expect(refusals(ringDown("time,out"))).toEqual(["question-open"]);
    expect(refusals(ringDown("time (s),out (V)"))).toEqual(["question-open"]);
    expect(refusals(ringDown("time (ms),out (V)"), { kind: "response" })).toEqual(["no-frequency"]);
    expect(refusals(ringDown("time (ms),coherence"))).toEqual(["no-output"]);
    expect(refusals(`frequency (Hz),coherence\n${rows((i) => `${100 * i},${i}`)}`)).toEqual(["no-output"]);
    expect(refusals(`frequency (Hz),output (V)\n${rows((i) => `${100 * i},${i % 7}`)}`, { kind: "ring-down" })).toEqual(
      ["no-time"],
    );
    expect(refusals(`coherence,std\n${rows((i) => `${i % 3},${i % 4}`)}`)).toEqual(["kind-unclear"]);
    expect(refusals(`time (s),out (V)\n${rows((i) => `${i === 9 ? 0 : i}e-5,${i % 5}`)}`)).toContain(
      "time-goes-backwards",
    );
  });

  test("what lies beside a fault is a record too", () => {
    const twice = `time (ms),out (V)\n${[...time, ...time].map((t, i) => `${(t * 1e3).toFixed(5)},${output[i % output.length]!.toFixed(5)}`).join("\n")}\n`;
    expect(refusals(twice)).toEqual(["time-goes-backwards"]);
    const part = fitTable(tableOf(twice), { from: 0, to: 4e-3 });
    expect(part.ok ? [] : part.problems).toEqual([]);
    expect(
      part.ok && part.value.reading.kind === "ring-down" && part.value.reading.values.dampingRatio.value,
    ).toBeCloseTo(0.0172, 3);
  });

  test("groups of specimens share an exponent, or are told to differ; a zero is named with its line", () => {
    const law = (i: number, n: number) =>
      `${20 + i},${1 + (i % 3)},${((1 + (i % 3)) * (20 + i) ** n).toExponential(8)}`;
    const text = (n: (i: number) => number) =>
      `thickness (um),specimen,sensitivity (mrad/Pa)\n${rows((i) => law(i, n(i)))}\n`;
    const same = fitTable(tableOf(text(() => -2)));
    const values = same.ok ? (same.value.reading.values as Record<string, { value: number }>) : {};
    expect(values["exponent"]?.value).toBeCloseTo(-2, 6);
    expect(values["factor of 3"]!.value / values["factor"]!.value).toBeCloseTo(3, 5);
    const differ = fitTable(tableOf(text((i) => (i % 3 === 1 ? -1 : -2))));
    expect(differ.ok && codes(differ.remarks)).toEqual(["groups-differ"]);
    const few = `thickness (um),specimen,sensitivity (mrad/Pa)\n20,1,3\n30,2,2\n40,2,1\n`;
    expect(refusals(few)).toEqual(["too-few-points"]);
    const zero = fitTable(tableOf(`thickness (um),sensitivity (mrad/Pa)\n10,4\n20,0\n30,1\n`));
    expect(zero.ok ? "" : zero.problems[0]!.message).toMatch(/^Line 3: /);
  });

  test("jitter and samples beyond the readout's curve are noticed", () => {
    const jittered = `time (ms),out (V)\n${Array.from(time, (t, i) => `${(t * 1e3 + ((i % 3) - 1) * 2e-4).toFixed(6)},${output[i]!.toFixed(5)}`).join("\n")}`;
    const fitted = fitTable(tableOf(jittered), { calibration: { low: -0.262, high: 0.262 } });
    expect(codes(fitted.ok ? fitted.remarks : fitted.problems)).toEqual(
      expect.arrayContaining(["jitter", "outside-calibration"]),
    );
  });

  test("a file that is read again is held against what the project keeps of it", () => {
    expect(recordByFile(demo, "a3-tone-off.csv")?.id).toBe("a3/r1");
    expect(recordByFile(demo, "other.csv")).toBeNull();
    const bytes = new TextEncoder().encode(ringDown("time (ms),out (rad)"));
    const read = (name: string) => {
      const asked = { recipe: null, options: {}, project: demo, excitation: 0.1, engine, name };
      const steps = readAndFit(bytes, asked);
      let last = steps.next();
      while (last.done !== true) last = steps.next();
      return last.value.ok ? codes(last.value.value.remarks).filter((code) => code === "reading-differs") : ["refused"];
    };
    expect([read("a3-tone-off.csv"), read("other.csv")]).toEqual([["reading-differs"], []]);
  });
});
