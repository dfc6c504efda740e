/** The answer of `fit` in words. */
import type { Problem } from "../../core/problem.ts";
import { formatNumber, formatQuantity, plainQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import { unitOf } from "../../core/quantity/read.ts";
import type { Budget } from "../../core/reading/budget.ts";
import type { ReadValue } from "../../core/reading/reading.ts";
import type { RecordTable } from "../../core/record/table.ts";
import type { FittedRecord, Reading } from "../../core/tasks/fit/fitKinds.ts";
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
  curve: "predicted curve over specimens",
  "power-law": "power law",
  tones: "response from stepped tones",
  "bias-sweep": "bias sweep",
  sensitivity: "sensitivity at a tone",
  null: "null records",
  polynomial: "polynomial",
  linear: "plane through columns",
  formula: "typed formula",
  statistics: "statistics of a column",
} as const;

interface ValueWords {
  readonly name: string;
  readonly kind: KindName;
}

/** Names and kinds of the values that a fit can give. */
const valueWords: Readonly<Record<string, ValueWords>> = {
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
  turn: { name: "rad per unit", kind: "number" },
  bias: { name: "bias from quadrature", kind: "angle" },
  phase: { name: "phase part, mean square", kind: "number" },
  sensitivity: { name: "output per pascal", kind: "number" },
  pressure: { name: "sound, root mean square", kind: "soundLevel" },
  electrical: { name: "electrical part, mean square", kind: "number" },
  intensity: { name: "intensity part, mean square", kind: "number" },
  phaseWithoutSound: { name: "phase without sound, mean square", kind: "number" },
  field: { name: "what the field adds, mean square", kind: "number" },
  mean: { name: "mean", kind: "number" },
  standardDeviation: { name: "standard deviation", kind: "number" },
  lagOne: { name: "correlation of neighbors", kind: "number" },
};

/** "0.01764 ± 0.00013", "18.650 ± 0.002 kHz", "(1.31 ± 0.09) × 10⁻¹¹". */
export function readText({ value, standardUncertainty }: ReadValue, kind: KindName): string {
  const standard = standardUncertainty === null || standardUncertainty === 0 ? null : standardUncertainty;
  if (standard === null) return formatQuantity(value, kind, { digits: 5 });
  const power = Math.floor(Math.log10(Math.abs(value)));
  if (kind !== "number" || !Number.isFinite(power) || (power >= -4 && power < 6))
    return formatQuantity(value, kind, { standard });
  const raised = String(power)
    .replace("-", "⁻")
    .replace(/\d/g, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(Number(digit)));
  return `(${formatQuantity(value / 10 ** power, kind, { standard: standard / 10 ** power })}) × 10${raised}`;
}

/** "0.01738 to 0.01790", in the digits of the uncertainty. */
export function intervalText({ value, low, high, standardUncertainty }: ReadValue, kind: KindName): string {
  if (low === null || high === null) return "none";
  const spread = standardUncertainty !== null && standardUncertainty > 0 ? standardUncertainty : Math.abs(value) * 1e-4;
  const digits = (end: number) => Math.max(2, 2 + Math.ceil(Math.log10(Math.max(Math.abs(end), spread) / spread)));
  const unit = kind === "number" ? undefined : unitOf(plainQuantity(value, kind, { digits: 4 }));
  const text = (end: number) => formatQuantity(end, kind, { digits: digits(end), ...(unit && { unit }) });
  return `${text(low)} to ${text(high)}`;
}

const sweepKinds: Readonly<Partial<Record<string, KindName>>> = {
  bias: "angle",
  phase: "angle",
  analyzer: "angle",
  temperature: "temperature",
  wavelength: "length",
};
const perUnit: Readonly<Partial<Record<string, string>>> = { temperature: "K", wavelength: "m", analyzer: "rad" };

/** Name and kind of a value; the zero of a sweep stands in the unit of its axis. */
export function valueWordsOf(key: string, reading: Reading): ValueWords {
  const plain = valueWords[key] ?? { name: key, kind: "number" as const };
  if (reading.kind === "ring-down" && reading.readout !== undefined && key === "amplitude")
    return { name: "phase amplitude", kind: "phase" };
  if (reading.kind === "sensitivity" && key === "frequency") return { name: "tone", kind: "frequency" };
  if (reading.kind === "curve") {
    if (key === "factor") return { name: "measured over predicted", kind: "number" };
    if (key === "offset") return { name: `offset of the ${reading.over}`, kind: "length" };
    return { name: "damping without the film", kind: "number" };
  }
  if (reading.kind !== "bias-sweep") return plain;
  const of = reading.of ?? "bias";
  if (key === "zero") return { name: "rising middle at", kind: sweepKinds[of] ?? "number" };
  return key === "turn" ? { name: `turn, rad per ${perUnit[of] ?? "unit"}`, kind: "number" } : plain;
}

