/**
 * From what is wanted to what to build: a search over everything that may be chosen, with the whole model at every point.
 * Deterministic by seed, in one thread or in many. What counts first is how far the requirements are missed, then how much of the
 * scarcest is left over (worth.ts).
 */

import { answer, type Outcome, refuse } from "../../problem.ts";
import type { Choice } from "../../project/choices.ts";
import type { Project } from "../../project/load.ts";
import type { ValuePath } from "../../project/paths.ts";
import { plainQuantity } from "../../quantity/format.ts";
import type { Measures } from "../predict/judge.ts";
import type { Verdict } from "../predict/prediction.ts";
import { chooseDefaults } from "./chooseDefaults.ts";
import { type ChooseJob, type JobDone, runJob } from "./jobs.ts";
import { type Selection, selections, selects } from "./lists.ts";
import { nothingBuilt, type Refusal, refusalOf } from "./refusal.ts";
import { createTrials, type Trials, type Tried } from "./trials.ts";
import { front, reasonsFor, variety } from "./variety.ts";
import { impossible, order } from "./worth.ts";

export interface ChosenDesign {
  /** Values as a project file says them, ready for `--set`. */
  readonly set: Readonly<Record<string, string>>;
  readonly verdict: readonly Verdict[];
  readonly measures: Measures;
  /**
   * Natural logarithm of the scarcest requirement's ratio to what is asked, of a band no more than what is left of its room; null:
   * nothing is asked that is computed.
   */
  readonly reserve: number | null;
  /** Which requirement that is. */
  readonly scarcest: string | null;
  /** Why it is in the list: "balanced", "most sensitive" ... */
  readonly as: readonly string[];
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
    /** It was ended before its time: no more is said than what was tried until then. */
    readonly stopped: boolean;
    /** Whether the searches had come to rest before their calls ran out. */
    readonly settled: boolean;
    /** Scarcest reserve that each search from its own start ended with: how well they agree. */
    readonly ends: readonly number[];
    /** Evenly spread designs looked at, and how many are better than what the search that was told of none of them ended with. */
    readonly scanned: number;
    readonly scannedBetter: number;
    /** Designs answered by what spans them all, and those that it did not reach. */
    readonly route: { readonly spanned: number; readonly alone: number };
  };
}

export interface ChooseOptions {
  readonly seed?: number;
  /** Microphones to compute at most, all searches together; `chooseDefaults` where absent. */
  readonly evaluations?: number;
}

/**
 * Yields while it searches, in one thread. `stopped` is asked between two designs: true ends the search where it is, with what it
 * has. Problems: those of `createTrials` and `chooseSteps`.
 */
export function* choose(
  project: Project,
  {
    seed = chooseDefaults.seed,
    evaluations = chooseDefaults.evaluations,
    stopped = () => false,
  }: ChooseOptions & { readonly stopped?: () => boolean } = {},
): Generator<{ readonly done: number; readonly of: number }, Outcome<Choices>> {
  const trials = createTrials(project, { seed, evaluations });
  if (!trials.ok) return trials;
  const steps = chooseSteps(trials.value, { seed, evaluations });
  for (const _ of trials.value.ready()) yield { done: 0, of: evaluations };
  let done = 0;
  for (let step = steps.next([]); ; ) {
    if (step.done) return step.value.ok ? { ...step.value, remarks: trials.remarks } : step.value;
    const results: JobDone[] = [];
    for (const job of step.value) {
      const work = runJob(trials.value, job, { seed, stopped });
      let one = work.next();
      for (; !one.done; one = work.next()) yield { done: done + one.value.done, of: evaluations };
      done += one.value.tried.length;
      results.push(one.value);
    }
    step = steps.next(results);
  }
}

/**
 * The plan of a search: yields what is to be done next, in pieces that know nothing of one another, and is given what they gave, in
 * that order; null for one that was never begun. What is stopped is followed by nothing: what is there is put together.
 *
 * Problems: `nothing-asked` for a brief without requirements that are computed, `nothing-can-be-built`.
 */
