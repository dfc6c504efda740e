/** What a column of times says of the sampling: its step, gaps, and what must be settled before anything is fitted. */
import { nthSmallest } from "../numerics/nthSmallest.ts";
import { cube } from "../numerics/power.ts";
import type { Problem } from "../problem.ts";

export interface Gap {
  /** Row before the gap, from 0. */
  readonly after: number;
  /** Samples that are missing there. */
  readonly missing: number;
}

export interface TimeBase {
  /** First time [s]. */
  readonly start: number;
  /** Slope of the times over the number of the sample, those that are missing counted [s]. */
  readonly step: number;
  /** 1 / step [Hz]. */
  readonly sampling: number;
  /** Standard deviation of the steps about their median, as a share of it; gaps left out. */
  readonly jitter: number;
  readonly gaps: readonly Gap[];
  /** The times were printed with so few digits that steps repeat; an even spacing fits them all. */
  readonly rounded: boolean;
  /** Standard uncertainty of the step where the times are rounded, as a share of it; 0 where they are not. */
  readonly spacing: number;
}

/** Problems: `time-goes-backwards`, `time-repeats`, `two-time-bases`, `time-missing`. `lineOf`: line of a row, from 1. */
export function timeBaseOf(
  times: Float64Array,
  lineOf: (row: number) => number,
): { readonly base: TimeBase | null; readonly problems: readonly Problem[] } {
  const count = times.length;
  const problems: Problem[] = [];
  const bad = times.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    problems.push(at("time-missing", lineOf(bad), "has no time; needed: a time in every row that is used."));
  const steps = new Float64Array(Math.max(0, count - 1));
  const positive = new Float64Array(steps.length);
  let [forward, smallest] = [0, Number.POSITIVE_INFINITY];
  for (let i = 1; i < count; i++) {
    const step = times[i]! - times[i - 1]!;
    steps[i - 1] = step;
    if (step > 0) positive[forward++] = step;
    if (step > 0 && step < smallest) smallest = step;
  }
  if (forward === 0) {
    if (count > 1 && problems.length === 0)
      problems.push(
        at(
          "time-goes-backwards",
          lineOf(1),
          "is not later than the one before; needed: times that rise. Is it the time column?",
        ),
      );
    return { base: null, problems };
  }
  const mean = evenStep(times);
  const rounded = isRounded(times, mean, smallest, steps);
  const median = nthSmallest(positive.subarray(0, forward), forward >> 1);
  const step = rounded ? mean : countedStep(times, steps, median);
  const base: TimeBase = {
    start: times[0]!,
    step,
    sampling: 1 / step,
    jitter: rounded ? 0 : jitterOf(steps, step),
    gaps: rounded ? [] : gapsOf(steps, median),
    rounded,
    spacing: rounded ? spacingOf(times, mean) : 0,
  };
  if (!rounded && bad < 0) problems.push(...disorder(steps, lineOf), ...twoBases(steps, median, lineOf));
  return { base, problems };
}

const at = (code: string, line: number, says: string): Problem => ({
  code,
  path: ["line", line],
  message: `Line ${line} ${says}`,
});

/** Slope of the straight line through all times, over the number of the row [s]. */
function evenStep(times: Float64Array): number {
  const middle = (times.length - 1) / 2;
  let [sum, squares] = [0, 0];
  for (let i = 0; i < times.length; i++) {
    sum += (i - middle) * (times[i]! - times[0]!);
    squares += (i - middle) ** 2;
  }
  return sum / squares;
}

/** Of the slope of a straight line: what the times scatter about it, times sqrt(12 / n^3), over the step. */
function spacingOf(times: Float64Array, mean: number): number {
  const count = times.length;
  let [sum, squares] = [0, 0];
  for (let i = 0; i < count; i++) {
    const rest = times[i]! - times[0]! - i * mean;
    sum += rest;
    squares += rest * rest;
  }
  const scatter = Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
  return (scatter * Math.sqrt(12 / cube(count))) / mean;
}