const labeled = (label: string, text: string): string[] => hanging(`${label} `.padEnd(labelWidth), text, width);

export function fitLines(
  file: string,
  { reading, questions, readAs }: FittedRecord,
  remarks: readonly Problem[],
): string[] {
  const lines = [`${file}: ${fitKindWords[reading.kind]}`, "", ...labeled("Read as", understoodText(readAs))];
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
    const { name, kind } = valueWordsOf(key, reading);
    // A parameter's name stays as it was typed.
    lines.push(
      ...labeled(
        name === key && !(key in valueWords) ? name : capital(name),
        `${readText(value, kind)}   (95 %: ${intervalText(value, kind)})`,
      ),
    );
  }
  if ("secondOpinion" in reading) {
    const { by, value, standardUncertainty, says } = reading.secondOpinion;
    const text =
      value === null
        ? says
        : `${formatQuantity(value, "number", standardUncertainty ? { standard: standardUncertainty } : { digits: 4 })}; ${says}`;
    lines.push(...labeled("Second opinion", `by ${by}: ${text}`));
  }
  if ("readout" in reading && reading.readout !== undefined)
    for (const [key, value] of Object.entries(reading.readout.values)) {
      const { name, kind } = valueWordsOf(key, reading);
      lines.push(...labeled(capital(name), readText(value, kind)));
    }
  if ("budget" in reading) lines.push("", ...budgetLines(reading.budget), "");
  if ("included" in reading && reading.included.length > 0)
    lines.push(...labeled("Taken in", reading.included.join(", ")));
  const { rms, whiteness } = reading.residuals;
  const deviation =
    "residualStandardDeviation" in reading && reading.residualStandardDeviation !== null
      ? `, standard deviation ${formatNumber(reading.residualStandardDeviation)} with ${reading.degreesOfFreedom} degrees of freedom`
      : "";
  lines.push(
    ...labeled(
      "Residuals",
      `${formatNumber(rms)} rms${deviation}${whiteness === null ? "" : whiteness.probability < 1e-3 ? ", not white" : ", white"}`,
    ),
  );
  lines.push(...labeled("Stopped", `${reading.stopped}, ${reading.steps} steps`));
  const notes = [...remarks, ...questions];
  return notes.length === 0 ? lines : [...lines, "", ...problemLines(notes)];
}

/** "time in ms, output in V; 100 kHz; 2000 rows". */
function understoodText({ columns, time, rows, recipe }: RecordTable): string {
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

export const intoLine = ({ project, specimen }: { readonly project: string; readonly specimen: string }): string =>
  `Written into ${project}, specimen ${specimen}.`;

/** Each line of a budget with its share, then the second opinion by drawing. */
function budgetLines({ lines, value, coverageFactor, degreesOfFreedom, monteCarlo }: Budget): string[] {
  const degrees = degreesOfFreedom < 1e5 ? degreesOfFreedom.toFixed(0) : "very many";
  return [
    "Budget",
    ...lines.map(
      ({ name, contribution, share }) =>
        `  ${budgetLineWords[name as keyof typeof budgetLineWords] ?? name}`.padEnd(36) +
        (contribution === 0
          ? "not given".padStart(12)
          : `${((100 * contribution) / Math.abs(value)).toPrecision(2)} %`.padStart(12) +
            `${(100 * share).toFixed(0)} % of the variance`.padStart(24)),
    ),
    `  Coverage factor ${coverageFactor.toFixed(2)} with ${degrees} degrees of freedom${monteCarlo === null ? "" : `; drawn instead: ± ${((100 * monteCarlo.standardUncertainty) / Math.abs(value)).toPrecision(2)} %`}`,
  ];
}

/** Lines of a budget of sound pressure. */
export const budgetLineWords = {
  reference: "reference",
  level: "level of the calibrator",
  volume: "volume and load of the coupler",
  ambient: "pressure, temperature, humidity",
  position: "position",
  repeat: "repeat",
  drift: "drift",
  biasSlope: "bias slope at the moment",
  scatter: "scatter of the fitted tones",
} as const;

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