export function* chooseSteps(
  { choices, variation }: Pick<Trials, "choices" | "variation">,
  { seed = chooseDefaults.seed, evaluations = chooseDefaults.evaluations }: ChooseOptions,
): Generator<readonly ChooseJob[], Outcome<Choices>, readonly (JobDone | null)[]> {
  const known = new Map<string, Tried>();
  let isStopped = false;
  /** Has a list of jobs done and keeps what they tried; where each ended. */
  function* doing(
    jobs: readonly ChooseJob[],
  ): Generator<readonly ChooseJob[], readonly Ended[], readonly (JobDone | null)[]> {
    const results = isStopped ? [] : yield jobs;
    isStopped ||= results.some((one) => one === null || one.stopped);
    return results.map((one) => {
      for (const tried of one?.tried ?? []) if (!known.has(keyOf(tried))) known.set(keyOf(tried), tried);
      return { best: one === null || one.best === null ? null : one.tried[one.best]!, settled: one?.settled ?? false };
    });
  }
  const all = () => [...known.values()];

  // An even look over everything, so that the search starts in the right valley and says what it would have missed.
  const scanned = Math.max(16, Math.floor(evaluations * 0.2));
  yield* doing(pieces(scanned).map(([from, to]) => ({ kind: "look", from, to })));
  const scan = all();
  const bestSeen = scan.toSorted(order)[0];
  if (bestSeen === undefined || bestSeen.violation >= impossible) return refuse(...nothingBuilt(scan));
  if (bestSeen.verdict.length === 0)
    return refuse({
      code: "nothing-asked",
      path: ["brief"],
      message: "The brief asks for nothing that is computed, so every design is as good as another. Add a requirement.",
    });

  // A short search in the selections from lists that look best, then two long ones in that which is best: the second without
  // what the first is given, so that they can agree.
  const looked = rankedSelections(choices, scan);
  const short = looked.length > 1 ? looked.slice(0, mostShort) : [];
  const searchIn = (
    { selection, among }: Ranked,
    its: { readonly seed: number; readonly share: number },
  ): ChooseJob => ({
    kind: "search",
    selection,
    start: among.slice(0, mostStarts).map(({ point }) => point),
    seed: its.seed,
    evaluations: Math.floor(evaluations * its.share),
  });
  yield* doing(short.map((one, k) => searchIn(one, { seed: seed + 11 * k, share: 0.2 / short.length })));
  const leading = rankedSelections(choices, all())[0]!;
  const share = short.length > 0 ? 0.2 : 0.3;
  const long = yield* doing([
    searchIn(leading, { seed, share }),
    searchIn({ ...leading, among: [] }, { seed: seed + 101, share }),
  ]);
  const best = all().toSorted(order)[0]!;
  const unaided = long[1]?.best ?? best;
  const missed = best.verdict.filter(({ met }) => met === false);
  const yields = yield* doing(
    missed.map(({ requirement }) => ({
      kind: "yield",
      requirement,
      start: best.point,
      seed: seed + 7,
      evaluations: Math.floor((evaluations * 0.2) / missed.length),
    })),
  );
  const designs = missed.length > 0 ? [best] : variety(all(), best);
  const set = (tried: Tried) => settings(variation.paths, tried.values);
  const routes = all().map(({ route }) => route);
  return answer({
    designs: designs.map((tried) => ({
      set: set(tried),
      verdict: tried.verdict,
      measures: tried.measures,
      reserve: tried.scarcest?.left ?? null,
      scarcest: tried.scarcest?.requirement ?? null,
      as: missed.length > 0 ? ["least bad"] : reasonsFor(tried, designs),
    })),
    refused: missed.map((line, i) => refusalOf(line, yields[i]?.best ?? null)),
    tradeOff: front(all().filter(({ violation }) => violation < impossible)).map((tried) => ({
      set: set(tried),
      measures: tried.measures,
    })),
    search: {
      seed,
      evaluations: known.size,
      stopped: isStopped,
      settled: long.length > 0 && long.every(({ settled }) => settled),
      ends: long.flatMap(({ best: end }) => (end === null ? [] : [end.scarcest?.left ?? 0])),
      scanned: Math.min(scanned, scan.length - 1),
      scannedBetter: scan.filter((one) => order(one, unaided) < 0).length,
      route: {
        spanned: routes.filter((route) => route === "span").length,
        alone: routes.filter((route) => route === "alone").length,
      },
    },
  });
}

interface Ended {
  readonly best: Tried | null;
  readonly settled: boolean;
}

const keyOf = ({ values }: Tried): string => values.join(" ");

/** Points that an even look is cut into: so few that threads end it together. */
const piece = 40;

const pieces = (count: number): readonly (readonly [from: number, to: number])[] =>
  Array.from({ length: Math.ceil(count / piece) }, (_, i) => [i * piece, Math.min(count, (i + 1) * piece)]);

/** Selections that are looked into shortly, before the best of them is searched for long. */
const mostShort = 6;

/** Designs that a search is given to begin with. */
const mostStarts = 6;

interface Ranked {
  readonly selection: Selection;
  /** Designs of it, the best first. */
  readonly among: readonly Tried[];
}

/** Selections from lists with what was tried of each, the best first. */
function rankedSelections(choices: readonly Choice[], tried: readonly Tried[]): readonly Ranked[] {
  const ordered = tried.toSorted(order);
  return selections(choices)
    .map((selection) => ({ selection, among: ordered.filter(({ point }) => selects(selection, choices, point)) }))
    .filter(({ among }) => among.length > 0)
    .sort((a, b) => order(a.among[0]!, b.among[0]!));
}

const settings = (paths: readonly ValuePath[], values: readonly number[]): Record<string, string> =>
  Object.fromEntries(paths.map(({ text, kind }, i) => [text, String(plainQuantity(values[i]!, kind, { digits: 5 }))]));
