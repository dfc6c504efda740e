/** What a microphone would do over a plane of any two of its values: the whole model at every point, coarse first, then finer. */

import type { Microphone } from "../../microphone/microphone.ts";
import { pow } from "../../numerics/power.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { type Brief, readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { type ValuePath, vary } from "../../project/paths.ts";
import { tiesOf } from "../../project/ties.ts";
import { formatQuantity } from "../../quantity/format.ts";
import { judge, leastReserve, type Measure, measures, reserve } from "../predict/judge.ts";
import type { JudgeBatch } from "../predict/judgeBatch.ts";
import { drawn } from "./drawn.ts";
import { tilesOf } from "./tiles.ts";

export interface ChartAxis {
  readonly path: string;
  /** Ends [SI], both > 0: the axes are logarithmic. */
  readonly from: number;
  readonly to: number;
}

export interface ChartOptions {
  readonly x: ChartAxis;
  readonly y: ChartAxis;
  /** Points a side, 2 to 400. */
  readonly count: number;
  /** Of so many threads this one does every `of`-th point. */
  readonly part?: { readonly index: number; readonly of: number };
}

export interface ChartPlane {
  readonly x: ChartAxis & {
    readonly label: string;
    readonly kind: ValuePath["kind"];
    readonly values: readonly number[];
  };
  readonly y: ChartAxis & {
    readonly label: string;
    readonly kind: ValuePath["kind"];
    readonly values: readonly number[];
  };
  /** Row-major, one row a value of y; null: not there, or not computed yet. */
  readonly measures: Readonly<Record<Measure, readonly (number | null)[]>>;
  /** Reserve of each requirement that is computed (of the ends of a band what is left of the room below the level and, as "… rising", above it [dB]), and the least of all (judge.ts); row-major as above. */
  readonly reserves: Readonly<Record<string, readonly (number | null)[]>>;
  readonly least: readonly (number | null)[];
  /** 1 computed, 2 no such microphone (buckled, guide outside ...), 0 not asked yet; row-major. */
  readonly state: readonly (0 | 1 | 2)[];
  /** Values that follow an axis in proportion: guides, and the other side. */
  readonly tied: readonly string[];
  /** Where the design is [SI]. */
  readonly here: { readonly x: number | null; readonly y: number | null };
  /** Largest estimate of a response's relative error [-]. */
  readonly worstEstimate: number;
  /** Points answered by what spans many of them, and those that it did not reach; the others were answered alone. */
  readonly route: { readonly spanned: number; readonly fallBack: number };
}

/** Strides of the passes, each a multiple of the next: the first picture has four points a side, or five. */
const stridesFor = (count: number): readonly number[] => [
  ...new Set([4 * Math.max(1, Math.round((count - 1) / 12)), 4, 2, 1]),
];

/**
 * Yields after every few points what is there so far. Problems: `bad-range`, `bad-count`, `same-path`, those of `vary`.
 */
export function* chart(
  project: Project,
  options: ChartOptions,
): Generator<{ readonly done: number; readonly of: number; readonly soFar?: ChartPlane }, Outcome<ChartPlane>> {
  const { x, y, count, part = { index: 0, of: 1 } } = options;
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
  const grid = emptyGrid(count * count);
  const [hereX = null, hereY = null] = variation.value.start;
  const plane = (): ChartPlane => ({
    x: { ...x, label: alongX.label, kind: alongX.kind, values: xs },
    y: { ...y, label: alongY.label, kind: alongY.kind, values: ys },
    ...grid,
    tied: ties.map(({ path }) => path),
    here: { x: hereX, y: hereY },
    route: { spanned: 0, fallBack: 0 },
  });
  const tiles = tilesOf({ x: xs, y: ys }, at, brief);
  const asked = new Array<number>(tiles.count).fill(0);
  const strides = stridesFor(count);
  const passes = strides.map((stride, pass) => {
    const points: { readonly i: number; readonly j: number; readonly tile: number }[] = [];
    for (let j = 0; j < count; j += 1) {
      for (let i = 0; i < count; i += 1) {
        if (!belongs(i, j, count, stride) || (pass > 0 && belongs(i, j, count, strides[pass - 1]!))) continue;
        const tile = tiles.of(i, j);
        if (tiles.belongs(tile, asked[tile]!++, part)) points.push({ i, j, tile });
      }
    }
    // Tile by tile, so that each is made ready in its turn.
    return { stride, points: points.sort((a, b) => a.tile - b.tile) };
  });
  const mine = passes.reduce((sum, { points }) => sum + points.length, 0);
  const ready = new Map<number, JudgeBatch | null>();
  let done = 0;
  for (const [pass, { stride, points }] of passes.entries()) {
    for (const { i, j, tile } of points) {
      // The first picture waits for nothing.
      if (pass > 0 && !ready.has(tile)) {
        const making = tiles.ready(tile);
        let step = making.next();
        for (; !step.done; step = making.next()) yield { done, of: mine };
        ready.set(tile, step.value);
      }
      const values = [xs[i]!, ys[j]!];
      fill(grid, j * count + i, at(xs[i]!, ys[j]!), brief, { batch: ready.get(tile) ?? null, values });
      done++;
      yield { done, of: mine };
    }
    yield { done, of: mine, soFar: thinned(plane(), stride) };
  }
  return answer({ ...plane(), route: routeOf([...ready.values()]) });
}

