/** The answer of `fit` in words. */
import type { Problem } from "../../core/problem.ts";
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import type { ReadValue } from "../../core/reading/reading.ts";
import type { RecordTable } from "../../core/record/table.ts";
import type { FittedRecord } from "../../core/tasks/fit/fitTable.ts";
import { hanging } from "../wrap.ts";
import { problemLines } from "./problems.ts";

const width = 98;
const labelWidth = 18;

export const fitKindWords = {
  "ring-down": "ring-down",
  response: "frequency response",
  noise: "response from noise",
  sweep: "response from a sweep",
  scan: "scan of the guide's position",
  "power-law": "power law",
  "bias-sweep": "bias sweep",
} as const;

interface ValueWords {
  readonly name: string;
  readonly kind: KindName;
}

/** Names and kinds of the values that a fit can give. */
export const valueWords: Readonly<Record<string, ValueWords>> = {
  dampingRatio: { name: "damping ratio", kind: "number" },
  frequency: { name: "resonance", kind: "frequency" },
  rate: { name: "decay rate, 1/s", kind: "number" },
  amplitude: { name: "amplitude", kind: "number" },
  gain: { name: "gain", kind: "number" },
  offset: { name: "offset", kind: "length" },
  side: { name: "effective side, as a share", kind: "number" },
  exponent: { name: "exponent", kind: "number" },
  factor: { name: "factor", kind: "number" },
  half: { name: "half the span", kind: "voltage" },
  middle: { name: "middle", kind: "voltage" },
  zero: { name: "bias at the middle", kind: "angle" },
  slope: { name: "slope in V/rad", kind: "number" },
};

/** "0.01764 ± 0.00013", "18.650 ± 0.002 kHz". */
export function readText({ value, standardUncertainty }: ReadValue, kind: KindName): string {
  return formatQuantity(
    value,
    kind,
    standardUncertainty === null || standardUncertainty === 0 ? { digits: 5 } : { standard: standardUncertainty },
  );
}

/** "0.01738 to 0.01790", in the digits of the uncertainty. */
export function intervalText({ value, low, high, standardUncertainty }: ReadValue, kind: KindName): string {
  if (low === null || high === null) return "none";
  const spread = standardUncertainty !== null && standardUncertainty > 0 ? standardUncertainty : Math.abs(value) * 1e-4;
  const digits = (end: number) => Math.max(2, 2 + Math.ceil(Math.log10(Math.max(Math.abs(end), spread) / spread)));
  return `${formatQuantity(low, kind, { digits: digits(low) })} to ${formatQuantity(high, kind, { digits: digits(high) })}`;
}

const labeled = (label: string, text: string): string[] => hanging(label.padEnd(labelWidth), text, width);

export function fitLines(
  file: string,
  table: RecordTable,
  { reading, questions }: FittedRecord,
  remarks: readonly Problem[],
): string[] {
  const lines = [`${file}: ${fitKindWords[reading.kind]}`, "", ...labeled("Read as", understoodText(table))];
  if ("used" in reading) {
    const axis: KindName = reading.kind === "ring-down" ? "time" : "frequency";
    lines.push(
      ...labeled(
        "Used",
        `${formatQuantity(reading.used.from, axis)} to ${formatQuantity(reading.used.to, axis)}, ${reading.used.count} points`,
      ),
    );
  }
  lines.push("");
  for (const [key, value] of Object.entries(reading.values) as [string, ReadValue][]) {
    const { name, kind } = valueWords[key] ?? { name: key, kind: "number" as const };
    lines.push(...labeled(capital(name), `${readText(value, kind)}   (95 %: ${intervalText(value, kind)})`));
  }
  if ("secondOpinion" in reading) {
    const { by, value, standardUncertainty, says } = reading.secondOpinion;
    const text =
      value === null
        ? says
        : `${formatQuantity(value, "number", standardUncertainty ? { standard: standardUncertainty } : { digits: 4 })}; ${says}`;
    lines.push(...labeled("Second opinion", `by ${by}: ${text}`));
  }
  if ("included" in reading && reading.included.length > 0)
    lines.push(...labeled("Taken in", reading.included.join(", ")));
  const { rms, whiteness } = reading.residuals;
  lines.push(
    ...labeled(
      "Residuals",
      `${formatNumber(rms)} rms${whiteness === null ? "" : whiteness.probability < 1e-3 ? ", not white" : ", white"}`,
    ),
  );
  lines.push(...labeled("Stopped", `${reading.stopped}, ${reading.steps} steps`));
  const notes = [...remarks, ...questions];
  return notes.length === 0 ? lines : [...lines, "", ...problemLines(notes)];
}

/** "time in ms, output in V; 100 kHz; 2000 rows". */
export function understoodText({ columns, time, rows, recipe }: RecordTable): string {
  const shown = columns
    .filter(({ is }) => is !== "skip")
    .map(
      ({ index, is, unit }) =>
        `column ${index + 1} ${is}${unit === null ? " (unit not named)" : unit === "" ? "" : ` in ${unit}`}`,
    );
  const sampling = time === null ? [] : [`${formatQuantity(time.sampling, "frequency")} sampling`];
  const signs = recipe.decimal === "," ? ["decimal comma"] : [];
  return [shown.slice(0, 6).join(", ") + (shown.length > 6 ? " …" : ""), ...sampling, `${rows} rows`, ...signs].join(
    "; ",
  );
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
