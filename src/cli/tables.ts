/** Results as CSV: SI units in the header, one row a design, specimen measure or point. */
import { writeFile } from "node:fs/promises";
import { resolve } from "node:path";
import { type ChartPlane, type Choices, type Measure, measures, type Spread } from "../core/index.ts";
import { reasonOf } from "../words/en/fileErrors.ts";
import { answerProblems, answerText, sayLine } from "./print.ts";

const unitOf: Readonly<Record<Measure, string>> = {
  sensitivity: "rad/Pa",
  resonance: "Hz",
  damping: "1",
  bandFrom: "Hz",
  bandTo: "Hz",
  noise: "dB re 20 uPa",
  loudest: "dB re 20 uPa",
  vibration: "dB re 20 uPa",
  strength: "1",
};
const heads = measures.map((measure) => `${measure} [${unitOf[measure]}]`);
const cell = (value: string | number | null): string => {
  const text = value === null ? "" : String(value);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
const table = (rows: readonly (readonly (string | number | null)[])[]): string =>
  rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");

export function chooseCsv({ designs, tradeOff }: Choices): string {
  const paths = Object.keys(designs[0]?.set ?? {});
  const row = (as: string, set: Readonly<Record<string, string>>, known: Readonly<Record<Measure, number | null>>) => [
    as,
    ...paths.map((path) => set[path] ?? ""),
    ...measures.map((measure) => known[measure] ?? null),
  ];
  return table([
    ["as", ...paths, ...heads],
    ...designs.map((one) => row(one.as.join("; "), one.set, one.measures)),
    ...tradeOff.map((one) => row("trade-off", one.set, one.measures)),
  ]);
}

export function spreadCsv(spread: Spread): string {
  const { levels, frequency } = spread.band;
  return table([
    ["frequency [Hz]", "2.5 % [dB]", "16 % [dB]", "50 % [dB]", "84 % [dB]", "97.5 % [dB]"],
    ...frequency.map((f, i) => [f, ...levels.map((level) => level[i]!)]),
  ]);
}

export function chartCsv({ x, y, measures: known, least }: ChartPlane): string {
  const rows = y.values.flatMap((there, j) =>
    x.values.map((here, i) => {
      const at = j * x.values.length + i;
      return [here, there, ...measures.map((measure) => known[measure][at] ?? null), least[at] ?? null];
    }),
  );
  return table([[`${x.path} [SI]`, `${y.path} [SI]`, ...heads, "least reserve [ln]"], ...rows]);
}

/** Writes the table where one is asked for; false: said why it could not. The project itself is never written over. */
export async function writeTable(
  verb: string,
  file: string,
  { csv, json }: { readonly csv?: string; readonly json: boolean },
  text: () => string,
): Promise<boolean> {
  if (csv === undefined) return true;
  const wrong = (code: string, message: string) => {
    answerProblems(verb, file, [{ code, path: ["--csv"], message }], json);
    return false;
  };
  if (csv === "-" && json)
    return wrong("two-answers", "Both --json and --csv - write to standard output; name a file for one.");
  if (csv === "-") {
    answerText(text());
    return true;
  }
  if (csv === "" || resolve(csv) === resolve(file))
    return wrong("csv-target", `Found "${csv}"; needed: a file for the table, other than the project.`);
  try {
    await writeFile(csv, text());
    sayLine(`Wrote ${csv}.`);
    return true;
  } catch (error) {
    return wrong("csv-not-written", `${csv} can't be written: ${reasonOf(error)}.`);
  }
}
