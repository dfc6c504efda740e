/** What a microphone would do along one of its values: the whole model at every point, coarse first, then finer. */
import { pow } from "../../numerics/power.ts";
import type { Progress } from "../../numerics/progress.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { type ValuePath, vary } from "../../project/paths.ts";
import { tiesOf } from "../../project/ties.ts";
import { formatQuantity } from "../../quantity/format.ts";
import { judge, type Measure, type Measures, measures } from "../predict/judge.ts";
import { drawn } from "./drawn.ts";

export interface CutRange {
  readonly path: string;
  /** Ends [SI]; both > 0 where the scale is logarithmic. */
  readonly from: number;
  readonly to: number;
  readonly scale: "linear" | "log";
}

export interface CutOptions extends CutRange {
  /** Points, 2 to 400. */
  readonly count: number;
}

export interface Cut extends CutRange {
  readonly label: string;
  readonly kind: ValuePath["kind"];
  /** Points computed so far, in order [SI]. */
  readonly values: readonly number[];
  /** One number a point; null: not there, or no such microphone. */
  readonly measures: Readonly<Record<Measure, readonly (number | null)[]>>;
  /** The design's own value [SI]; null: it has none. */
  readonly here: number | null;
  /** Values that follow in proportion: guides, and the other side. */
  readonly tied: readonly string[];
}

/** One list a measure. */
const byMeasure = <T>(make: (measure: Measure) => T) =>
  Object.fromEntries(measures.map((measure) => [measure, make(measure)])) as Record<Measure, T>;

/** Strides of the passes: a curve after an eighth of the points. */
const strides = [8, 4, 2, 1];

/** Yields after every point, with the curve so far after each pass. Problems: `bad-range`, `bad-count`, those of `vary`. */
export function* cut(
  project: Project,
  { count, ...range }: CutOptions,
): Generator<Progress & { readonly soFar?: Cut }, Outcome<Cut>> {
  const { path, from, to, scale } = range;
  const ties = tiesOf(project, path, [path], { sides: true });
  const variation = vary(project, [path, ...ties.map((tie) => tie.path)]);
  const problems = [...rangeProblems(range), ...countProblems(count)];
  if (!variation.ok || problems.length > 0) return refuse(...problems, ...(variation.ok ? [] : variation.problems));
  const [place] = variation.value.paths as readonly [ValuePath];
  const brief = readBrief(project);
  const share = (i: number) => i / (count - 1);
  const valueAt = (i: number) => (scale === "log" ? from * pow(to / from, share(i)) : from + (to - from) * share(i));
  const found = new Map<number, Measures | null>();
  const soFar = (): Cut => {
    const order = [...found.keys()].sort((a, b) => a - b);
    return {
      ...range,
      label: place.label,
      kind: place.kind,
      values: order.map(valueAt),
      measures: byMeasure((measure) => order.map((i) => found.get(i)?.[measure] ?? null)),
      here: variation.value.start[0] ?? null,
      tied: ties.map((tie) => tie.path),
    };
  };
  for (const stride of strides) {
    for (let i = 0; i < count; i++) {
      if (found.has(i) || (i % stride !== 0 && i !== count - 1)) continue;
      const value = valueAt(i);
      const described = variation.value.at([value, ...ties.map(({ ratio }) => ratio * value)]);
      const judged = described.ok ? judge(described.value, brief) : described;
      found.set(i, judged.ok ? drawn(judged.value.measures) : null);
      yield { done: found.size, of: count };
    }
    yield { done: found.size, of: count, soFar: soFar() };
  }
  return answer(soFar());
}

/**
 * Ends that are worth a look: from edge to edge for a guide, a factor of five either way for what is above zero, 20 K for a
 * temperature. Problems: `no-value`, those of `vary`.
 */
export function rangeAround(project: Project, path: string): Outcome<CutRange> {
  const side = "microphone.diaphragm.across";
  const variation = vary(project, [path, side]);
  if (!variation.ok) return variation;
  const [start = null, across = null] = variation.value.start;
  const [place] = variation.value.paths as readonly [ValuePath];
  const linear = (from: number, to: number) => answer({ path, from, to, scale: "linear" as const });
  if (/^microphone\.guide(\[\d+\])?\.at$/.test(path) && across !== null) return linear(-0.49 * across, 0.49 * across);
  if (start !== null && place.kind === "temperature") return linear(start - 20, start + 20);
  if (start !== null && start > 0) {
    const {
      above = 0,
      atLeast = 0,
      atMost = Number.POSITIVE_INFINITY,
      below = Number.POSITIVE_INFINITY,
    } = place.bounds;
    const low = Math.max(start / 5, above, atLeast);
    return answer({ path, from: low, to: Math.min(start * 5, atMost, 0.999 * below), scale: "log" });
  }
  return refuse({
    code: "no-value",
    path: [path],
    message: `${path} is ${start === null ? "not there" : formatQuantity(start, place.kind)}; needed: a value above 0, or the ends of the curve.`,
  });
}

function rangeProblems({ from, to, scale }: CutRange): Problem[] {
  const good = Number.isFinite(from) && Number.isFinite(to) && to > from && (scale === "linear" || from > 0);
  if (good) return [];
  const needed = scale === "log" ? "a logarithmic axis needs 0 < from < to" : "an axis needs from < to";
  return [{ code: "bad-range", path: ["from"], message: `Found a range from ${from} to ${to}; ${needed}.` }];
}

function countProblems(count: number): Problem[] {
  if (Number.isInteger(count) && count >= 2 && count <= 400) return [];
  return [
    { code: "bad-count", path: ["count"], message: `Found ${count} points; needed: a whole number from 2 to 400.` },
  ];
}
