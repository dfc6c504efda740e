import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { WaveFile } from "wavefile";
import { damage } from "../../../tests/damage.ts";
import { seededUniform } from "../numerics/random.ts";
import type { Outcome } from "../problem.ts";
import { finished } from "./finished.ts";
import { readRecord } from "./readRecord.ts";
import type { Recipe } from "./recipe.ts";
import type { RecordTable } from "./table.ts";

const bytesOf = (text: string) => new TextEncoder().encode(text);
const read = (file: string | Uint8Array, recipe?: Recipe): Outcome<RecordTable> =>
  finished(readRecord(typeof file === "string" ? bytesOf(file) : file, recipe));

function table(file: string | Uint8Array, recipe?: Recipe) {
  const outcome = read(file, recipe);
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return { ...outcome.value, remarks: outcome.remarks };
}

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);
const refusals = (file: string | Uint8Array, recipe?: Recipe) => {
  const outcome = read(file, recipe);
  return outcome.ok ? [] : codes(outcome.problems);
};
const rows = (row: (i: number) => string, count = 40) =>
  Array.from({ length: count }, (_, i) => `${row(i)}\n`).join("");
const value = (i: number) => Math.sin(i / 3).toFixed(5);
const comma = (text: string) => text.replace(".", ",");
const shape = ({ columns }: RecordTable) => columns.map(({ is, unit }) => `${is} ${unit}`);

function utf16(text: string, big: boolean): Uint8Array {
  const out = new Uint8Array(2 * text.length + 2);
  [...`\ufeff${text}`].forEach((letter, i) => {
    const code = letter.charCodeAt(0);
    out[2 * i] = big ? code >> 8 : code & 255;
    out[2 * i + 1] = big ? code & 255 : code >> 8;
  });
  return out;
}

