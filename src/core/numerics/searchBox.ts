/**
 * The least of a function on the unit cube, with conditions: differential evolution that learns its own step, then the simplex
 * of Nelder and Mead from the best point. Needs values only; the same seed gives the same points.
 *
 * Source: [storn-1997] the difference step; [tanabe-2014] memory of what worked and a shrinking population; [deb-2000] comparison
 * of points that break conditions; [nelder-1965]. Details from memory; judged by known optima in truth/spread.truth.ts.
 */
import type { Progress } from "./progress.ts";
import { seededNormal, seededUniform } from "./random.ts";

export interface Cost {
  /** What is made small. */
  readonly cost: number;
  /** 0: allowed; else how far from being allowed. */
  readonly violation: number;
}

export interface SearchOptions {
  readonly dimensions: number;
  readonly seed: number;
  /** Most calls of the function. */
  readonly evaluations: number;
  /** Points to begin with, on the unit cube. */
  readonly start?: readonly (readonly number[])[];
  /** Cost below which a difference does not matter; relative to the scatter of the population where absent. */
  readonly enough?: number;
}

export interface Found extends Cost {
  readonly point: readonly number[];
}

export interface SearchResult {
  readonly best: Found;
  readonly evaluations: number;
  /** Whether all points of the last generation had come together; else the calls ran out first. */
  readonly settled: boolean;
}

/** Whether the first is better: allowed before not allowed, then less violation, then less cost. */
export const better = (a: Cost, b: Cost): boolean =>
  a.violation === b.violation ? a.cost < b.cost : a.violation < b.violation;

/** Yields after each call of the function. */
export function* searchBox(
  f: (u: readonly number[]) => Cost,
  { dimensions, seed, evaluations, start = [], enough }: SearchOptions,
): Generator<Progress, SearchResult> {
  const uniform = seededUniform(seed);
  const normal = seededNormal(seed + 1);
  let calls = 0;
  function* at(point: readonly number[]): Generator<Progress, Found> {
    calls++;
    const found = { point, ...f(point) };
    yield { done: calls, of: evaluations };
    return found;
  }
  const first = Math.max(12, Math.min(60, 8 * dimensions));
  // A fifth of the calls is kept for the simplex.
  const wide = Math.floor(evaluations * 0.8);
  const others = Array.from({ length: Math.max(0, first - start.length) }, () =>
    Array.from({ length: dimensions }, uniform),
  );
  let population: Found[] = [];
  for (const point of [...start.slice(0, first), ...others]) population.push(yield* at(point));
  const memory = Array.from({ length: 6 }, () => ({ step: 0.5, crossing: 0.7 }));
  let oldest = 0;
  const bestOf = (points: readonly Found[]) => points.reduce((a, b) => (better(b, a) ? b : a));
  let settled = false;

  while (calls < wide && !settled) {
    const worked: { step: number; crossing: number; gain: number }[] = [];
    const ordered = population.toSorted((a, b) => (better(a, b) ? -1 : better(b, a) ? 1 : 0));
    const leaders = Math.max(2, Math.round(0.15 * population.length));
    const next: Found[] = [];
    for (const one of population) {
      const { step, crossing } = drawn(memory[Math.floor(uniform() * memory.length)] as (typeof memory)[number]);
      const leader = (ordered[Math.floor(uniform() * leaders)] as Found).point;
      const a = (population[Math.floor(uniform() * population.length)] as Found).point;
      const b = (population[Math.floor(uniform() * population.length)] as Found).point;
      const certain = Math.floor(uniform() * dimensions);
      const trial = one.point.map((x, j) => {
        if (j !== certain && uniform() >= crossing) return x;
        const y = x + step * ((leader[j] as number) - x) + step * ((a[j] as number) - (b[j] as number));
        // Beyond a wall: halfway between it and where the point was.
        return y < 0 ? x / 2 : y > 1 ? (1 + x) / 2 : y;
      });
      const tried = yield* at(trial);
      if (better(one, tried)) next.push(one);
      else {
        next.push(tried);
        if (better(tried, one)) worked.push({ step, crossing, gain: gainOf(one, tried) });
      }
    }
    const gains = worked.reduce((sum, { gain }) => sum + gain, 0);
    if (gains > 0) {
      const mean = (of: "step" | "crossing") => {
        const squares = worked.reduce((sum, one) => sum + one.gain * one[of] ** 2, 0);
        return (
          squares /
          Math.max(
            1e-12,
            worked.reduce((sum, one) => sum + one.gain * one[of], 0),
          )
        );
      };
      memory[oldest++ % memory.length] = { step: mean("step"), crossing: mean("crossing") };
    }
    const kept = Math.max(8, Math.round(first + ((8 - first) * calls) / wide));
    population = next.length > kept ? next.toSorted((a, b) => (better(a, b) ? -1 : 1)).slice(0, kept) : next;
    const best = bestOf(population);
    const spread = Math.max(
      ...population.map(({ cost, violation }) => Math.abs(cost - best.cost) + violation - best.violation),
    );
    // Where nothing is allowed the points must lie together, too: a plain of what is equally forbidden is no rest.
    const together = best.violation === 0 || population.every(({ point }) => apart(point, best.point) < 1e-3);
    settled = together && spread <= (enough ?? 1e-9 * (Math.abs(best.cost) + 1e-3));
  }

  const polished = yield* simplex(at, bestOf(population), {
    dimensions,
    calls: () => calls,
    atMost: evaluations,
    enough,
  });
  return { best: polished, evaluations: calls, settled };

  function drawn({ step, crossing }: { step: number; crossing: number }) {
    let drawnStep = 0;
    // A step is Cauchy distributed about what worked; never zero, never above one.
    while (drawnStep <= 0) drawnStep = step + 0.1 * Math.tan(Math.PI * (uniform() - 0.5));
    return { step: Math.min(1, drawnStep), crossing: Math.min(1, Math.max(0, crossing + 0.1 * normal())) };
  }
}

