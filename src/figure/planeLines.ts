/**
 * The lines of a plane, as shares of its axes: of equal value, the edges of the region where the brief is met, and the region
 * itself. Found apart from the drawing, so that a page need not wait for them.
 */
import { type ChartPlane, rising } from "../core/tasks/chart/plane.ts";
import type { Measure } from "../core/tasks/predict/judge.ts";
import { type Grid, type IsoLine, isoLines, isoRegion } from "./isoLines.ts";
import { type TautField, tautField } from "./tautField.ts";

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
  /** Closed rings: there is no such microphone. */
  readonly without: readonly Stroke[];
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
    edges: edgesOf(reserves, (line) => share(line)),
    region: regionOf(reserves, draw),
    without: withoutOf(plane, share),
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

/** Its border is drawn as the limits are: somewhere between two points. */
function withoutOf(plane: ChartPlane, share: Share): readonly Stroke[] {
  if (!plane.state.includes(2)) return [];
  const field = tautField(
    gridOf(
      plane,
      plane.state.map((state) => (state === 2 ? 1 : -1)),
    ),
  );
  const { grid, factor } = finer(plane, field);
  return isoRegion(grid, 0).map((line) => share(line, factor));
}

interface Reserve {
  readonly requirement: string;
  readonly field: TautField;
  /** Between the points too. */
  readonly grid: Grid;
}

/** Steps a side of the grid that region and limits are drawn from, and the fewest to a step of the plane. */
const fine = 80;
const fewest = 3;

const factorOf = ({ x, y }: ChartPlane): number =>
  Math.max(fewest, Math.floor(fine / Math.max(x.values.length, y.values.length)));

function finer(plane: ChartPlane, field: TautField): { readonly grid: Grid; readonly factor: number } {
  const factor = factorOf(plane);
  const columns = (plane.x.values.length - 1) * factor + 1;
  const rows = (plane.y.values.length - 1) * factor + 1;
  const values = new Array<number | null>(columns * rows).fill(null);
  for (let at = 0; at < values.length; at++)
    values[at] = field.valueAt((at % columns) / factor, Math.floor(at / columns) / factor);
  return { grid: { columns, rows, values }, factor };
}

/** Each requirement that is computed, on a grid so much finer that a region narrower than a step is seen. */
function reservesOf(plane: ChartPlane): { readonly reserves: readonly Reserve[]; readonly factor: number } {
  const reserves = Object.entries(plane.reserves).flatMap(([requirement, known]) => {
    if (known.every((value) => value === null)) return [];
    const field = tautField(gridOf(plane, known));
    // A band's end is two limits of one name.
    return [{ requirement: requirement.replace(rising, ""), field, grid: finer(plane, field).grid }];
  });
  return { reserves, factor: factorOf(plane) };
}

/** Islands of a limit smaller than this share of an axis are where a peak just leaves the band: they say nothing. */
const least = 0.08;

/** For each requirement its limit, and the part of it that bounds the region: there all others are met. */
function edgesOf(reserves: readonly Reserve[], draw: (line: IsoLine) => Stroke): PlaneLines["edges"] {
  return reserves.flatMap(({ requirement, field }) => {
    const others = reserves.filter((one) => one.field !== field);
    const bounds = ([column, row]: readonly [number, number]): boolean =>
      others.every((one) => (one.field.valueAt(column, row) ?? -1) >= -1e-3);
    const lines = field.lines.flatMap((line) => {
      const runs: (readonly [number, number])[][] = [[]];
      for (const point of divided(line)) {
        if (bounds(point)) runs.at(-1)!.push(point);
        else if (runs.at(-1)!.length > 0) runs.push([]);
      }
      return runs.filter((run) => run.length > 1);
    });
    const large = field.lines.map(draw).filter((stroke) => extentOf(stroke) >= least);
    return lines.length + large.length === 0 ? [] : [{ requirement, lines: lines.map(draw), whole: large }];
  });
}

/** Points on the way from one to the next, so that a run ends where it does and not at the next side. */
const between = 6;
const divided = (line: IsoLine): IsoLine =>
  line.flatMap(([x, y], i) => {
    const [nx, ny] = line[i + 1] ?? [x, y];
    const count = line[i + 1] === undefined ? 1 : between;
    return Array.from(
      { length: count },
      (_, k) => [x + ((nx - x) * k) / between, y + ((ny - y) * k) / between] as const,
    );
  });

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