describe("delimited text", () => {
  test("commas, points, units in the heading", () => {
    const found = table(`time (ms),ch1 (mV)\n${rows((i) => `${i / 100},${value(i)}`)}`);
    expect(shape(found)).toEqual(["time ms", "output mV"]);
    expect(found.time?.sampling).toBeCloseTo(1e5, 6);
    expect(found.columns[1]?.values[3]).toBe(Number(value(3)));
    expect([found.questions, found.faults, found.remarks]).toEqual([[], [], []]);
  });

  test("times printed to fewer digits than they have keep the sampling, with a gap too", () => {
    const lines = Array.from({ length: 2000 }, (_, i) => `${(i / 48000).toFixed(7)},${value(i)}`);
    const whole = table(`time (s),u (V)\n${lines.join("\n")}\n`);
    expect(whole.time!.sampling / 48000).toBeCloseTo(1, 6);
    expect([whole.time!.gaps, whole.faults, whole.remarks]).toEqual([[], [], []]);
    const torn = table(`time (s),u (V)\n${[...lines.slice(0, 700), ...lines.slice(730)].join("\n")}\n`);
    expect(torn.time!.sampling / 48000).toBeCloseTo(1, 6);
    expect(torn.time!.gaps).toEqual([{ after: 699, missing: 30 }]);
  });

  test("quoted cells with the separator as decimal sign, a number of the sample, a level re something, a unit in the head", () => {
    const quoted = table(`"Time (ms)","Ch 1 (V)"\n${rows((i) => `"${comma(String(i / 100))}","${comma(value(i))}"`)}`);
    expect([shape(quoted), quoted.columns[1]?.values[3]]).toEqual([["time ms", "output V"], Number(value(3))]);
    const counted = table(`Sample;Time [ms];AI0 [V]\n${rows((i) => `${i};${i / 100};${value(i)}`)}`);
    expect(shape(counted)).toEqual(["skip null", "time ms", "output V"]);
    const level = table(
      `Frequency [kHz]\tMagnitude [dB re 1 V/Pa]\tPhase [deg]\n${rows((i) => `${9 - i / 10}\t-38.1\t-720`)}`,
    );
    expect(shape(level)).toEqual(["frequency kHz", "level dB", "phase deg"]);
    const alone = table(`# Logger 3\n# Sampling rate: 200 kS/s\n# Unit: mV\n${rows(value)}`);
    expect([shape(alone), alone.columns[0]?.heading, alone.time?.sampling]).toEqual([["output mV"], "", 2e5]);
    expect(shape(table(`time_ms,volts\n${rows((i) => `${i / 100},${value(i)}`)}`))).toEqual(["time ms", "output V"]);
  });

  test("junk of words and numbers above, headings behind a label, a rule between", () => {
    const head = `Report 12\n\nStart 1   Start 2\n  b1 =   500   250   2.38E+02   2.7E+00\n  b2 =   0.0001   0.0005\nNumber of Observations:   3\n\n`;
    const found = table(`${head}Data:   y          x\n  10.07E0   77.6E0\n  14.73E0   114.9E0\n  17.94E0   141.1E0\n`);
    expect(found.columns.map(({ is, heading }) => `${is} ${heading}`)).toEqual(["y y", "x x"]);
    expect([found.rows, found.columns[1]?.values[0], found.questions]).toEqual([3, 77.6, []]);
    const alone = table(`Number of Observations:   4\n\nData:  Y\n---------\n  -213\n -564\n 35\n 15\n`);
    expect([alone.columns.map(({ is }) => is), alone.rows, alone.questions]).toEqual([["y"], 4, []]);
    const bare = table("Number of points:   3\n\n  1.5   2.5\n  2.5   1.5\n  3.5   0.5\n");
    expect(bare.columns.map(({ heading }) => heading)).toEqual(["", ""]);
  });

  test("semicolons, decimal commas, a second row of units, CRLF, Latin-1", () => {
    const text = `Mess\u00fcng 12\r\nZeit;Spannung\r\n(\u00b5s);(V)\r\n${rows((i) => comma(`${i * 10};${value(i)}`)).replaceAll("\n", "\r\n")}`;
    const found = table(Uint8Array.from(text, (letter) => letter.charCodeAt(0)));
    expect(shape(found)).toEqual(["time us", "output V"]);
    expect(found.recipe).toMatchObject({ decimal: ",", separator: ";", skipLines: 3 });
    expect(found.columns[1]?.values[5]).toBe(Number(value(5)));
  });

  test.each([false, true])("tabs in UTF-16 (big-endian %s), exponents, µ in the heading", (big) => {
    const found = table(utf16(`t [\u00b5s]\tU [V]\n${rows((i) => `${i * 10}\t${(i * 1e-7).toExponential(8)}`)}`, big));
    expect(shape(found)).toEqual(["time us", "output V"]);
    expect(found.columns[1]?.values[7]).toBe(7e-7);
  });

  test("comments, spaces, one column, the sampling in the head", () => {
    const found = table(`# recorder\n# sample rate: 96 kHz\n${rows((i) => `   ${value(i)}`)}`);
    expect(found.time?.sampling).toBe(96000);
    expect(found.recipe.sampling).toBe("96 kHz");
  });

  test("an interval in the head gives the unit of a time column without one", () => {
    const found = table(
      `Model,X100\nSample Interval,1.00E-05,s\n\nTIME,CH1,CH2\n${rows((i) => `${i * 1e-5},${value(i)},${i % 7}`)}`,
    );
    expect(shape(found)).toEqual(["time s", "output null", "output null"]);
    expect(codes(found.questions)).toEqual(["unit-unclear", "unit-unclear"]);
  });

  test("marks between thousands, quoted cells", () => {
    const lines = Array.from({ length: 30 }, (_, i) => [(1000.5 + i * 37).toLocaleString("en-US"), "-3.2", String(i)]);
    const found = table(Papa.unparse({ fields: ["Frequency, Hz", "Magnitude (dB)", "Phase, deg"], data: lines }));
    expect(shape(found)).toEqual(["frequency Hz", "level dB", "phase deg"]);
    expect(found.columns[0]?.values[2]).toBe(1074.5);
  });

  test("numbers are the same as the language's own conversion", () => {
    const random = seededUniform(5);
    const texts = Array.from({ length: 2000 }, () =>
      ((random() - 0.5) * 10 ** Math.floor(40 * random() - 20)).toPrecision(1 + Math.floor(17 * random())),
    );
    const { columns } = table(`a (V),b (V)\n${texts.map((text) => `1,${text}\n`).join("")}`, {
      columns: [{ index: 1, is: "output", unit: "V" }],
      sampling: "1 MHz",
    });
    expect(Array.from(columns[0]!.values)).toEqual(texts.map(Number));
  });

  test("a recipe reads the next file of the kind without asking", () => {
    const bare = rows((i) => `${i / 100} ${value(i)}`);
    expect(codes(table(bare).questions)).toEqual(["unit-unclear", "unit-unclear"]);
    const recipe: Recipe = {
      columns: [
        { index: 0, is: "time", unit: "ms" },
        { index: 1, is: "output", unit: "V" },
      ],
      separator: "space",
    };
    expect(table(bare, recipe).questions).toEqual([]);
  });
});