/** How many points were answered by a span, how many alone because it did not reach them or nothing spans them. */
const routeOf = (batches: readonly (JudgeBatch | null)[]): ChartPlane["route"] => ({
  spanned: batches.reduce((sum, batch) => sum + (batch?.count.spanned ?? 0), 0),
  fallBack: batches.reduce((sum, batch) => sum + (batch?.count.fallBack ?? 0), 0),
});

/** Only the points of a pass: a coarse plane that is whole, as soon as all threads have done that pass. */
function thinned(plane: ChartPlane, stride: number): ChartPlane {
  if (stride === 1) return plane;
  const count = plane.x.values.length;
  const kept = Array.from({ length: count }, (_, k) => k).filter((k) => k % stride === 0 || k === count - 1);
  const axis = (one: ChartPlane["x"]) => ({ ...one, values: kept.map((k) => one.values[k]!) });
  const pick = <T>(values: readonly T[]) => kept.flatMap((j) => kept.map((i) => values[j * count + i]!));
  return {
    ...plane,
    x: axis(plane.x),
    y: axis(plane.y),
    measures: byMeasure((measure) => pick(plane.measures[measure])),
    reserves: Object.fromEntries(Object.entries(plane.reserves).map(([name, values]) => [name, pick(values)])),
    least: pick(plane.least),
    state: pick(plane.state),
  };
}

/** The planes of several threads as one; the first is taken where none has the point. All of the same question. */
export function mergePlanes(planes: readonly [ChartPlane, ...ChartPlane[]]): ChartPlane {
  const [first] = planes;
  const owner = first.state.map((_, at) =>
    Math.max(
      0,
      planes.findIndex(({ state }) => state[at] !== 0),
    ),
  );
  const pick = <T>(read: (plane: ChartPlane) => readonly T[] | undefined) =>
    owner.map((k, at) => read(planes[k]!)?.[at] ?? null) as T[];
  const requirements = new Set(planes.flatMap(({ reserves }) => Object.keys(reserves)));
  return {
    ...first,
    measures: byMeasure((measure) => pick((plane) => plane.measures[measure])),
    reserves: Object.fromEntries([...requirements].map((name) => [name, pick((plane) => plane.reserves[name])])),
    least: pick((plane) => plane.least),
    state: pick((plane) => plane.state),
    worstEstimate: Math.max(...planes.map(({ worstEstimate }) => worstEstimate)),
    route: {
      spanned: planes.reduce((sum, { route }) => sum + route.spanned, 0),
      fallBack: planes.reduce((sum, { route }) => sum + route.fallBack, 0),
    },
  };
}

/** Whether a point belongs to a pass: every `stride`-th, and the last of each axis. */
const belongs = (i: number, j: number, count: number, stride: number): boolean => {
  const on = (k: number) => k % stride === 0 || k === count - 1;
  return on(i) && on(j);
};

interface Grid {
  readonly measures: Record<Measure, (number | null)[]>;
  readonly reserves: Record<string, (number | null)[]>;
  readonly least: (number | null)[];
  readonly state: (0 | 1 | 2)[];
  worstEstimate: number;
}

const nothing = (size: number): (number | null)[] => new Array<number | null>(size).fill(null);

/** One list a measure. */
const byMeasure = <T>(make: (measure: Measure) => T) =>
  Object.fromEntries(measures.map((measure) => [measure, make(measure)])) as Record<Measure, T>;

const emptyGrid = (size: number): Grid => ({
  measures: byMeasure(() => nothing(size)),
  reserves: {},
  least: nothing(size),
  state: new Array<0 | 1 | 2>(size).fill(0),
  worstEstimate: 0,
});

/**
 * A band ends where the level falls out of its room or rises out of it. Its end jumps from one to the other; what is left of the
 * room below and above does not, and each is a limit of its own.
 */
export const rising = " rising";
const flatNames: ReadonlyMap<string, "from" | "to"> = new Map([
  ["brief.band.from", "from"],
  ["brief.band.to", "to"],
]);

function fill(
  grid: Grid,
  at: number,
  described: Outcome<Microphone>,
  brief: Brief,
  known: { readonly batch: JudgeBatch | null; readonly values: readonly number[] },
): void {
  const judged = described.ok ? judge(described.value, brief, known) : described;
  grid.state[at] = judged.ok ? 1 : 2;
  if (!judged.ok) return;
  const lines = drawn(judged.value.measures);
  for (const measure of measures) grid.measures[measure][at] = lines[measure];
  const put = (name: string, value: number | null) => {
    grid.reserves[name] ??= nothing(grid.least.length);
    grid.reserves[name]![at] = value;
  };
  for (const line of judged.value.verdict) {
    const flat = judged.value.flatness[flatNames.get(line.requirement) ?? "to"];
    if (!flatNames.has(line.requirement) || flat === null) put(line.requirement, reserve(line));
    else {
      put(line.requirement, flat.below);
      put(line.requirement + rising, flat.above);
    }
  }
  grid.least[at] = leastReserve(judged.value.verdict);
  grid.worstEstimate = Math.max(grid.worstEstimate, judged.value.estimate);
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
