/**
 * The pieces of a search, each by itself and the same in any thread: what a piece gives follows from the project, the seed and the
 * piece alone.
 */
import { type Cost, searchBox } from "../../numerics/searchBox.ts";
import { lowDiscrepancy } from "../../numerics/sobolSequence.ts";
import { reserve } from "../predict/judge.ts";
import { embedded, type Selection } from "./lists.ts";
import type { Trials, Tried } from "./trials.ts";
import { impossible, missedOf, tightness } from "./worth.ts";

/** Plain data: it travels to a thread. */
export type ChooseJob =
  /** The present design, and the even points from `from` to before `to`. */
  | { readonly kind: "look"; readonly from: number; readonly to: number }
  /** What a selection from lists leaves free, from the points of `start`. */
  | {
      readonly kind: "search";
      readonly selection: Selection;
      readonly start: readonly (readonly number[])[];
      readonly seed: number;
      readonly evaluations: number;
    }
  /** How little one requirement has to yield if all others are to hold. */
  | {
      readonly kind: "yield";
      readonly requirement: string;
      readonly start: readonly number[];
      readonly seed: number;
      readonly evaluations: number;
    };

export interface JobDone {
  /** Designs that it asked for, each once, in that order. */
  readonly tried: readonly Tried[];
  /** Where a search ended, one of `tried`; null for a look. */
  readonly best: number | null;
  readonly settled: boolean;
  /** It was ended before its time. */
  readonly stopped: boolean;
}

/** Yields after each design; the trials are ready. `stopped`: true ends it with what it has. */
export function* runJob(
  trials: Trials,
  job: ChooseJob,
  { seed, stopped }: { readonly seed: number; readonly stopped: () => boolean },
): Generator<{ readonly done: number }, JobDone> {
  const tried: Tried[] = [];
  const places = new Map<Tried, number>();
  function at(point: readonly number[]): Tried {
    const found = trials.at(point);
    if (!places.has(found)) places.set(found, tried.push(found) - 1);
    return found;
  }
  const done = (best: Tried | null, settled: boolean, ended = false): JobDone => ({
    tried,
    best: best && places.get(best)!,
    settled,
    stopped: ended,
  });

  if (job.kind === "look") {
    const points = lowDiscrepancy({ dimensions: trials.choices.length, seed });
    if (job.from === 0) at(trials.start);
    for (let i = job.from; i < job.to; i++) {
      if (stopped()) return done(null, false, true);
      at(points(i));
      yield { done: i + 1 - job.from };
    }
    return done(null, true);
  }
  const { whole, worth, dimensions, start } = job.kind === "search" ? freely(job) : yielding(job);
  if (dimensions === 0) return done(at(whole([])), true);
  const search = searchBox((free) => worth(at(whole(free))), {
    dimensions,
    seed: job.seed,
    evaluations: job.evaluations,
    start,
    enough: job.kind === "search" ? 1e-4 : 1e-3,
  });
  for (;;) {
    const step = search.next();
    if (step.done) return done(at(whole(step.value.best.point)), step.value.settled);
    if (stopped()) return done(null, false, true);
    yield { done: tried.length };
  }

  function freely({ selection, start }: ChooseJob & { kind: "search" }) {
    return {
      whole: (free: readonly number[]) => embedded(selection, trials.choices, free),
      worth: ({ cost, violation }: Tried): Cost => ({ cost, violation }),
      dimensions: selection.filter((item) => item === null).length,
      start: start.map((point) => point.filter((_, i) => selection[i] === null)),
    };
  }
  function yielding({ requirement, start }: ChooseJob & { kind: "yield" }) {
    return {
      whole: (free: readonly number[]) => free,
      worth: (found: Tried): Cost => {
        if (found.violation >= impossible) return { cost: impossible, violation: impossible };
        const own = found.verdict.find((line) => line.requirement === requirement);
        const left = own === undefined ? null : reserve(own);
        const others = found.verdict.filter((line) => line !== own);
        const { flatness } = found;
        const violation = missedOf(others) + tightness({ verdict: others, flatness });
        return { cost: left === null ? impossible : -left, violation };
      },
      dimensions: trials.choices.length,
      start: [start],
    };
  }
}
