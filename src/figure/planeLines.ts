/**
 * The lines of a plane, as shares of its axes: of equal value, the edges of the region where the brief is met, and the region
 * itself. Found apart from the drawing, so that a page need not wait for them.
 */
import { type ChartPlane, rising } from "../core/tasks/chart/chart.ts";
import type { Measure } from "../core/tasks/predict/judge.ts";
import { type Grid, type IsoLine, isoLines, isoRegion } from "./isoLines.ts";

/** Points of a line: 0 is the low end of an axis, 1 the high one, in equal ratios between. */
export type Stroke = readonly (readonly [across: number, up: number])[];

export interface FamilyLines {
  readonly measure: Measure;
  readonly levels: readonly { readonly level: number; readonly lines: readonly Stroke[] }[];
}

export interface PlaneLines {
  readonly families: readonly FamilyLines[];
  /** The same levels by power laws; null: none are asked for. */
  readonly laws: readonly FamilyLines[] | null;
  /** Where each requirement ends (`whole`), and the part of that which bounds the region (`lines`). */
  readonly edges: readonly {
    readonly requirement: string;
    readonly lines: readonly Stroke[];
    readonly whole: readonly Stroke[];
  }[];
  /** Closed rings. */
  readonly region: readonly Stroke[];
}

/** Lines of one family. */
const levelsWanted = 6;
const inDecibels: readonly Measure[] = ["noise", "loudest", "vibration"];

/** `laws`: the plane as power laws would have it. */
export function planeLines(
  plane: ChartPlane,
  families: readonly Measure[],
  laws: ChartPlane | null = null,
): PlaneLines {
  const share = sharesOf(plane);
  const { reserves, factor } = reservesOf(plane);
  const draw = (line: IsoLine) => share(line, factor);
  const own = families.map((measure) => familyOf(plane, measure, levelsOf(plane, measure), share));
  return {
    families: own,
    laws:
      laws === null
        ? null
        : own.map(({ measure, levels }) =>
            familyOf(
              laws,
              measure,
              levels.map(({ level }) => level),
              share,
            ),
          ),
    edges: edgesOf(reserves, draw),
    region: regionOf(reserves, draw),
  };
}

type Share = (line: IsoLine, factor?: number) => Stroke;

/** A grid is even in its logarithms, but for the last step of a coarse one. */
function sharesOf({ x, y }: ChartPlane): Share {
  const along = ({ values, from, to }: ChartPlane["x"]) => {
    const places = values.map((value) => Math.log(value / from) / Math.log(to / from));
    return (place: number): number => {
      const below = Math.min(places.length - 2, Math.max(0, Math.floor(place)));
      const [low, high] = [places[below]!, places[below + 1]!];
      return low + (high - low) * (place - below);
    };
  };
  const [across, up] = [along(x), along(y)];
  return (line, factor = 1) => line.map(([i, j]) => [across(i / factor), up(j / factor)] as const);
}

/** Levels as they are, all else by its logarithm: a power law is met exactly between the points. */
const scaled = (measure: Measure, value: number | null): number | null =>
  inDecibels.includes(measure) || value === null ? value : value > 0 ? Math.log(value) : null;

const gridOf = ({ x, y }: ChartPlane, values: readonly (number | null)[]): Grid => ({
  columns: x.values.length,
  rows: y.values.length,
  values,
});

function levelsOf({ measures }: ChartPlane, measure: Measure): readonly number[] {
  const known = measures[measure].filter((value): value is number => value !== null && value > 0);
  if (known.length === 0) return [];
  const [low, high] = known.reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [known[0]!, known[0]!]);
  return inDecibels.includes(measure) ? evenLevels(low, high) : roundLevels(low, high);
}

function familyOf(plane: ChartPlane, measure: Measure, levels: readonly number[], share: Share): FamilyLines {
  const whole = gridOf(
    plane,
    plane.measures[measure].map((value) => scaled(measure, value)),
  );
  const grid = withoutJumps(whole);
  return {
    measure,
    levels: levels.map((level) => ({
      level,
      lines: isoLines(grid, scaled(measure, level) ?? 0).map((line) => share(line)),
    })),
  };
}

/** A step this many times the usual one is a jump from one resonance to another: no line is led across it. */
const jump = 8;

function withoutJumps({ columns, rows, values }: Grid): Grid {
  const steps: number[] = [];
  const pairs: (readonly [number, number, number])[] = [];
  for (let at = 0; at < values.length; at++)
    for (const next of [at % columns < columns - 1 ? at + 1 : -1, at + columns]) {
      const [a, b] = [values[at], values[next]];
      if (a == null || b == null) continue;
      steps.push(Math.abs(a - b));
      pairs.push([at, next, Math.abs(a - b)]);
    }
  const usual = steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const torn = new Set(pairs.flatMap(([a, b, step]) => (usual > 0 && step > jump * usual ? [a, b] : [])));
  return { columns, rows, values: values.map((value, at) => (torn.has(at) ? null : value)) };
}