/** How far the step may lie from the median one: further, and the rows are not counted right. */
const trusted = 0.02;

/**
 * Slope of the times over the number of the sample, gaps counted by the median step. The median itself is one of the printed
 * steps: 20.8 us where 20.8333 are meant, which is 0.16 % in every frequency.
 */
function countedStep(times: Float64Array, steps: Float64Array, median: number): number {
  const count = times.length;
  let [n, sumN, sumT] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    if (i > 0) n += Math.max(1, Math.round(steps[i - 1]! / median));
    sumN += n;
    sumT += times[i]! - times[0]!;
  }
  let [top, below] = [0, 0];
  n = 0;
  for (let i = 0; i < count; i++) {
    if (i > 0) n += Math.max(1, Math.round(steps[i - 1]! / median));
    top += (n - sumN / count) * (times[i]! - times[0]! - sumT / count);
    below += (n - sumN / count) ** 2;
  }
  const slope = top / below;
  return Math.abs(slope / median - 1) < trusted ? slope : median;
}

/** Every time lies within one last printed digit of an even spacing, and some repeat. */
function isRounded(times: Float64Array, mean: number, quantum: number, steps: Float64Array): boolean {
  const repeats = steps.reduce((sum, step) => sum + (step === 0 ? 1 : 0), 0);
  if (!(mean > 0) || quantum > 20 * mean || repeats < 0.1 * steps.length) return false;
  return times.every((time, i) => Math.abs(time - times[0]! - i * mean) <= 1.5 * quantum);
}

function jitterOf(steps: Float64Array, step: number): number {
  let [sum, count] = [0, 0];
  for (const value of steps)
    if (value > 0 && value < 1.5 * step) {
      sum += (value / step - 1) ** 2;
      count += 1;
    }
  return count > 1 ? Math.sqrt(sum / count) : 0;
}

function gapsOf(steps: Float64Array, step: number): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 0; i < steps.length; i++)
    if (steps[i]! > 1.5 * step) gaps.push({ after: i, missing: Math.max(1, Math.round(steps[i]! / step) - 1) });
  return gaps;
}

function disorder(steps: Float64Array, lineOf: (row: number) => number): Problem[] {
  const back = steps.findIndex((step) => step < 0);
  const same = steps.indexOf(0);
  const count = (is: (step: number) => boolean) => steps.reduce((sum, step) => sum + (is(step) ? 1 : 0), 0);
  const found: Problem[] = [];
  if (back >= 0)
    found.push(
      at(
        "time-goes-backwards",
        lineOf(back + 1),
        `is earlier than the one before (${count((step) => step < 0)} such rows); needed: times that rise. Are several records in one file? Choose one by its part.`,
      ),
    );
  if (same >= 0)
    found.push(
      at(
        "time-repeats",
        lineOf(same + 1),
        `repeats the time before (${count((step) => step === 0)} such rows); needed: one row a time. Export the times with more digits, or give the sampling instead.`,
      ),
    );
  return found;
}

/** The first half and what follows go at different paces: more than one step in ten is near another common step. */
function twoBases(steps: Float64Array, step: number, lineOf: (row: number) => number): Problem[] {
  const is = (value: number, pace: number) => Math.abs(value / pace - 1) < 0.25;
  const others = steps.filter((value) => value > 0 && !is(value, step)).sort();
  const other = others[others.length >> 1];
  if (other === undefined || steps.length < 20) return [];
  const same = others.filter((value) => is(value, other)).length;
  if (same < 0.1 * steps.length) return [];
  const first = steps.findIndex((value) => is(value, is(steps[0]!, step) ? other : step));
  const [slow, quick] = [Math.max(step, other), Math.min(step, other)];
  return [
    at(
      "two-time-bases",
      lineOf(first + 1),
      `changes the step between samples (${slow.toPrecision(3)} s and ${quick.toPrecision(3)} s occur); needed: one. Use the part before or after it.`,
    ),
  ];
}
