/** What a microphone would do over a plane of any two of its values: the whole model at every point, coarse first, then finer. */

import { pow } from "../../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { type ValuePath, vary } from "../../project/paths.ts";
import { tiesOf } from "../../project/ties.ts";
import { formatQuantity } from "../../quantity/format.ts";
import { type Judged, judge, leastReserve, reserve } from "../predict/judge.ts";
import type { JudgeBatch } from "../predict/judgeBatch.ts";
import { drawn } from "./drawn.ts";
import {
  type ChartAxis,
  type ChartFrame,
  type ChartPlane,
  type ChartPoint,
  passesOf,
  planeOf,
  rising,
} from "./plane.ts";
import { type Tiles, tilesOf } from "./tiles.ts";

export interface ChartOptions {
  readonly x: ChartAxis;
  readonly y: ChartAxis;
  /** Points a side, 2 to 400. */
  readonly count: number;
}

/** A chart in pieces, for who shares them out among threads: a point does not depend on who asks for it, or when. */
export interface ChartPlan {
  readonly frame: ChartFrame;
  /** Makes a tile ready; null where its points are answered one by one. */
  readonly ready: Tiles["ready"];
  /** A point by its place in the plane, with its tile's batch; null: alone. */
  readonly pointAt: (at: number, batch: JudgeBatch | null) => ChartPoint;
}

/** Problems: `bad-range`, `bad-count`, `same-path`, those of `vary`. */
export function planChart(project: Project, { x, y, count }: ChartOptions): Outcome<ChartPlan> {
  const problems = [...rangeProblems(x, "x"), ...rangeProblems(y, "y"), ...countProblems(count)];
  if (x.path === y.path)
    problems.push({ code: "same-path", path: ["y"], message: `Both axes are ${x.path}; a plane needs two values.` });
  const ties = [x, y].flatMap(({ path }, axis) =>
    tiesOf(project, path, [x.path, y.path], { sides: true }).map((tie) => ({ ...tie, axis })),
  );
  const variation = vary(project, [x.path, y.path, ...ties.map(({ path }) => path)]);
  if (!variation.ok || problems.length > 0) return refuse(...problems, ...(variation.ok ? [] : variation.problems));
  const [alongX, alongY] = variation.value.paths as readonly [ValuePath, ValuePath];
  const brief = readBrief(project);
  const ladder = ({ from, to }: ChartAxis) =>
    Array.from({ length: count }, (_, i) => from * pow(to / from, i / (count - 1)));
  const [xs, ys] = [ladder(x), ladder(y)];
  const at = (here: number, there: number) =>
    variation.value.at([here, there, ...ties.map(({ axis, ratio }) => ratio * (axis === 0 ? here : there))]);
  const [hereX = null, hereY = null] = variation.value.start;
  const tiles = tilesOf({ x: xs, y: ys }, at, brief);
  return answer({
    frame: {
      x: { ...x, label: alongX.label, kind: alongX.kind, values: xs },
      y: { ...y, label: alongY.label, kind: alongY.kind, values: ys },
      tied: ties.map(({ path }) => path),
      here: { x: hereX, y: hereY },
      passes: passesOf(count, tiles.count, tiles.of),
    },
    ready: tiles.ready,
    pointAt(place, batch) {
      const values = [xs[place % count]!, ys[Math.floor(place / count)]!] as const;
      const described = at(...values);
      const before = batch?.count.fallBack ?? 0;
      const judged = described.ok ? judge(described.value, brief, { batch, values }) : described;
      return pointOf(judged, (batch?.count.fallBack ?? 0) > before);
    },
  });
}

/** Yields after every point, and after every pass what is there so far. Problems: those of `planChart`. */
export function* chart(
  project: Project,
  options: ChartOptions,
): Generator<{ readonly done: number; readonly of: number; readonly soFar?: ChartPlane }, Outcome<ChartPlane>> {
  const plan = planChart(project, options);
  if (!plan.ok) return plan;
  const { frame, ready, pointAt } = plan.value;
  const of = options.count ** 2;
  const points = new Array<ChartPoint | null>(of).fill(null);
  const batches = new Map<number, JudgeBatch | null>();
  let done = 0;
  for (const [pass, { stride, points: tiles }] of frame.passes.entries()) {
    for (const [tile, places] of tiles.entries()) {
      // The first picture waits for nothing.
      if (pass > 0 && places.length > 0 && !batches.has(tile)) {
        const making = ready(tile);
        let step = making.next();
        for (; !step.done; step = making.next()) yield { done, of };
        batches.set(tile, step.value);
      }
      for (const place of places) {
        points[place] = pointAt(place, batches.get(tile) ?? null);
        done++;
        yield { done, of };
      }
    }
    yield { done, of, soFar: planeOf(frame, points, stride) };
  }
  return answer(planeOf(frame, points));
}

/** Ends of a band, whose room has two limits. */
const flatNames: ReadonlyMap<string, "from" | "to"> = new Map([
  ["brief.band.from", "from"],
  ["brief.band.to", "to"],
]);

function pointOf(judged: Outcome<Judged>, fellBack: boolean): ChartPoint {
  if (!judged.ok) return { measures: null, reserves: {}, least: null, estimate: 0, route: "alone" };
  const { measures, verdict, flatness, estimate, route } = judged.value;
  const reserves: Record<string, number | null> = {};
  for (const line of verdict) {
    const flat = flatness[flatNames.get(line.requirement) ?? "to"];
    if (!flatNames.has(line.requirement) || flat === null) reserves[line.requirement] = reserve(line);
    else {
      reserves[line.requirement] = flat.below;
      reserves[line.requirement + rising] = flat.above;
    }
  }
  return {
    measures: drawn(measures),
    reserves,
    least: leastReserve(verdict),
    estimate,
    route: route === "span" ? "spanned" : fellBack ? "fallBack" : "alone",
  };
}

function rangeProblems({ from, to }: ChartAxis, axis: string): Problem[] {
  if (from > 0 && to > from && Number.isFinite(to)) return [];
  return [
    {
      code: "bad-range",
      path: [axis],
      message: `Found a range from ${from} to ${to}; a logarithmic axis needs 0 < from < to.`,
    },
  ];
}

function countProblems(count: number): Problem[] {
  if (Number.isInteger(count) && count >= 2 && count <= 400) return [];
  return [
    {
      code: "bad-count",
      path: ["count"],
      message: `Found ${count} points a side; needed: a whole number from 2 to 400.`,
    },
  ];
}

/** Ends of an axis about the present value: a factor of three either way, within what the path allows. Problems: `no-value`. */
export function axisAround(project: Project, path: string): Outcome<ChartAxis> {
  const variation = vary(project, [path]);
  if (!variation.ok) return variation;
  const [start = null] = variation.value.start;
  const [place] = variation.value.paths as readonly [ValuePath];
  if (start === null || !(start > 0))
    return refuse({
      code: "no-value",
      path: [path],
      message: `${path} is ${start === null ? "not there" : formatQuantity(start, place.kind)}; a logarithmic axis needs a value above 0, or its ends.`,
    });
  return answer({ path, from: start / 3, to: start * 3 });
}
