/** Outside values for spreads and searches: variance-based indices, yield of a linear case, shares of a binomial, known optima. */
import { drain } from "../src/core/numerics/progress.ts";
import { normalQuantile } from "../src/core/numerics/quantiles.ts";
import { searchBox } from "../src/core/numerics/searchBox.ts";
import { shareInterval } from "../src/core/numerics/shareInterval.ts";
import { lowDiscrepancy } from "../src/core/numerics/sobolSequence.ts";
import { varianceIndices } from "../src/core/numerics/varianceIndices.ts";
import type { TruthRow } from "./row.ts";

const { PI } = Math;

/** Ishigami's function of three angles, each uniform from -pi to pi, with a = 7 and b = 0.1. */
const ishigami = ([x = 0, y = 0, z = 0]: readonly number[]) => {
  const at = (u: number) => PI * (2 * u - 1);
  return Math.sin(at(x)) + 7 * Math.sin(at(y)) ** 2 + 0.1 * at(z) ** 4 * Math.sin(at(x));
};
const ishigamiParts = {
  first: 0.5 * (1 + (0.1 * PI ** 4) / 5) ** 2,
  second: 7 ** 2 / 8,
  firstThird: (8 * 0.1 ** 2 * PI ** 8) / 225,
};
const ishigamiVariance = ishigamiParts.first + ishigamiParts.second + ishigamiParts.firstThird;

/** Sobol's g function: product of (|4 u - 2| + a) / (1 + a). */
const weights = [0, 1, 4.5, 9];
const gFunction = (u: readonly number[]) =>
  weights.reduce((product, a, i) => (product * (Math.abs(4 * (u[i] ?? 0) - 2) + a)) / (1 + a), 1);
const partial = weights.map((a) => 1 / (3 * (1 + a) ** 2));
const gVariance = partial.reduce((product, v) => product * (1 + v), 1) - 1;

const seed = 20;
let known: { ishigami: ReturnType<typeof varianceIndices>; g: ReturnType<typeof varianceIndices> } | null = null;
const indices = () => {
  known ??= {
    ishigami: varianceIndices(ishigami, { dimensions: 3, count: 8192, seed }),
    g: varianceIndices(gFunction, { dimensions: 4, count: 8192, seed }),
  };
  return known;
};
const why =
  "sampling with 8192 low-discrepancy points; the standard error printed with the index is below a quarter of this";

const ishigamiRow = (i: number, which: "first" | "total", expected: number): TruthRow => ({
  what: `Ishigami's function, ${which} index of angle ${i + 1} [-]`,
  got: () => indices().ishigami[i]?.[which].value ?? Number.NaN,
  expected,
  within: expected === 0 ? 0.01 : 0.02,
  why,
  origin: "exact",
  source: "[ishigami-1990] (formulas from memory; integrals done again)",
});
const gRow = (i: number, which: "first" | "total"): TruthRow => {
  const others = partial.reduce((product, v, j) => (j === i ? product : product * (1 + v)), 1);
  const expected = ((partial[i] as number) * (which === "first" ? 1 : others)) / gVariance;
  return {
    what: `Sobol's g function, ${which} index of number ${i + 1}, weight ${weights[i]} [-]`,
    got: () => indices().g[i]?.[which].value ?? Number.NaN,
    expected,
    within: Math.max(0.03, 0.002 / expected),
    why: `${why}; a first-order estimate scatters by some thousandths of the variance however small the index`,
    origin: "exact",
    source: "[sobol-1993] (formulas from memory; integrals done again)",
  };
};

/** x1 + 2 x2 + 3 x3 of standard normal numbers stays below 4: Phi(4 / sqrt(14)). */
const linearYield = () => {
  const points = lowDiscrepancy({ dimensions: 3, seed });
  const count = 1 << 14;
  let inside = 0;
  for (let i = 0; i < count; i++) {
    const [u = 0, v = 0, w = 0] = points(i);
    if (normalQuantile(u) + 2 * normalQuantile(v) + 3 * normalQuantile(w) < 4) inside++;
  }
  return inside / count;
};

const rosenbrock = (x: readonly number[]) =>
  x.slice(1).reduce((sum, next, i) => sum + 100 * (next - (x[i] as number) ** 2) ** 2 + (1 - (x[i] as number)) ** 2, 0);
