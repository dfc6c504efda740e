/** What differs between designs: values of their files, and what they would do. */
import {
  findPath,
  formatNumber,
  formatQuantity,
  type KindName,
  type Prediction,
  type Project,
} from "../../core/index.ts";
import { keptWords as words } from "../../words/en/kept.ts";
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
        label: place.ok ? place.value.label : path.replace(/^microphone\./, ""),
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

interface Row {
  readonly key: keyof typeof words.rows;
  readonly kind: KindName;
  readonly requirement: RegExp;
  readonly of: (prediction: Prediction) => number | null;
}
const rows: readonly Row[] = [
  { key: "sensitivity", kind: "phaseSensitivity", requirement: /sensitivity/, of: (p) => p.sensitivity.magnitude },
  { key: "resonance", kind: "frequency", requirement: /^$/, of: (p) => p.resonance.frequency },
  { key: "damping", kind: "number", requirement: /damping/, of: (p) => p.resonance.dampingRatio },
  { key: "bandFrom", kind: "frequency", requirement: /band\.from/, of: (p) => p.band.from },
  { key: "bandTo", kind: "frequency", requirement: /band\.to/, of: (p) => p.band.to },
  { key: "noise", kind: "decibel", requirement: /noise/, of: (p) => p.noise.levelA },
  { key: "loudest", kind: "decibel", requirement: /loudest/, of: (p) => p.loudest.level },
  { key: "vibration", kind: "decibel", requirement: /vibration/, of: (p) => p.vibration.worst?.level ?? null },
  { key: "strength", kind: "number", requirement: /strength/, of: (p) => p.strength?.factor ?? null },
];

/** What each of them would do, and how many requirements it meets. */
export function numberDifferences(predictions: readonly [Prediction, ...Prediction[]]): readonly Difference[] {
  const [present] = predictions;
  const list = rows.map(({ key, kind, requirement, of }): Difference => {
    const from = of(present);
    return {
      key,
      label: words.rows[key],
      values: predictions.map((one) =>
        of(one) === null ? words.noNumber : formatQuantity(of(one), kind, { digits: 3 }),
      ),
      changes: predictions.map((one, i) =>
        i === 0 ? "" : kind === "decibel" ? decibelText(from, of(one)) : ratioText(from, of(one)),
      ),
      met: predictions.map(({ verdict }) => {
        const lines = verdict.filter((line) => requirement.test(line.requirement) && line.met !== null);
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
