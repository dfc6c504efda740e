/**
 * From what is wanted to what to build: a search over everything that may be chosen, with the whole model at every point.
 * Deterministic by seed. What counts first is how far the requirements are missed (a "must" ten times), then how much of the
 * scarcest is left over.
 */
import type { Placed } from "../../microphone/figures.ts";
import { drain } from "../../numerics/progress.ts";
import { type Cost, searchBox } from "../../numerics/searchBox.ts";
import { lowDiscrepancy } from "../../numerics/sobolSequence.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { type Brief, readBrief } from "../../project/brief.ts";
import { type Choice, chosenAt, placeOf, readChoices } from "../../project/choices.ts";
import type { Project } from "../../project/load.ts";
import { type ValuePath, type Variation, vary } from "../../project/paths.ts";
import { type Tie, tiesOf } from "../../project/ties.ts";
import { plainQuantity } from "../../quantity/format.ts";
import { judge, leastReserve, type Measure, type Measures, readyToJudge, reserve } from "../predict/judge.ts";
import { type JudgeBatch, tellingOf } from "../predict/judgeBatch.ts";
import { lawOf } from "../predict/laws.ts";
import type { Verdict } from "../predict/prediction.ts";
import { embedded, freePart, type Selection, selections, selects } from "./lists.ts";

export interface ChosenDesign {
  /** Values as a project file says them, ready for `--set`. */
  readonly set: Readonly<Record<string, string>>;
  readonly verdict: readonly Verdict[];
  readonly measures: Measures;
  /** Natural logarithm of the scarcest requirement's ratio to what is asked; null: nothing is asked that is computed. */
  readonly reserve: number | null;
  /** Why it is in the list: "balanced", "most sensitive" ... */
  readonly as: readonly string[];
}

export interface Refusal {
  readonly requirement: string;
  readonly asked: number;
  /** SI. Asked for no more than this, together with the other values of `nearest` here, the brief can be met. */
  readonly nearest: number;
  /** The best that this requirement could be if it were the only one to yield; null where the others can't be met either. */
  readonly alone: number | null;
  readonly reason: string;
}

export interface Choices {
  /** The best first; empty only where nothing that may be chosen can be built. */
  readonly designs: readonly ChosenDesign[];
  /** Requirements that no choice meets together; empty where the brief is met. */
  readonly refused: readonly Refusal[];
  /** What each other pays: designs of which none is better in all of sensitivity, band and noise; SI. */
  readonly tradeOff: readonly { readonly set: Readonly<Record<string, string>>; readonly measures: Measures }[];
  readonly search: {
    readonly seed: number;
    /** Microphones computed. */
    readonly evaluations: number;
    /** Whether the searches had come to rest before their calls ran out. */
    readonly settled: boolean;
    /** Scarcest reserve that each search from its own start ended with: how well they agree. */
    readonly ends: readonly number[];
    /** Evenly spread designs looked at, and how many of them were better than the best found. */
    readonly scanned: number;
    readonly scannedBetter: number;
    /** Designs answered by what spans them all, and those that it did not reach. */
    readonly route: { readonly spanned: number; readonly alone: number };
  };
}

export interface ChooseOptions {
  readonly seed?: number;
  /** Microphones to compute at most, all searches together; 1600 where absent. */
  readonly evaluations?: number;
  /** Asked between steps: true ends the search where it is, with what it has. */
  readonly stopped?: () => boolean;
}

interface Tried extends Cost {
  readonly point: readonly number[];
  readonly values: readonly number[];
  readonly measures: Measures;
  readonly verdict: readonly Verdict[];
}

const impossible = 1e6;

/**
 * Yields while it searches. Problems: those of `readChoices` and `vary`, `nothing-asked` for a brief without requirements that
 * are computed, `nothing-can-be-built`.
 */
