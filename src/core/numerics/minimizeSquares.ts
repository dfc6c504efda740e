/**
 * Least sums of squares by damped steps (Levenberg 1944, Marquardt 1963) with the damping led by the gain as in
 * Nielsen 1999, columns scaled as in More 1978, and simple bounds (all from memory, to be confirmed).
 * It sees a problem only through its triangle, so that a record of a million samples and one of ten are the same to it.
 */
import { cube } from "./power.ts";
import { reduceToTriangle } from "./triangle.ts";

/** The problem next to a point: r + J d, reduced by an orthogonal matrix. */
export interface Linearization {
  readonly sumOfSquares: number;
  /** R of J = Q R, row-major. */
  readonly triangle: Float64Array;
  /** Q^T r. */
  readonly projected: Float64Array;
}

export interface SquaresProblem {
  /** null where the model is not finite. `fine` asks for derivatives as exact as can be had. */
  readonly linearize: (parameters: Float64Array, fine: boolean) => Linearization | null;
  /** Not finite where the model is not. */
  readonly sumOfSquares: (parameters: Float64Array) => number;
  /** What round-off alone makes of the sum of squares, where that is known: an exact fit is converged there. */
  readonly roundOff?: number;
}

export interface MinimizeOptions {
  readonly start: ArrayLike<number>;
  readonly lower?: ArrayLike<number>;
  readonly upper?: ArrayLike<number>;
  readonly maxSteps?: number;
  /** First damping, as a share of the squared column lengths. */
  readonly damping?: number;
  /** "largest": longest column so far (cautious); "current": as it is now. */
  readonly scaling?: "largest" | "current";
  /** Largest change of a parameter in one step, as a share of itself; no limit where absent. */
  readonly reach?: number;
}

/** Why it stopped. "converged" is the only good one; the others bring the best point found. */
export type Stopped = "converged" | "no-further-step" | "too-many-steps" | "not-finite-at-start";

export interface Minimum {
  readonly parameters: Float64Array;
  readonly linearization: Linearization | null;
  readonly sumOfSquares: number;
  readonly steps: number;
  readonly stopped: Stopped;
  /** Parameters that lie at a bound. */
  readonly atBound: readonly number[];
}

export function minimizeSquares(problem: SquaresProblem, options: MinimizeOptions): Minimum {
  const { maxSteps = 500, scaling = "largest" } = options;
  const count = options.start.length;
  let parameters = Float64Array.from(options.start, (value, i) => inside(value, i, options));
  let here = problem.linearize(parameters, false);
  if (here === null) return nowhere(parameters);
  const lengths = new Float64Array(count);
  let damping = options.damping ?? 1e-3;
  let growth = 2;
  let steps = 0;
  for (; steps < maxSteps; steps++) {
    const now = columnLengths(here.triangle, count);
    for (let i = 0; i < count; i++) lengths[i] = scaling === "largest" ? Math.max(lengths[i]!, now[i]!) : now[i]!;
    const free = freeParameters(here, parameters, now, options);
    if (reachable(here, dampedStep(here, free, now, 0)) <= nearShare * here.sumOfSquares) break;
    const step = dampedStep(here, free, lengths, damping);
    const trial = parameters.map((value, i) => inside(value + reached(step[i]!, value, options.reach), i, options));
    const moved = trial.map((value, i) => value - parameters[i]!);
    if (moved.every((value, i) => Math.abs(value) <= 1e-16 * Math.abs(parameters[i]!))) break;
    const sum = problem.sumOfSquares(trial);
    const gain: number = (here.sumOfSquares - sum) / linearGain(here, moved);
    const next: Linearization | null = sum < here.sumOfSquares && gain > 1e-4 ? problem.linearize(trial, false) : null;
    if (next === null) {
      damping *= growth;
      growth *= 2;
      continue;
    }
    parameters = trial;
    here = next;
    damping *= Math.max(1 / 10, 1 - cube(2 * gain - 1));
    growth = 2;
  }
  return polished(problem, options, { parameters, here, steps, gaveUp: steps >= maxSteps });
}

/** Share of the sum of squares that a full step would still take away: below it the end is near, and derivatives are refined. */
const nearShare = 1e-10;
/** Below this share a point is taken for converged; full steps go on as long as they gain. */
const flatShare = 1e-12;

const nowhere = (parameters: Float64Array): Minimum => ({
  parameters,
  linearization: null,
  sumOfSquares: Number.NaN,
  steps: 0,
  stopped: "not-finite-at-start",
  atBound: [],
});

function inside(value: number, i: number, { lower, upper }: MinimizeOptions): number {
  return Math.min(Math.max(value, lower?.[i] ?? Number.NEGATIVE_INFINITY), upper?.[i] ?? Number.POSITIVE_INFINITY);
}

interface Reached {
  readonly parameters: Float64Array;
  readonly here: Linearization;
  readonly steps: number;
  readonly gaveUp: boolean;
}

