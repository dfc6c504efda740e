/**
 * The specimens of a spread, one by one: specimen i follows from the seed and i alone, so that a run cut into parts gives the same
 * numbers to the bit.
 */

import type { Placed } from "../../microphone/span/figures.ts";
import { pow } from "../../numerics/power.ts";
import { lowDiscrepancy } from "../../numerics/sobolSequence.ts";
import { mixedPoints, replicates } from "../../numerics/varianceIndices.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";
import { type Brief, readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { type Variation, vary } from "../../project/paths.ts";
import { readSpreads, type Spreads } from "../../project/tolerances.ts";
import { type Judged, judge, measures, reserve } from "../predict/judge.ts";
import { type JudgeBatch, prepareJudging, type Telling, tellingOf } from "../predict/judgeBatch.ts";
import { spreadDefaults } from "./spreadDefaults.ts";

/** What is kept of each specimen; null: not computed, or no such microphone. */
export interface SpecimenRow {
  /** In the order of `measures` (judge.ts). */
  readonly measures: readonly (number | null)[];
  /** Reserve of each requirement, in the order of the brief's verdict; [] where there is no such microphone. */
  readonly reserves: readonly (number | null)[];
  /** Estimate of the response's relative error [-]; null where there is no such microphone. */
  readonly estimate: number | null;
  /** Level re that at the reference [dB] at the band's frequencies; only for specimens of the yield. */
  readonly level: readonly number[];
  /** Answered alone, not by what spans all specimens; absent: it was spanned. */
  readonly alone?: true;
}

export interface Plan {
  readonly spreads: Spreads;
  readonly variation: Variation;
  readonly brief: Brief;
  /** Requirements in the order of `reserves`. */
  readonly requirements: readonly string[];
  /** Specimens of the yield, then those of the indices. */
  readonly count: number;
  readonly influence: number;
  readonly total: number;
  readonly frequencies: readonly number[];
  /** Makes ready what all specimens share; a run of many asks for it before the first one, each of its parts the same. */
  readonly ready: () => Generator<unknown, void>;
  /** Judges one specimen of 0 .. total - 1. */
  readonly specimen: (index: number) => SpecimenRow;
  /** Point of the unit cube of specimen `index` of the yield. */
  readonly point: (index: number) => readonly number[];
  /** Judges a point of the unit cube, with the tolerances' widths multiplied. */
  readonly judgeAt: (point: readonly number[], factors?: readonly number[]) => Outcome<Judged>;
  /** Judges values in the order of the tolerances [SI]. */
  readonly judgeValues: (values: readonly number[]) => Outcome<Judged>;
}

export interface SpreadOptions {
  /** Specimens of the yield; `spreadDefaults` where absent. */
  readonly count?: number;
  /** Points a set for the indices of influence; `spreadDefaults` where absent, 0: none. */
  readonly influence?: number;
  readonly seed?: number;
}

/** Frequencies of the percentile bands. */
const bandPoints = 40;

/**
 * Problems: those of `readSpreads`, `no-tolerances`, `bad-count`, `too-many-tolerances`, those of `vary`, and those of the design
 * itself.
 */
export function planSpread(
  project: Project,
  { count = spreadDefaults.count, influence = spreadDefaults.influence, seed = spreadDefaults.seed }: SpreadOptions,
): Outcome<Plan> {
  const spreads = readSpreads(project);
  if (!spreads.ok) return spreads;
  const { tolerances } = spreads.value;
  const problems = [...countProblem(count, 1, "count"), ...countProblem(influence, 0, "influence")];
  if (tolerances.length === 0)
    problems.push({
      code: "no-tolerances",
      path: ["tolerances"],
      message:
        'Nothing varies. Add "tolerances", for example { "path": "microphone.film.gap", "kind": "uniform", "half": "2 um" }, or the ranges of the site.',
    });
  if (tolerances.length > 10)
    problems.push({
      code: "too-many-tolerances",
      path: ["tolerances"],
      message: `Found ${tolerances.length} values that vary; the points of a spread are even in at most 10.`,
    });
  const variation = vary(
    project,
    tolerances.map(({ path }) => path.steps),
  );
  if (!variation.ok || problems.length > 0) return refuse(...problems, ...(variation.ok ? [] : variation.problems));
  const brief = readBrief(project);
  const middle = variation.value.at(tolerances.map((one) => one.middle));
  const judged = middle.ok ? judge(middle.value, brief) : middle;
  if (!judged.ok) return judged;
  const n = tolerances.length;
  const [from, to] = [brief.band?.from ?? 20, brief.band?.to ?? 20e3];
  const frequencies = Array.from({ length: bandPoints }, (_, i) => from * pow((1.5 * to) / from, i / (bandPoints - 1)));
  const each = Math.ceil(influence / replicates);
  const perPoint = n + 2;
  const point = lowDiscrepancy({ dimensions: n, seed });
  const parts = Array.from({ length: replicates }, (_, replicate) => mixedPoints({ dimensions: n, seed, replicate }));
  const total = count + each * replicates * perPoint;
  let batch: JudgeBatch | null = null;
  const shared = () => tellingAbout(spreads.value, variation.value);
  function* ready(): Generator<unknown, void> {
    if (batch !== null || total < leastSpanned) return;
    const telling = shared();
    batch = telling && (yield* prepareJudging(telling, brief));
  }
  const judgeValues = (values: readonly number[], frequencies: readonly number[] = []) => {
    const described = variation.value.at(values);
    return described.ok ? judge(described.value, brief, { frequencies, batch, values }) : described;
  };
  const judgeAt = (at: readonly number[], factors?: readonly number[], wanted: readonly number[] = []) =>
    judgeValues(factors === undefined ? spreads.value.values(at) : spreads.value.scaled(factors)(at), wanted);
  const specimen = (index: number): SpecimenRow => {
    if (index < count) return rowOf(judgeAt(point(index), undefined, frequencies));
    const rest = index - count;
    const replicate = Math.floor(rest / (each * perPoint));
    const within = rest - replicate * each * perPoint;
    const { a, b, mixed } = parts[replicate]!(Math.floor(within / perPoint));
    return rowOf(judgeAt([a, b, ...mixed][within % perPoint]!));
  };
  return answer(
    {
      spreads: spreads.value,
      variation: variation.value,
      brief,
      requirements: judged.value.verdict.map(({ requirement }) => requirement),
      count,
      influence: each * replicates,
      total,
      frequencies,
      ready,
      specimen,
      point,
      judgeAt: (at, factors) => judgeAt(at, factors),
      judgeValues,
    },
    spreads.remarks,
  );
}

/** Fewer specimens than this are answered one by one. */
const leastSpanned = 200;
/** Specimens that tell of all others, a little farther apart than those. */
const tellingCount = 64;
const farther = 1.2;

/** The design in the middle of all tolerances, and specimens around it; null where that can't be made. */
function tellingAbout({ tolerances, scaled }: Spreads, variation: Variation): Telling | null {
  const placed = (values: readonly number[]): Placed[] => {
    const described = variation.at(values);
    return described.ok ? [{ values, microphone: described.value }] : [];
  };
  const [first] = placed(tolerances.map(({ middle }) => middle));
  const points = lowDiscrepancy({ dimensions: tolerances.length, seed: 5 });
  const valuesAt = scaled(tolerances.map(() => farther));
  const list = Array.from({ length: tellingCount }, (_, i) => placed(valuesAt(points(i)))).flat();
  return first === undefined ? null : tellingOf(first, list);
}

const rowOf = (judged: Outcome<Judged>): SpecimenRow =>
  judged.ok
    ? {
        measures: measures.map((measure) => judged.value.measures[measure]),
        reserves: judged.value.verdict.map(reserve),
        estimate: judged.value.estimate,
        level: judged.value.level,
        ...(judged.value.route === "alone" && { alone: true }),
      }
    : { measures: [], reserves: [], estimate: null, level: [] };

/** Whether a specimen meets everything that is computed. */
export const meets = ({ reserves, estimate }: SpecimenRow): boolean =>
  estimate !== null && reserves.every((value) => value === null || value >= 0);

/** Scarcest reserve; null where there is no such microphone or nothing is asked. */
export const scarcest = ({ reserves }: SpecimenRow): number | null => {
  const known = reserves.filter((value) => value !== null);
  return known.length === 0 ? null : Math.min(...known);
};

const mostSpecimens = 1_000_000;

const countProblem = (count: number, least: number, name: string) =>
  Number.isInteger(count) && count >= least && count <= mostSpecimens
    ? []
    : [
        {
          code: "bad-count",
          path: [name],
          message: `Found ${count}; needed: a whole number from ${least} to ${mostSpecimens}.`,
        },
      ];