export function* choose(
  project: Project,
  { seed = 1, evaluations = 1600, stopped = () => false }: ChooseOptions = {},
): Generator<{ readonly done: number; readonly of: number }, Outcome<Choices>> {
  const choices = readChoices(project);
  if (!choices.ok) return choices;
  const choicesFound = choices.value;
  const brief = readBrief(project);
  const free = choices.value.map(({ path }) => path.text);
  const ties = free.flatMap((path, i) =>
    tiesOf(project, path, free, { sides: (project.file.choices ?? []).length === 0 }).map((tie) => ({ ...tie, i })),
  );
  const variation = vary(project, [...free, ...ties.map(({ path }) => path)]);
  if (!variation.ok) return variation;
  const bench = createTrials(choices.value, { variation: variation.value, ties }, brief);
  const n = choices.value.length;
  const start = choices.value.map((choice, i) => {
    const value = variation.value.start[i] ?? null;
    return value === null ? 0.5 : placeOf(choice, value);
  });

  for (const _ of bench.ready(seed, evaluations)) yield { done: 0, of: evaluations };
  // An even look over everything, so that the search starts in the right valley and says what it would have missed.
  const scanned = Math.max(16, Math.floor(evaluations * 0.2));
  const points = lowDiscrepancy({ dimensions: n, seed });
  const scan: Tried[] = [bench.at(start)];
  for (let i = 0; i < scanned && !stopped(); i++) {
    scan.push(bench.at(points(i)));
    yield { done: bench.count(), of: evaluations };
  }
  const ordered = [...scan].sort(order);
  const built = ordered.filter(({ violation }) => violation < impossible);
  if (built.length === 0) return refuse(...nothingBuilt(bench.lastProblems()));
  if (built[0]!.verdict.length === 0)
    return refuse({
      code: "nothing-asked",
      path: ["brief"],
      message: "The brief asks for nothing that is computed, so every design is as good as another. Add a requirement.",
    });

  const ends: Tried[] = [];
  let settled = true;
  // A short search in the selections from lists that look best, then two long ones in that which is best: the second without
  // what the first is given, so that they can agree.
  const ranked = () => rankedSelections(choices.value, bench.tried());
  const looked = ranked();
  const short = looked.length > 1 ? looked.slice(0, mostShort) : [];
  for (const [k, one] of short.entries()) yield* searchIn(one, { seed: seed + 11 * k, share: 0.2 / short.length });
  const [leading] = ranked();
  if (leading) {
    const share = short.length > 0 ? 0.2 : 0.3;
    for (const [k, given] of [leading.among.slice(0, 6), []].entries()) {
      const found = yield* searchIn({ ...leading, among: given }, { seed: seed + 101 * k, share });
      settled &&= found.settled;
      if (found.best) ends.push(found.best);
    }
  }
  const all = bench.tried();
  const best = [...all].sort(order)[0]!;
  const refused = best.violation > 0 ? yield* refusals(best) : [];
  const designs = best.violation > 0 ? [best] : variety(all, best);
  const set = (tried: Tried) => settings(variation.value.paths, tried.values);
  return answer(
    {
      designs: designs.map((tried) => ({
        set: set(tried),
        verdict: tried.verdict,
        measures: tried.measures,
        reserve: leastReserve(tried.verdict),
        as: best.violation > 0 ? ["least bad"] : reasonsFor(tried, designs),
      })),
      refused,
      tradeOff: front(all.filter(({ violation }) => violation < impossible)).map((tried) => ({
        set: set(tried),
        measures: tried.measures,
      })),
      search: {
        seed,
        evaluations: bench.count(),
        settled,
        ends: ends.map(({ verdict }) => leastReserve(verdict) ?? 0),
        scanned,
        scannedBetter: scan.filter((one) => order(one, best) < 0).length,
        route: bench.route(),
      },
    },
    choices.remarks,
  );

  /** Searches what a selection leaves free, from the best of what is known of it; `share` of all calls. */
  function* searchIn(
    { selection, among }: Ranked,
    given: { readonly seed: number; readonly share: number },
  ): Generator<{ done: number; of: number }, { readonly best: Tried | null; readonly settled: boolean }> {
    const dimensions = selection.filter((item) => item === null).length;
    const whole = (free: readonly number[]) => embedded(selection, choicesFound, free);
    if (dimensions === 0) return { best: bench.at(whole([])), settled: true };
    const costAt = (free: readonly number[]): Cost => {
      const { cost, violation } = bench.at(whole(free));
      return { cost, violation };
    };
    const search = searchBox(costAt, {
      dimensions,
      seed: given.seed,
      evaluations: Math.floor(evaluations * given.share),
      start: among.slice(0, 6).map(({ point }) => freePart(selection, point)),
      enough: 1e-4,
    });
    for (;;) {
      if (stopped()) return { best: null, settled: false };
      const step = search.next();
      if (step.done) return { best: bench.at(whole(step.value.best.point)), settled: step.value.settled };
      yield { done: bench.count(), of: evaluations };
    }
  }

  /** Each requirement that is missed by the least bad design: what to relax it to, and what it could be alone. */
  function* refusals(leastBad: Tried): Generator<{ done: number; of: number }, readonly Refusal[]> {
    const missed = leastBad.verdict.filter(({ met }) => met === false);
    const list: Refusal[] = [];
    for (const line of missed) {
      const others = (verdict: readonly Verdict[]) =>
        verdict.filter(({ requirement }) => requirement !== line.requirement);
      const search = searchBox(
        (u) => {
          const tried = bench.at(u);
          if (tried.violation >= impossible) return tried;
          const own = tried.verdict.find(({ requirement }) => requirement === line.requirement);
          const left = own === undefined ? null : reserve(own);
          return { cost: left === null ? impossible : -left, violation: violationOf(others(tried.verdict)) };
        },
        {
          dimensions: n,
          seed: seed + 7,
          evaluations: Math.floor((evaluations * 0.2) / missed.length),
          start: [leastBad.point],
          enough: 1e-3,
        },
      );
      const found = bench.at(drain(search).best.point);
      yield { done: bench.count(), of: evaluations };
      const alone = violationOf(others(found.verdict)) === 0 ? gotOf(found.verdict, line.requirement) : null;
      list.push({
        requirement: line.requirement,
        asked: line.asked,
        nearest: outward(line, line.got!),
        alone: alone === null ? null : outward(line, alone),
        reason: lawOf(line.requirement),
      });
    }
    return list;
  }
}