const apart = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((x, j) => Math.abs(x - (b[j] as number))));

const gainOf = (before: Cost, after: Cost): number =>
  before.violation > after.violation ? before.violation - after.violation : before.cost - after.cost;

/** Walks from a point to the nearest bottom; walls hold, and what breaks a condition counts as in `better`. */
function* simplex(
  at: (point: readonly number[]) => Generator<Progress, Found>,
  start: Found,
  {
    dimensions,
    calls,
    atMost,
    enough,
  }: {
    readonly dimensions: number;
    readonly calls: () => number;
    readonly atMost: number;
    readonly enough?: number | undefined;
  },
): Generator<Progress, Found> {
  let best = start;
  // Begun anew while it still helps: a simplex that has gone flat finds nothing more.
  for (let size = 0.05; calls() < atMost; size /= 4) {
    const before = best;
    const corners = [best];
    for (let i = 0; i < dimensions; i++) corners.push(yield* at(moved(before.point, i, size)));
    const order = () => corners.sort((a, b) => (better(a, b) ? -1 : better(b, a) ? 1 : 0));
    order();
    while (calls() < atMost) {
      const worst = corners[dimensions] as Found;
      const low = corners[0] as Found;
      const across = Math.max(...corners.map(({ point }) => apart(point, low.point)));
      if (across < 1e-9) break;
      const middle = low.point.map(
        (_, j) => corners.slice(0, dimensions).reduce((sum, { point }) => sum + (point[j] as number), 0) / dimensions,
      );
      const along = (factor: number) =>
        at(middle.map((x, j) => Math.min(1, Math.max(0, x + factor * (x - (worst.point[j] as number))))));
      const mirrored = yield* along(1);
      if (better(mirrored, low)) {
        const farther = yield* along(2);
        corners[dimensions] = better(farther, mirrored) ? farther : mirrored;
      } else if (better(mirrored, corners[dimensions - 1] as Found)) corners[dimensions] = mirrored;
      else {
        const nearer = yield* along(better(mirrored, worst) ? 0.5 : -0.5);
        if (better(nearer, better(mirrored, worst) ? mirrored : worst)) corners[dimensions] = nearer;
        else
          for (let i = 1; i <= dimensions && calls() < atMost; i++)
            corners[i] = yield* at((corners[i] as Found).point.map((x, j) => (x + (low.point[j] as number)) / 2));
      }
      order();
    }
    best = better(corners[0] as Found, best) ? (corners[0] as Found) : best;
    const gain = before.violation > best.violation ? 1 : before.cost - best.cost;
    if (gain <= (enough ?? 1e-10 * (Math.abs(best.cost) + 1e-6)) && size < 1e-3) break;
  }
  return best;
}

const moved = (point: readonly number[], i: number, size: number): readonly number[] =>
  point.map((x, j) => (j !== i ? x : x + size <= 1 ? x + size : x - size));