describe("what is wrong is said, with its line", () => {
  test("missing and unreadable cells, a cut last line", () => {
    const found = table(
      `time/s;out/V\n${rows((i) => (i === 7 ? `${i}e-5;` : i === 9 ? `${i}e-5;abc` : `${i}e-5;${i % 3}`))}40e-5`,
    );
    expect(codes(found.remarks)).toEqual(["cells-unreadable", "cells-missing", "last-line-cut"]);
    expect(found.remarks[0]?.path).toEqual(["line", 11]);
    expect(found.columns[1]?.missing).toBe(2);
    // What stands before the cut may be a part of a number: it is no row.
    expect(found.rows).toBe(40);
  });

  test.each([
    ["time-goes-backwards", 22, (i: number) => `${i % 20}e-5,${value(i)}`],
    ["time-repeats", 13, (i: number) => `${i < 11 ? i : i - 1}e-5,${value(i)}`],
    ["two-time-bases", 23, (i: number) => `${i < 21 ? i : 20 + (i - 20) * 7}e-5,${value(i)}`],
    ["time-missing", 7, (i: number) => `${i === 5 ? "NaN" : `${i}e-5`},${value(i)}`],
  ])("%s", (code, line, row) => {
    const { faults } = table(`time (s),out (V)\n${rows(row)}`);
    expect(faults.map((fault) => [fault.code, ...fault.path])).toContainEqual([code, "line", line]);
  });

  test("ten thousand columns are counted in their own line", () => {
    const line = Array.from({ length: 10_000 }, (_, i) => (i / 7).toFixed(5)).join(",");
    const read = finished(readRecord(new TextEncoder().encode(`${line}\n${line}\n${line}\n`)));
    expect(read.ok ? "" : read.problems[0]!.message).toContain("10000 columns");
    const told = finished(
      readRecord(new TextEncoder().encode(`${line}\n${line}\n`), {
        columns: [
          { index: 1, is: "x", unit: "" },
          { index: 9000, is: "y", unit: "" },
        ],
      }),
    );
    expect(told.ok && told.value.columns.map(({ values }) => values[1]!.toFixed(3))).toEqual(["0.143", "1285.714"]);
  });

  test("gaps are told with the samples that they lost", () => {
    const found = table(`time (s),out (V)\n${rows((i) => `${i < 20 ? i : i + 3}e-5,${value(i)}`)}`);
    expect(found.time?.gaps).toEqual([{ after: 19, missing: 3 }]);
    expect(codes(found.remarks)).toEqual(["samples-dropped"]);
  });

  test("times printed with too few digits are spread evenly, and it is said", () => {
    const found = table(`time (s),out (V)\n${rows((i) => `${(i * 3e-6).toFixed(5)},${value(i)}`, 300)}`);
    expect(codes(found.remarks)).toEqual(["time-rounded"]);
    expect(found.time?.step).toBeCloseTo(3e-6, 9);
  });

  test("clipping is noticed, a flat crest of few bits is not taken for it", () => {
    const tone = (i: number) => 1.3 * Math.cos(i / 9);
    const clipped = table(`time (s),out (V)\n${rows((i) => `${i}e-5,${Math.min(1, tone(i)).toFixed(6)}`, 200)}`);
    expect(codes(clipped.remarks)).toEqual(["clipped"]);
    const coarse = table(`time (s),out (V)\n${rows((i) => `${i}e-5,${Math.round(20 * tone(i)) / 20}`, 200)}`);
    expect(coarse.remarks).toEqual([]);
  });

  test("a wrong unit of time makes it ask", () => {
    const { questions } = table(`time (s),out (V)\n${rows((i) => `${i * 5},${value(i)}`)}`);
    expect(questions.map(({ code, choices }) => [code, choices[1]])).toEqual([["unit-implausible", "ms"]]);
    expect(codes(table(`frequency (Hz),out (V)\n${rows((i) => `${i / 10},${value(i)}`)}`).questions)).toEqual([
      "unit-implausible",
    ]);
    expect(codes(table(`time (V),out (V)\n${rows((i) => `${i}e-5,${value(i)}`)}`).questions)).toEqual([
      "unit-of-another-kind",
    ]);
  });

  test("what can be read in two ways is asked", () => {
    expect(codes(table(rows((i) => `0,${100 + i}`)).questions)).toContain("separator-unclear");
    expect(codes(table(rows((i) => `${i + 1},${100 + i};${i + 1},${200 + i}`)).questions)).toContain("decimal-unclear");
    expect(codes(table(rows(value)).questions)).toContain("sampling-unknown");
  });

  test.each([
    ["empty", ""],
    ["no-numbers", "hello world\nfoo bar\n"],
    ["too-few-rows", "time (s),out (V)\n1,2\n"],
    ["too-many-columns", rows(() => Array.from({ length: 10_000 }, (_, k) => k).join(","), 3)],
  ])("%s is refused", (code, text) => {
    expect(refusals(text)).toEqual([code]);
  });

  test("bytes that are no text are refused", () => {
    expect(refusals(Uint8Array.of(0x50, 0x4b, 3, 4, 9, 9, 9))).toEqual(["not-text"]);
    expect(refusals(Uint8Array.from({ length: 500 }, (_, i) => (i * 97) % 251))).toEqual(["not-text"]);
    expect(refusals(Uint8Array.of(0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a))).toEqual(["container-elsewhere"]);
    expect(
      refusals(
        rows((i) => `${i}`),
        { columns: [{ index: 4, is: "time", unit: "s" }] },
      ),
    ).toEqual(["unknown-column"]);
  });
});

