/** What differs between designs: values of their files, and what they would do. */
import {
  findPath,
  formatNumber,
  formatQuantity,
  type Measure,
  measures,
  type Prediction,
  type Project,
} from "../../core/index.ts";
import { keptWords as words } from "../../words/en/kept.ts";
import { measureWords } from "../../words/en/measures.ts";
import { partName } from "../../words/en/partNames.ts";
import { measureOf } from "../shell/measureOf.ts";
import { valueText } from "../shell/valueText.ts";

export interface Difference {
  /** A path of the project, or the name of a number. */
  readonly key: string;
  readonly label: string;
  /** One a design, the present one first. */
  readonly values: readonly string[];
  /** Change from the present one in words; empty where there is none. */
  readonly changes: readonly string[];
  /** Whether the brief is met in it; null: not asked for, or not computed. */
  readonly met: readonly (boolean | null)[];
}

/** Values of microphone and air that are not the same in all of them, in the order of the present file. */
export function valueDifferences(projects: readonly [Project, ...Project[]]): readonly Difference[] {
  const paths = new Set(
    projects.flatMap(({ file }) => [...leaves(file.microphone, "microphone"), ...leaves(file.air, "air")]),
  );
  return [...paths].flatMap((path) => {
    const texts = projects.map((project) => valueText(project, path));
    const place = findPath(path);
    const numbers = projects.map((project) => {
      const read = place.ok ? place.value.read(project) : place;
      return read.ok ? read.value : null;
    });
    const same = (i: number) =>
      texts[i] === texts[0] ||
      (numbers[i] !== null && Math.abs(numbers[i]! - (numbers[0] ?? Number.NaN)) <= 1e-12 * Math.abs(numbers[i]!));
    if (projects.every((_, i) => same(i))) return [];
    const from = numbers[0] ?? null;
    return [
      {
        key: path,
        label: place.ok
          ? place.value.label
          : `${partName(path)}, ${path
              .split(".")
              .slice(path.startsWith("air") ? 1 : 2)
              .join(" ")}`,
        values: projects.map((_, i) =>
          place.ok && numbers[i] !== null && texts[i] !== ""
            ? formatQuantity(numbers[i] ?? null, place.value.kind, { digits: 4 })
            : texts[i] || words.none,
        ),
        changes: projects.map((_, i) => (i === 0 || same(i) ? "" : ratioText(from, numbers[i] ?? null))),
        met: projects.map(() => null),
      },
    ];
  });
}

/** Paths of everything that a file says there; one word for all edges stands for both pairs. */
function leaves(value: unknown, path: string): readonly string[] {
  if (Array.isArray(value)) return value.flatMap((one, i) => leaves(one, `${path}[${i}]`));
  const inner =
    typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([key, one]) => leaves(one, `${path}.${key}`))
      : [];
  if (path.endsWith(".edges")) return [`${path}.sides`, `${path}.ends`, ...inner];
  if (inner.length > 0) return inner;
  return value === undefined || typeof value === "object" ? [] : [path];
}

/** Requirements that a number is held against. */
const held: Readonly<Record<Measure, RegExp | null>> = {
  sensitivity: /sensitivity/,
  resonance: null,
  damping: /damping/,
  bandFrom: /band\.from/,
  bandTo: /band\.to/,
  noise: /noise/,
  loudest: /loudest/,
  vibration: /vibration/,
  strength: /strength/,
};

/** What each of them would do, and how many requirements it meets. */
export function numberDifferences(predictions: readonly [Prediction, ...Prediction[]]): readonly Difference[] {
  const [present] = predictions;
  const list = measures.map((measure): Difference => {
    const { label, kind } = measureWords[measure];
    const from = measureOf(present, measure);
    const numbers = predictions.map((one) => measureOf(one, measure));
    return {
      key: measure,
      label,
      values: numbers.map((value) => (value === null ? words.noNumber : formatQuantity(value, kind, { digits: 3 }))),
      changes: numbers.map((value, i) =>
        i === 0 ? "" : kind === "decibel" ? decibelText(from, value) : ratioText(from, value),
      ),
      met: predictions.map(({ verdict }) => {
        const lines = verdict.filter(({ requirement, met }) => held[measure]?.test(requirement) && met !== null);
        return lines.length === 0 ? null : lines.every(({ met }) => met === true);
      }),
    };
  });
  const judged = predictions.map(({ verdict }) => verdict.filter(({ met }) => met !== null));
  if (judged.every((lines) => lines.length === 0)) return list;
  const met = judged.map((lines) => lines.filter((line) => line.met === true).length);
  return [
    ...list,
    {
      key: "met",
      label: words.met,
      values: judged.map((lines, i) => words.metOf(met[i]!, lines.length)),
      changes: judged.map(() => ""),
      met: judged.map((lines, i) => met[i] === lines.length),
    },
  ];
}

/** "+12 %" */
function ratioText(from: number | null, to: number | null): string {
  if (from === null || to === null || !(from * to > 0)) return "";
  const percent = 100 * (to / from - 1);
  return Math.abs(percent) < 0.05 ? "" : `${signed(percent)}\u202f%`;
}

/** "−0.8 dB" */
function decibelText(from: number | null, to: number | null): string {
  if (from === null || to === null) return "";
  return Math.abs(to - from) < 0.05 ? "" : `${signed(to - from)}\u202fdB`;
}

const signed = (value: number): string => `${value > 0 ? "+" : ""}${formatNumber(value, { digits: 2 })}`;