/** Full steps with fine derivatives, as long as what is left to gain gets less; the sum itself is blind there. */
function polished(problem: SquaresProblem, options: MinimizeOptions, reached: Reached): Minimum {
  const count = reached.parameters.length;
  let { parameters, steps } = reached;
  let here = problem.linearize(parameters, true) ?? reached.here;
  let [left, misses] = [Number.POSITIVE_INFINITY, 0];
  let best = { parameters, here, left };
  for (let i = 0; i < 60 && misses < 4; i++) {
    const lengths = columnLengths(here.triangle, count);
    const step = dampedStep(here, freeParameters(here, parameters, lengths, options), lengths, 0);
    left = reachable(here, step);
    const keeps = here.sumOfSquares <= best.here.sumOfSquares * (1 + 1e-8);
    if (keeps && left < best.left) {
      misses = left > 0.9 * best.left ? misses + 0.25 : 0;
      best = { parameters, here, left };
    } else misses += 1;
    if (!keeps || left <= 1e-28 * here.sumOfSquares) break;
    const trial = parameters.map((value, j) => inside(value + step[j]!, j, options));
    const next = problem.linearize(trial, true);
    if (next === null) break;
    parameters = trial;
    here = next;
    steps += 1;
  }
  const flat = best.left <= flatShare * best.here.sumOfSquares || best.here.sumOfSquares <= (problem.roundOff ?? 0);
  return {
    parameters: best.parameters,
    linearization: best.here,
    sumOfSquares: best.here.sumOfSquares,
    steps,
    stopped: flat ? "converged" : reached.gaveUp ? "too-many-steps" : "no-further-step",
    atBound: Array.from(best.parameters.keys()).filter(
      (i) => best.parameters[i] === options.lower?.[i] || best.parameters[i] === options.upper?.[i],
    ),
  };
}

/** What a full step takes from the sum of squares in the linear picture, |R d|^2. */
const reachable = (here: Linearization, step: Float64Array): number => Math.max(0, linearGain(here, step));

function reached(step: number, value: number, reach: number | undefined): number {
  if (reach === undefined || value === 0) return step;
  const most = reach * Math.abs(value);
  return Math.max(-most, Math.min(most, step));
}

function columnLengths(triangle: Float64Array, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, j) => {
    let sum = 0;
    for (let i = 0; i <= j; i++) sum += triangle[i * count + j]! ** 2;
    return Math.sqrt(sum);
  });
}

/** (J^T r)_j. */
function slope({ triangle, projected }: Linearization, j: number): number {
  const count = projected.length;
  let sum = 0;
  for (let i = 0; i <= j; i++) sum += triangle[i * count + j]! * projected[i]!;
  return sum;
}

/** Parameters that may move: not those at a bound whose slope pushes outward, nor those without effect. */
function freeParameters(
  here: Linearization,
  parameters: Float64Array,
  lengths: Float64Array,
  { lower, upper }: MinimizeOptions,
): readonly number[] {
  return Array.from(parameters.keys()).filter((i) => {
    if (lengths[i] === 0) return false;
    const rise = slope(here, i);
    return !(parameters[i] === lower?.[i] && rise > 0) && !(parameters[i] === upper?.[i] && rise < 0);
  });
}

/** min |R d + Q^T r|^2 + damping |lengths d|^2 over the free parameters. */
function dampedStep(
  here: Linearization,
  free: readonly number[],
  lengths: Float64Array,
  damping: number,
): Float64Array {
  const count = here.projected.length;
  const root = Math.sqrt(damping);
  const rows = count + free.length;
  const columns = free.map((j, at) => {
    const column = new Float64Array(rows);
    for (let i = 0; i < count; i++) column[i] = here.triangle[i * count + j]! / lengths[j]!;
    column[count + at] = root;
    return column;
  });
  const right = new Float64Array(rows);
  for (let i = 0; i < count; i++) right[i] = -here.projected[i]!;
  const { triangle, projected } = reduceToTriangle(columns, right, rows);
  const step = new Float64Array(count);
  const width = free.length;
  const x = new Float64Array(width);
  for (let i = width - 1; i >= 0; i--) {
    let value = projected[i]!;
    for (let j = i + 1; j < width; j++) value -= triangle[i * width + j]! * x[j]!;
    const pivot = triangle[i * width + i]!;
    x[i] = pivot === 0 ? 0 : value / pivot;
    step[free[i]!] = x[i]! / lengths[free[i]!]!;
  }
  return step;
}

/** |r|^2 - |r + J d|^2: from the rows of R d alone, so that nothing is lost to the size of the sum. */
function linearGain({ triangle, projected }: Linearization, step: Float64Array): number {
  const count = projected.length;
  let gain = 0;
  for (let i = 0; i < count; i++) {
    let row = 0;
    for (let j = i; j < count; j++) row += triangle[i * count + j]! * step[j]!;
    gain -= row * (row + 2 * projected[i]!);
  }
  return gain;
}