const ackley = (x: readonly number[]) => {
  const squares = x.reduce((sum, v) => sum + v * v, 0) / x.length;
  const waves = x.reduce((sum, v) => sum + Math.cos(2 * PI * v), 0) / x.length;
  return -20 * Math.exp(-0.2 * Math.sqrt(squares)) - Math.exp(waves) + 20 + Math.E;
};
/** Best value found in the box; `allowed` <= 0 where a point is allowed. */
const best = (
  f: (x: readonly number[]) => number,
  box: readonly (readonly [number, number])[],
  allowed: readonly ((x: readonly number[]) => number)[] = [],
) =>
  drain(
    searchBox(
      (u) => {
        const x = box.map(([low, high], i) => low + (high - low) * (u[i] ?? 0));
        return { cost: f(x), violation: allowed.reduce((sum, g) => sum + Math.max(0, g(x)), 0) };
      },
      { dimensions: box.length, seed, evaluations: 12_000 },
    ),
  ).best.cost;

const wide = (n: number, half: number) => Array.from({ length: n }, () => [-half, half] as const);
// Both constraints of the cubic problem hold with equality at its optimum: two circles about (5, 5) and (6, 5).
const cubicOptimum = () => {
  // (x - 5)^2 + (y - 5)^2 = 100 and (x - 6)^2 + (y - 5)^2 = 82.81, lower crossing.
  const x = (100 - 82.81 - 25 + 36) / 2;
  const y = 5 - Math.sqrt(100 - (x - 5) ** 2);
  return (x - 10) ** 3 + (y - 20) ** 3;
};

export const rows: readonly TruthRow[] = [
  ishigamiRow(0, "first", ishigamiParts.first / ishigamiVariance),
  ishigamiRow(1, "first", ishigamiParts.second / ishigamiVariance),
  ishigamiRow(2, "first", 0),
  ishigamiRow(0, "total", (ishigamiParts.first + ishigamiParts.firstThird) / ishigamiVariance),
  ishigamiRow(1, "total", ishigamiParts.second / ishigamiVariance),
  ishigamiRow(2, "total", ishigamiParts.firstThird / ishigamiVariance),
  ...weights.flatMap((_, i) => [gRow(i, "first"), gRow(i, "total")]),
  {
    what: "yield of a linear case with three normal tolerances, Phi(4 / sqrt(14)) [-]",
    got: linearYield,
    expected: 0.8574753,
    within: (1 << 14) ** (-2 / 3),
    why: "a cut through the cube is met by N evenly spread points to about N^(-2/3) in three dimensions; N = 16384",
    origin: "exact",
    source: "normal integral at 1.0690450, evaluated by an independent series",
  },
  {
    what: "upper end of the 95 % interval of a share, 0 of 10: 1 - 0.025^(1/10) [-]",
    got: () => shareInterval(0, 10).high,
    expected: 1 - 0.025 ** 0.1,
    within: 1e-9,
    why: "round-off of the incomplete beta function",
    origin: "exact",
    source: "[clopper-1934]: with no success the bound is elementary",
  },
  {
    what: "lower end of the 95 % interval of a share, 81 of 263 [-]",
    got: () => shareInterval(81, 263).low,
    expected: 0.2527,
    within: 0.00005 / 0.2527,
    why: "half the last digit printed",
    origin: "published",
    source: "[newcombe-1998] table I, exact method, 81/263: 0.2527 to 0.3676 (from memory, to be confirmed)",
  },
  {
    what: "upper end of the 95 % interval of a share, 81 of 263 [-]",
    got: () => shareInterval(81, 263).high,
    expected: 0.3676,
    within: 0.00005 / 0.3676,
    why: "half the last digit printed",
    origin: "published",
    source: "[newcombe-1998] table I, exact method, 81/263: 0.2527 to 0.3676 (from memory, to be confirmed)",
  },
  {
    what: "Rosenbrock's valley in five dimensions, least value",
    got: () => best(rosenbrock, wide(5, 5)),
    expected: 0,
    within: 1e-6,
    why: "stops when the cost no longer falls by 1e-9 of its scale",
    origin: "exact",
    source: "[rosenbrock-1960]: 0 at (1, 1, 1, 1, 1)",
  },
  {
    what: "Ackley's function in five dimensions, least value",
    got: () => best(ackley, wide(5, 30)),
    expected: 0,
    within: 1e-5,
    why: "the function has a cusp there: the cost is as far as the point",
    origin: "exact",
    source: "[ackley-1987]: 0 at the origin",
  },
  {
    what: "cubic cost between two circles, least value",
    got: () =>
      best(
        ([x = 0, y = 0]) => (x - 10) ** 3 + (y - 20) ** 3,
        [
          [13, 100],
          [0, 100],
        ],
        [
          ([x = 0, y = 0]) => 100 - (x - 5) ** 2 - (y - 5) ** 2,
          ([x = 0, y = 0]) => (x - 6) ** 2 + (y - 5) ** 2 - 82.81,
        ],
      ),
    expected: cubicOptimum(),
    within: 1e-5,
    why: "the allowed region is a sliver of 0.007 % of the box",
    origin: "exact",
    source: "[floudas-1990] test problem (from memory: -6961.814); the crossing of the two circles is elementary",
  },
];
