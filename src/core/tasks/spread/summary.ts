/** From the rows of all specimens to what they say; a pure function of the rows, so that parts put together give the same. */
import { type ShareInterval, shareInterval } from "../../numerics/shareInterval.ts";
import { indexOf, overParts, replicates } from "../../numerics/varianceIndices.ts";
import { type Measure, measures } from "../predict/judge.ts";
import { meets, type Plan, type SpecimenRow, scarcest } from "./specimens.ts";

export interface Influence {
  readonly path: string;
  readonly label: string;
  /** Shares of the variance, and their standard errors [-]. */
  readonly first: number;
  readonly total: number;
  readonly firstStandard: number;
  readonly totalStandard: number;
}

export interface SpreadSummary {
  readonly yield: ShareInterval;
  /** Share of specimens that meet each requirement; null: not computed. */
  readonly byRequirement: readonly { readonly requirement: string; readonly yield: ShareInterval | null }[];
  /** On the scarcest reserve: what decides whether a specimen passes. */
  readonly influence: readonly Influence[];
  /** On each measure that varies. */
  readonly influenceOn: Readonly<Partial<Record<Measure, readonly Influence[]>>>;
  /** Mean, standard deviation and quantiles of each measure over the specimens of the yield. */
  readonly measures: Readonly<Partial<Record<Measure, Quantiles>>>;
  /** Level re that at the reference [dB] at frequencies [Hz]: 2.5, 16, 50, 84 and 97.5 of a hundred specimens lie below. */
  readonly band: { readonly frequency: readonly number[]; readonly levels: readonly (readonly number[])[] };
  /** Specimens of the yield that can't be made or computed: buckled, a guide outside ... */
  readonly impossible: number;
  /** Largest and median estimate of a response's relative error [-]. */
  readonly estimate: { readonly median: number; readonly worst: number };
  /** Specimens of the yield answered by what spans them all, and those that it did not reach. */
  readonly route: { readonly spanned: number; readonly alone: number };
}

export interface Quantiles {
  readonly mean: number;
  readonly standard: number;
  /** 2.5, 16, 50, 84, 97.5 per cent. */
  readonly at: readonly number[];
}

const percentiles = [0.025, 0.16, 0.5, 0.84, 0.975] as const;

export function summarize(plan: Plan, rows: readonly SpecimenRow[]): SpreadSummary {
  const made = rows.slice(0, plan.count);
  const built = made.filter(({ estimate }) => estimate !== null);
  const estimates = built.map(({ estimate }) => estimate!).sort((a, b) => a - b);
  return {
    yield: shareInterval(made.filter(meets).length, made.length),
    byRequirement: plan.requirements.map((requirement, i) => ({
      requirement,
      yield: built.some(({ reserves }) => reserves[i] !== null)
        ? shareInterval(built.filter(({ reserves }) => (reserves[i] ?? -1) >= 0).length, made.length)
        : null,
    })),
    influence: influenceOf(plan, rows, scarcest),
    influenceOn: Object.fromEntries(
      measures.flatMap((measure, i) => {
        const list = influenceOf(plan, rows, (row) => row.measures[i] ?? null);
        return list.length === 0 ? [] : [[measure, list]];
      }),
    ),
    measures: Object.fromEntries(
      measures.flatMap((measure, i) => {
        const values = built.map((row) => row.measures[i] ?? null).filter((value) => value !== null);
        return values.length === 0 ? [] : [[measure, quantilesOf(values)]];
      }),
    ),
    band: {
      frequency: plan.frequencies,
      levels: percentiles.map((p) =>
        plan.frequencies.map((_, k) =>
          quantile(
            built.map(({ level }) => level[k]!).sort((a, b) => a - b),
            p,
          ),
        ),
      ),
    },
    impossible: made.length - built.length,
    estimate: { median: quantile(estimates, 0.5), worst: estimates.at(-1) ?? 0 },
    route: {
      spanned: built.filter(({ alone }) => alone !== true).length,
      alone: built.filter(({ alone }) => alone === true).length,
    },
  };
}

function quantilesOf(values: readonly number[]): Quantiles {
  const sorted = [...values].sort((a, b) => a - b);
  const mean = sorted.reduce((sum, value) => sum + value, 0) / sorted.length;
  const squares = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    mean,
    standard: Math.sqrt(squares / Math.max(1, sorted.length - 1)),
    at: percentiles.map((p) => quantile(sorted, p)),
  };
}

/** Between the two nearest of a sorted list, definition 7 of Hyndman and Fan 1996 (from memory); 0 of an empty one. */
function quantile(sorted: readonly number[], p: number): number {
  if (sorted.length === 0) return 0;
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below]!;
  return low + (place - below) * ((sorted[below + 1] ?? low) - low);
}

/** Indices of one number of each row; none where a set holds specimens without that number, or it does not vary. */
function influenceOf(
  plan: Plan,
  rows: readonly SpecimenRow[],
  read: (row: SpecimenRow) => number | null,
): readonly Influence[] {
  const { tolerances } = plan.spreads;
  const n = tolerances.length;
  const each = plan.influence / replicates;
  if (each === 0) return [];
  const parts: { first: number; total: number }[][] = [];
  for (let r = 0; r < replicates; r++) {
    const a: number[] = [];
    const b: number[] = [];
    const mixed: number[][] = tolerances.map(() => []);
    for (let k = 0; k < each; k++) {
      const at = plan.count + (r * each + k) * (n + 2);
      const values = Array.from({ length: n + 2 }, (_, i) => read(rows[at + i]!));
      // A specimen that can't be made belongs to no smooth function: its whole row of the table is left out.
      if (values.some((value) => value === null)) continue;
      a.push(values[0]!);
      b.push(values[1]!);
      for (let i = 0; i < n; i++) mixed[i]!.push(values[i + 2]!);
    }
    if (a.length < 2) return [];
    parts.push(tolerances.map((_, i) => indexOf({ a, b, mixed }, i)));
  }
  const list = tolerances.map(({ path }, i): Influence => {
    const first = overParts(parts.map((part) => part[i]!.first));
    const total = overParts(parts.map((part) => part[i]!.total));
    return {
      path: path.text,
      label: path.label,
      first: first.value,
      total: total.value,
      firstStandard: first.standard,
      totalStandard: total.standard,
    };
  });
  return list.every(({ total }) => total === 0) ? [] : list.sort((x, y) => y.total - x.total);
}