describe("WAV", () => {
  const left = Array.from({ length: 300 }, (_, i) => 0.5 * Math.sin(i / 5));
  const right = left.map((sample) => -sample / 2);
  function wave(bits: string, full: number): Uint8Array {
    const file = new WaveFile();
    const scaled = [left, right].map((list) =>
      list.map((sample) =>
        full === 1 ? sample : bits === "8" ? Math.round(sample * 127 + 128) : Math.round(sample * full),
      ),
    );
    file.fromScratch(2, 48000, bits, scaled);
    return file.toBuffer();
  }

  test.each([
    ["8", 128, 0.02],
    ["16", 32767, 1e-4],
    ["24", 8388607, 1e-6],
    ["32", 2147483647, 1e-9],
    ["32f", 1, 1e-7],
    ["64", 1, 0],
  ])("%s bits of another writer come back", (bits, full, within) => {
    const found = table(wave(bits, full));
    expect(found.time?.sampling).toBe(48000);
    expect(found.columns.map(({ is }) => is)).toEqual(["output", "reference"]);
    const error = Math.max(...left.map((sample, i) => Math.abs(sample - found.columns[0]!.values[i]!)));
    expect(error).toBeLessThanOrEqual(within);
    expect(found.columns[1]!.values[10]! + found.columns[0]!.values[10]! / 2).toBeCloseTo(0, bits === "8" ? 1 : 4);
  });

  test("the other order of bytes, and chunks with names of sixteen bytes", () => {
    const turned = new WaveFile();
    turned.fromScratch(
      1,
      48000,
      "16",
      left.map((sample) => Math.round(32767 * sample)),
      { container: "RIFX" },
    );
    const found = table(turned.toBuffer());
    expect([found.time?.sampling, found.columns[0]!.values[7]!.toFixed(4)]).toEqual([48000, left[7]!.toFixed(4)]);
    // Written here by hand: head, format, samples, each at a multiple of eight.
    const names = { riff: [0x2e, 0x91, 0xcf, 0x11, 0xa5, 0xd6, 0x28, 0xdb, 4, 0xc1, 0, 0] };
    const other = [0xf3, 0xac, 0xd3, 0x11, 0x8c, 0xd1, 0, 0xc0, 0x4f, 0x8e, 0xdb, 0x8a];
    const bytes = new Uint8Array(40 + 40 + 24 + 600);
    const view = new DataView(bytes.buffer);
    const put = (at: number, text: string, rest: readonly number[]) =>
      bytes.set([...text].map((letter) => letter.charCodeAt(0)).concat(rest), at);
    put(0, "riff", names.riff);
    view.setBigUint64(16, BigInt(bytes.length), true);
    put(24, "wave", other);
    put(40, "fmt ", other);
    view.setBigUint64(56, 40n, true);
    view.setUint16(64, 1, true);
    view.setUint16(66, 1, true);
    view.setUint32(68, 44100, true);
    view.setUint32(72, 88200, true);
    view.setUint16(76, 2, true);
    view.setUint16(78, 16, true);
    put(80, "data", other);
    view.setBigUint64(96, 624n, true);
    left.forEach((sample, i) => {
      view.setInt16(104 + 2 * i, Math.round(32767 * sample), true);
    });
    const wide = table(bytes);
    expect([wide.time?.sampling, wide.rows, wide.remarks]).toEqual([44100, 300, []]);
    expect(wide.columns[0]!.values[7]).toBeCloseTo(left[7]!, 4);
  });

  test("a cut file is read as far as it goes, and it is said; broken heads are refused", () => {
    const whole = wave("16", 32767);
    expect(codes(table(whole.slice(0, 700)).remarks)).toEqual(["wave-cut"]);
    expect(refusals(whole.slice(0, 20))).toEqual(["wave-without-format", "wave-without-data"]);
    const odd = Uint8Array.from(whole);
    odd[20] = 85;
    expect(refusals(odd)).toContain("wave-format-unknown");
  });
});