/** Selections that are looked into shortly, before the best of them is searched for long. */
const mostShort = 6;

interface Ranked {
  readonly selection: Selection;
  /** Designs of it, the best first. */
  readonly among: readonly Tried[];
}

/** Selections from lists with what was tried of each, the best first. */
function rankedSelections(choices: readonly Choice[], tried: readonly Tried[]): readonly Ranked[] {
  const ordered = [...tried].sort(order);
  return selections(choices)
    .map((selection) => ({ selection, among: ordered.filter(({ point }) => selects(selection, choices, point)) }))
    .filter(({ among }) => among.length > 0)
    .sort((a, b) => order(a.among[0]!, b.among[0]!));
}

const gotOf = (verdict: readonly Verdict[], requirement: string): number | null =>
  verdict.find((line) => line.requirement === requirement)?.got ?? null;

/** A hundredth easier than what was reached, or a tenth of a decibel: so that a search for it finds room. */
function outward({ requirement, asked, got }: Verdict, reached: number): number {
  const easier = got !== null && got < asked ? -1 : 1;
  const level = /noise|loudest|vibration/.test(requirement);
  return level ? reached + easier * 0.1 : reached * (1 + easier * 0.01);
}

/** Fewer designs than this are answered one by one. */
const leastSpanned = 200;
/** Designs that tell of all others. */
const tellingCount = 64;

type TiedTo = Tie & { readonly i: number };

function createTrials(
  choices: readonly Choice[],
  { variation, ties }: { readonly variation: Variation; readonly ties: readonly TiedTo[] },
  brief: Brief,
) {
  const known = new Map<string, Tried>();
  let problems: readonly Problem[] = [];
  let batch: JudgeBatch | null = null;
  const free = choices.length;
  function compute(point: readonly number[], values: readonly number[]): Tried {
    const described = variation.at(values);
    const judged = described.ok ? judge(described.value, brief, { batch, values: values.slice(0, free) }) : described;
    if (!judged.ok) {
      problems = judged.problems;
      return { point, values, measures: {} as Measures, verdict: [], cost: 0, violation: impossible };
    }
    const { measures, verdict } = judged.value;
    return { point, values, measures, verdict, cost: costOf(verdict), violation: violationOf(verdict) };
  }
  const valuesAt = (point: readonly number[]) => {
    const chosen = choices.map((choice, i) => chosenAt(choice, point[i]!));
    return [...chosen, ...ties.map(({ ratio, i }) => ratio * chosen[i]!)];
  };
  return {
    /** Makes ready what all designs share; few are answered one by one. */
    *ready(seed: number, evaluations: number) {
      if (evaluations < leastSpanned) return;
      const points = lowDiscrepancy({ dimensions: free, seed });
      // Every fourth at a corner of what may be chosen, which no even points reach.
      const cornered = (point: readonly number[], i: number) =>
        i % 4 === 0 ? point.map((u) => (u < 0.5 ? 0 : 1)) : point;
      const list = Array.from({ length: tellingCount }, (_, i): Placed[] => {
        const values = valuesAt(cornered(points(i), i));
        const described = variation.at(values);
        return described.ok ? [{ values: values.slice(0, free), microphone: described.value }] : [];
      }).flat();
      const middle = list.find((_, i) => i % 4 !== 0);
      if (middle) batch = yield* readyToJudge(tellingOf(middle, list), brief);
    },
    route: () => ({
      spanned: batch?.count.spanned ?? 0,
      alone: (batch?.count.fallBack ?? 0) + (batch?.count.alone ?? 0),
    }),
    at(point: readonly number[]): Tried {
      const values = valuesAt(point);
      const key = values.join(" ");
      const before = known.get(key);
      if (before !== undefined) return before;
      const tried = compute(point, values);
      known.set(key, tried);
      return tried;
    },
    count: () => known.size,
    tried: () => [...known.values()],
    lastProblems: () => problems,
  };
}

