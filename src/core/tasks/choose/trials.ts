/** Designs that are tried: from a point of the unit cube to what it is worth. */
import type { Placed } from "../../microphone/span/figures.ts";
import type { Cost } from "../../numerics/searchBox.ts";
import { lowDiscrepancy } from "../../numerics/sobolSequence.ts";
import { answer, type Outcome, type Problem } from "../../problem.ts";
import { type Brief, readBrief } from "../../project/brief.ts";
import { type Choice, chosenAt, placeOf, readChoices } from "../../project/choices.ts";
import type { Project } from "../../project/load.ts";
import { type Variation, vary } from "../../project/paths.ts";
import { type Tie, tiesOf } from "../../project/ties.ts";
import { type Judged, judge, type Measures } from "../predict/judge.ts";
import { type JudgeBatch, prepareJudging, tellingOf } from "../predict/judgeBatch.ts";
import type { Verdict } from "../predict/prediction.ts";
import { impossible, leastSpare, worthOf } from "./worth.ts";

/** Plain data: it travels between threads. */
export interface Tried extends Cost {
  /** On the unit cube, one number a choice. */
  readonly point: readonly number[];
  /** Choices, then what goes with them [SI]. */
  readonly values: readonly number[];
  readonly measures: Measures;
  readonly verdict: readonly Verdict[];
  readonly flatness: Judged["flatness"];
  readonly scarcest: ReturnType<typeof leastSpare>;
  /** Answered by what spans all designs, or alone; "none": there is no such microphone. */
  readonly route: Judged["route"] | "none";
  /** Why there is none. */
  readonly problems?: readonly Problem[];
}

export interface Trials {
  readonly choices: readonly Choice[];
  readonly variation: Variation;
  /** The present design's point. */
  readonly start: readonly number[];
  /** Makes ready what all designs share, and gives it; null: few are answered one by one. Asked for again it gives the same. */
  readonly ready: () => Generator<unknown, JudgeBatch | null>;
  /** What another thread made ready for the same search. */
  readonly take: (shared: JudgeBatch | null) => void;
  readonly at: (point: readonly number[]) => Tried;
}

/** Fewer designs than this are answered one by one. */
const leastSpanned = 200;
/** Designs that tell of all others. */
const tellingCount = 64;

type TiedTo = Tie & { readonly i: number };

/** Problems: those of `readChoices` and `vary`. */
export function createTrials(
  project: Project,
  { seed, evaluations }: { readonly seed: number; readonly evaluations: number },
): Outcome<Trials> {
  const read = readChoices(project);
  if (!read.ok) return read;
  const choices = read.value;
  const free = choices.map(({ path }) => path.text);
  const ties = free.flatMap((path, i) =>
    tiesOf(project, path, free, { sides: (project.file.choices ?? []).length === 0 }).map(
      (tie): TiedTo => ({ ...tie, i }),
    ),
  );
  const varied = vary(project, [...free, ...ties.map(({ path }) => path)]);
  if (!varied.ok) return varied;
  const variation = varied.value;
  const brief = readBrief(project);
  const known = new Map<string, Tried>();
  let batch: JudgeBatch | null = null;
  let isReady = evaluations < leastSpanned;

  const valuesAt = (point: readonly number[]) => {
    const chosen = choices.map((choice, i) => chosenAt(choice, point[i]!));
    return [...chosen, ...ties.map(({ ratio, i }) => ratio * chosen[i]!)];
  };
  function compute(point: readonly number[], values: readonly number[]): Tried {
    const described = variation.at(values);
    const judged = described.ok
      ? judge(described.value, brief, { batch, values: values.slice(0, choices.length) })
      : described;
    if (judged.ok) {
      const { measures, verdict, flatness, route } = judged.value;
      const worth = worthOf(judged.value);
      return { point, values, measures, verdict, flatness, scarcest: leastSpare(judged.value), route, ...worth };
    }
    return { ...nothing, point, values, measures: {} as Measures, problems: judged.problems };
  }
  function* ready(): Generator<unknown, JudgeBatch | null> {
    if (!isReady) take(yield* spanned({ choices, variation, valuesAt, brief, seed }));
    return batch;
  }
  function take(shared: JudgeBatch | null): void {
    if (!isReady) batch = shared;
    isReady = true;
  }
  return answer(
    {
      choices,
      variation,
      start: choices.map((choice, i) => {
        const value = variation.start[i] ?? null;
        return value === null ? 0.5 : placeOf(choice, value);
      }),
      ready,
      take,
      at(point) {
        const values = valuesAt(point);
        const key = values.join(" ");
        const before = known.get(key);
        if (before !== undefined) return before;
        const tried = compute(point, values);
        known.set(key, tried);
        return tried;
      },
    },
    read.remarks,
  );
}

const nothing = {
  verdict: [],
  flatness: { from: null, to: null },
  scarcest: null,
  route: "none",
  cost: 0,
  violation: impossible,
} as const;

function* spanned(given: {
  readonly choices: readonly Choice[];
  readonly variation: Variation;
  readonly valuesAt: (point: readonly number[]) => readonly number[];
  readonly brief: Brief;
  readonly seed: number;
}): Generator<unknown, JudgeBatch | null> {
  const { choices, variation, valuesAt, brief, seed } = given;
  const points = lowDiscrepancy({ dimensions: choices.length, seed });
  // Every fourth at a corner of what may be chosen, which no even points reach.
  const cornered = (point: readonly number[], i: number) => (i % 4 === 0 ? point.map((u) => (u < 0.5 ? 0 : 1)) : point);
  const list = Array.from({ length: tellingCount }, (_, i): Placed[] => {
    const values = valuesAt(cornered(points(i), i));
    const described = variation.at(values);
    return described.ok ? [{ values: values.slice(0, choices.length), microphone: described.value }] : [];
  }).flat();
  const middle = list.find((_, i) => i % 4 !== 0);
  return middle ? yield* prepareJudging(tellingOf(middle, list), brief) : null;
}
