/** What a reader of a file must ask: nothing that changes a result is guessed in silence. */
import type { Layout } from "./layout.ts";
import type { ColumnMeaning } from "./recipe.ts";
import type { Question, RecordColumn, RecordTable } from "./table.ts";
import { unitFactor } from "./units.ts";

const unitsOf: Partial<Record<ColumnMeaning, readonly string[]>> = {
  time: ["s", "ms", "us"],
  frequency: ["Hz", "kHz"],
  output: ["V", "mV", "rad", "mrad"],
  reference: ["V", "mV", "Pa"],
  phase: ["deg", "rad"],
  position: ["mm", "um", "m"],
  thickness: ["um", "mm"],
  side: ["mm", "um"],
  gap: ["um", "mm"],
  level: ["dB"],
  bias: ["deg", "rad"],
  analyzer: ["deg", "rad"],
  temperature: ["degC", "K"],
  wavelength: ["nm", "um"],
};

const wrongKind: Partial<Record<ColumnMeaning, RegExp>> = {
  time: /^([num]?s|min|h)$/,
  frequency: /Hz$/,
  phase: /^(deg|[mu]?rad)$/,
  position: /m$/,
  thickness: /m$/,
  side: /m$/,
  gap: /m$/,
  wavelength: /m$/,
  bias: /^(deg|[mu]?rad)$/,
  analyzer: /^(deg|[mu]?rad)$/,
  temperature: /^(degC|degF|m?K)$/,
};

/** What stands in a file without a time only where each row is a sample. */
const samples: ReadonlySet<ColumnMeaning> = new Set([
  "output",
  "reference",
  "skip",
  "dark",
  "oneMode",
  "plus",
  "minus",
  "plugged",
  "fieldOff",
  "fieldOn",
] as const);

/** Sampling of records of this kind [Hz]: below lies no sound, above no recorder that a small laboratory has. */
const plausibleSampling = { from: 2e3, to: 2e9 } as const;
const plausibleFrequency = { from: 0.5, to: 5e6 } as const;

export function questionsOf(
  table: RecordTable,
  { unclear, told }: { readonly unclear: Layout["unclear"]; readonly told: boolean },
): readonly Question[] {
  const questions: Question[] = [];
  const { columns, recipe, time } = table;
  if (unclear === "separator")
    questions.push({
      code: "separator-unclear",
      path: ["separator"],
      message:
        "Commas may part the cells or be decimal signs: every row reads as whole numbers both ways. Which is it?",
      choices: [",", "space"],
    });
  if (unclear === "decimal")
    questions.push({
      code: "decimal-unclear",
      path: ["decimal"],
      message: `Every number has exactly three digits behind its "${recipe.decimal}": is it the decimal sign, or a mark between thousands?`,
      choices: [".", ","],
    });
  for (const [i, column] of columns.entries()) questions.push(...aboutColumn(column, i));
  if (
    !columns.some(({ is }) => is === "time" || is === "frequency") &&
    time === null &&
    columns.every(({ is }) => samples.has(is))
  )
    questions.push({
      code: "sampling-unknown",
      path: ["sampling"],
      message:
        "No column holds a time or frequency and the head names no sampling. How many samples a second were taken?",
      choices: ["48 kHz", "96 kHz", "192 kHz"],
    });
  if (!told) questions.push(...implausible(table));
  return questions;
}

function aboutColumn({ is, unit, heading, index }: RecordColumn, i: number): Question[] {
  const name = `Column ${index + 1}${heading === "" ? "" : ` (${heading})`}`;
  const needed = unitsOf[is];
  if (needed === undefined) return [];
  if (unit === null && is !== "level")
    return [
      {
        code: "unit-unclear",
        path: ["columns", i, "unit"],
        message: `${name} is taken for ${meaningWords[is] ?? is}; the file names no unit. Which is it?`,
        choices: needed,
      },
    ];
  const pattern = wrongKind[is];
  if (unit !== null && unit !== "" && pattern !== undefined && !(pattern.test(unit) && unitFactor(unit) !== null))
    return [
      {
        code: "unit-of-another-kind",
        path: ["columns", i, "unit"],
        message: `${name} is taken for ${meaningWords[is] ?? is}, but its unit is "${unit}". Which is right?`,
        choices: needed,
      },
    ];
  return [];
}

const meaningWords: Partial<Record<ColumnMeaning, string>> = {
  time: "the time",
  frequency: "the frequency",
  output: "an output of the microphone",
  reference: "a reference",
  phase: "a phase",
  position: "a position of the guide",
};

/** Times and frequencies that no microphone has: most often the unit is wrong. */
function implausible({ columns, time }: RecordTable): Question[] {
  const timeAt = columns.findIndex(({ is }) => is === "time");
  if (timeAt >= 0 && time !== null && columns[timeAt]!.unit !== null) {
    const { from, to } = plausibleSampling;
    if (time.sampling < from || time.sampling > to)
      return [
        {
          code: "unit-implausible",
          path: ["columns", timeAt, "unit"],
          message: `In ${columns[timeAt]!.unit} this record has ${time.sampling.toPrecision(3)} samples a second, which ${time.sampling < from ? "holds no sound" : "no recorder takes"}. Is the unit of the time right?`,
          choices: ["s", "ms", "us", "ns"],
        },
      ];
  }
  const frequencyAt = columns.findIndex(({ is }) => is === "frequency");
  if (frequencyAt >= 0 && columns[frequencyAt]!.unit !== null) {
    const { values, unit } = columns[frequencyAt]!;
    const largest =
      values.reduce((top, value) => Math.max(top, Number.isNaN(value) ? top : value), 0) *
      (unitFactor(unit ?? "") ?? 1);
    if (largest < 20 * plausibleFrequency.from || largest > plausibleFrequency.to)
      return [
        {
          code: "unit-implausible",
          path: ["columns", frequencyAt, "unit"],
          message: `In ${unit} the highest frequency is ${largest.toPrecision(3)} Hz. Is the unit of the frequency right?`,
          choices: ["Hz", "kHz", "MHz"],
        },
      ];
  }
  return [];
}