describe("damaged files", () => {
  const sources = [
    `time (ms),ch1 (V)\n${rows((i) => `${i / 100},${value(i)}`)}`,
    `Zeit;Spannung\n(ms);(V)\n${rows((i) => comma(`${i};${value(i)}`))}`,
    `# fs = 96 kHz\n${rows(value)}`,
  ].map(bytesOf);

  test("300 of them end in an answer or a problem that says something, with nothing lost unsaid", () => {
    const random = seededUniform(11);
    for (let n = 0; n < 300; n++) {
      const damaged = damage(sources[n % sources.length]!, random);
      const outcome = read(damaged);
      if (!outcome.ok) {
        expect(outcome.problems.length).toBeGreaterThan(0);
        for (const { code, message } of outcome.problems) expect(code === "" || message.length < 20).toBe(false);
        continue;
      }
      const { columns, rows: count } = outcome.value;
      for (const { values, missing } of columns) {
        expect(values.length).toBe(count);
        const absent = values.reduce((sum, cell) => sum + (Number.isNaN(cell) ? 1 : 0), 0);
        if (absent > 0)
          expect([...codes(outcome.remarks), missing >= absent]).toEqual(
            expect.arrayContaining([expect.stringMatching(/^cells-|rows-ragged/)]),
          );
      }
    }
  });
});