/** 1, 2, 5 within the range; thinned or filled until there are about as many as wanted. */
function roundLevels(low: number, high: number): readonly number[] {
  const within = (digits: readonly number[]) => {
    const list: number[] = [];
    for (let power = Math.floor(Math.log10(low)); power <= Math.log10(high); power++)
      for (const digit of digits) {
        const value = digit * 10 ** power;
        if (value > low && value < high) list.push(value);
      }
    return list;
  };
  const sets = [[1], [1, 3], [1, 2, 5], [1, 1.5, 2, 3, 4, 5, 7]].map(within);
  return sets.find((set) => set.length >= levelsWanted - 2) ?? sets[3]!;
}

function evenLevels(low: number, high: number): readonly number[] {
  const step = [1, 2, 5, 10, 20].find((one) => (high - low) / one <= levelsWanted + 1) ?? 50;
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.max(0, Math.floor(high / step) - first + 1) }, (_, i) => (first + i) * step);
}

interface Reserve {
  readonly requirement: string;
  /** Between the points too. */
  readonly grid: Grid;
}

/** Steps a side of the grid that region and limits are drawn from. */
const fine = 120;

/** Each requirement that is computed, on a grid so much finer that a region narrower than a step is seen. */
function reservesOf(plane: ChartPlane): { readonly reserves: readonly Reserve[]; readonly factor: number } {
  const [columns, rows] = [plane.x.values.length, plane.y.values.length];
  const factor = Math.max(1, Math.floor(fine / Math.max(columns, rows)));
  const [wide, high] = [(columns - 1) * factor + 1, (rows - 1) * factor + 1];
  const reserves = Object.entries(plane.reserves).flatMap(([requirement, known]) => {
    if (known.every((value) => value === null)) return [];
    const grid = gridOf(plane, known);
    const values = new Array<number | null>(wide * high).fill(null);
    for (let at = 0; at < values.length; at++)
      values[at] = valueIn(grid, (at % wide) / factor, Math.floor(at / wide) / factor);
    // A band's end is two limits of one name.
    return [{ requirement: requirement.replace(rising, ""), grid: { columns: wide, rows: high, values } }];
  });
  return { reserves, factor };
}

/** Islands of a limit smaller than this share of an axis are where a peak just leaves the band: they say nothing. */
const least = 0.08;

/** For each requirement its limit, and the part of it that bounds the region: there all others are met. */
function edgesOf(reserves: readonly Reserve[], draw: (line: IsoLine) => Stroke): PlaneLines["edges"] {
  return reserves.flatMap(({ requirement, grid }) => {
    const others = reserves.filter((one) => one.grid !== grid);
    const bounds = ([column, row]: readonly [number, number]): boolean =>
      others.every((one) => (valueIn(one.grid, column, row) ?? -1) >= -1e-3);
    const whole = isoLines(grid, 0);
    const lines = whole.flatMap((line) => {
      const runs: (readonly [number, number])[][] = [[]];
      for (const point of line) {
        if (bounds(point)) runs.at(-1)!.push(point);
        else if (runs.at(-1)!.length > 0) runs.push([]);
      }
      return runs.filter((run) => run.length > 1);
    });
    const large = whole.map(draw).filter((stroke) => extentOf(stroke) >= least);
    return lines.length + large.length === 0 ? [] : [{ requirement, lines: lines.map(draw), whole: large }];
  });
}

const extentOf = (stroke: Stroke): number =>
  [0, 1].reduce((most, axis) => {
    const values = stroke.map((point) => point[axis as 0 | 1]);
    return Math.max(most, Math.max(...values) - Math.min(...values));
  }, 0);

/** Where the least of all reserves is not below zero. */
function regionOf(reserves: readonly Reserve[], draw: (line: IsoLine) => Stroke): readonly Stroke[] {
  const [first] = reserves;
  if (first === undefined) return [];
  const values = first.grid.values.map((_, at) =>
    reserves.reduce<number | null>((low, { grid }) => {
      const value = grid.values[at] ?? null;
      return low === null || value === null ? null : Math.min(low, value);
    }, Number.POSITIVE_INFINITY),
  );
  return isoRegion({ ...first.grid, values }, 0).map(draw);
}

/**
 * A grid between its points: each cell is two triangles, cut along the diagonal whose ends differ less, so that a narrow ridge across
 * the cells stays one. null: beside a point without a value.
 */
function valueIn({ columns, rows, values }: Grid, column: number, row: number): number | null {
  const [i, j] = [Math.min(columns - 2, Math.floor(column)), Math.min(rows - 2, Math.floor(row))];
  const [u, v] = [column - i, row - j];
  const at = j * columns + i;
  const [a, b, c, d] = [values[at], values[at + 1], values[at + columns], values[at + columns + 1]];
  if (a == null || b == null || c == null || d == null) return null;
  if (Math.abs(a - d) <= Math.abs(b - c)) return u >= v ? a + u * (b - a) + v * (d - b) : a + v * (c - a) + u * (d - c);
  return u + v <= 1 ? a + u * (b - a) + v * (c - a) : d + (1 - u) * (c - d) + (1 - v) * (b - d);
}