const order = (a: Cost, b: Cost): number => (a.violation === b.violation ? a.cost - b.cost : a.violation - b.violation);

/** What a search makes small: less violation first, then less cost. */
export const worthOf = (verdict: readonly Verdict[]): Cost => ({
  cost: costOf(verdict),
  violation: violationOf(verdict),
});

/** What is missed, in logarithms of the ratio; a "must" counts ten times. */
const violationOf = (verdict: readonly Verdict[]): number =>
  verdict.reduce((sum, line) => {
    const left = reserve(line);
    return left === null || left >= 0 ? sum : sum - left * (line.must ? 10 : 1);
  }, 0);

/** The scarcest reserve counts, the mean of all a little; more than half as much again as asked is no longer worth anything. */
function costOf(verdict: readonly Verdict[]): number {
  const left = verdict.map(reserve).filter((value) => value !== null);
  if (left.length === 0) return 0;
  const capped = left.map((value) => Math.min(value, 0.5));
  return -Math.min(...capped) - (0.1 * capped.reduce((sum, value) => sum + value, 0)) / capped.length;
}

const settings = (paths: readonly ValuePath[], values: readonly number[]): Record<string, string> =>
  Object.fromEntries(paths.map(({ text, kind }, i) => [text, String(plainQuantity(values[i]!, kind, { digits: 5 }))]));

type Aim = { readonly as: string; readonly measure: Measure; readonly sign: 1 | -1 };
const aims: readonly Aim[] = [
  { as: "most sensitive", measure: "sensitivity", sign: 1 },
  { as: "widest band", measure: "bandTo", sign: 1 },
  { as: "quietest", measure: "noise", sign: -1 },
  { as: "takes the loudest", measure: "loudest", sign: 1 },
];

/** The best, then the one that is best in each other respect; only those that really differ. */
function variety(all: readonly Tried[], best: Tried): readonly Tried[] {
  const good = all.filter(({ violation }) => violation === 0);
  const list = [best];
  for (const { measure, sign } of aims) {
    const known = good.filter(({ measures }) => measures[measure] !== null);
    if (known.length === 0) continue;
    const most = known.reduce((a, b) => (sign * (b.measures[measure]! - a.measures[measure]!) > 0 ? b : a));
    if (list.every((other) => apart(most.point, other.point) > 0.05)) list.push(most);
  }
  return list;
}

const apart = (a: readonly number[], b: readonly number[]): number => Math.max(...a.map((x, i) => Math.abs(x - b[i]!)));

function reasonsFor(one: Tried, designs: readonly Tried[]): readonly string[] {
  const reasons = one === designs[0] ? ["balanced"] : [];
  for (const { as, measure, sign } of aims) {
    const value = one.measures[measure];
    if (
      value !== null &&
      designs.every((other) => other === one || sign * (value - (other.measures[measure] ?? value)) >= 0)
    )
      reasons.push(as);
  }
  return reasons;
}

/** Largest number of points of the trade-off that are kept. */
const mostInFront = 60;

/** Designs that no other beats in all of sensitivity, upper band end and noise at once. */
function front(all: readonly Tried[]): readonly Tried[] {
  const score = ({ measures: { sensitivity, bandTo, noise } }: Tried) => [sensitivity ?? 0, bandTo ?? 0, -(noise ?? 0)];
  const scored = all.map((tried) => ({ tried, score: score(tried) }));
  const kept = scored.filter(
    (one) =>
      !scored.some(
        (other) =>
          other !== one &&
          other.score.every((value, i) => value >= one.score[i]!) &&
          other.score.some((value, i) => value > one.score[i]!),
      ),
  );
  kept.sort((a, b) => a.score[0]! - b.score[0]!);
  const stride = Math.max(1, Math.ceil(kept.length / mostInFront));
  return kept.filter((_, i) => i % stride === 0).map(({ tried }) => tried);
}

const nothingBuilt = (problems: readonly Problem[]): readonly Problem[] => [
  {
    code: "nothing-can-be-built",
    path: ["choices"],
    message: `No choice gives a microphone that can be computed. The last reason: ${problems[0]?.message ?? "unknown"}`,
  },
  ...problems,
];
