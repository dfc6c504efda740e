/**
 * Sines, cosines and powers. Expected: mpmath 1.3.0 (Python) with 1500 bits, from the double that is written here, rounded to the
 * nearest double; run on 26 November 2026. The arguments take in multiples of pi / 2 (where a reduction loses digits), 355 = 113 pi
 * less 3e-5, 10^22, and 6381956970095103 * 2^797, known as the double that lies nearest to a multiple of pi / 2.
 */
import { cube, fourth, pow } from "../src/core/numerics/power.ts";
import { cos, sin } from "../src/core/numerics/sine.ts";
import type { TruthRow } from "./row.ts";

const row = (what: string, got: () => number, expected: number): TruthRow => ({
  what,
  got,
  expected,
  within: 1.8e-16,
  why: "0.8 of the last digit's unit, rounded up to what it is relative to the smallest mantissa",
  origin: "independent method",
  source: "mpmath 1.3.0, 1500 bits",
});

const product = (what: string, got: () => number, expected: number): TruthRow => ({
  ...row(what, got, expected),
  origin: "exact",
  source: "whole numbers",
});

const sine = (x: number, s: number, c: number): readonly TruthRow[] => [
  row(`sin ${x} [-]`, () => sin(x), s),
  row(`cos ${x} [-]`, () => cos(x), c),
];
const raised = (x: number, y: number, expected: number): readonly TruthRow[] => [
  row(`${x} to the power ${y} [-]`, () => pow(x, y), expected),
];

export const rows: readonly TruthRow[] = [
  sine(0.5, 0.479425538604203, 0.8775825618903728),
  sine(-0.7853981633974483, -0.7071067811865475, 0.7071067811865476),
  sine(1.0, 0.8414709848078965, 0.5403023058681398),
  sine(1.5707963267948966, 1.0, 6.123233995736766e-17),
  sine(3.141592653589793, 1.2246467991473532e-16, -1.0),
  sine(10.0, -0.5440211108893698, -0.8390715290764524),
  sine(1.5707963267953, 1.0, -4.033938148088245e-13),
  sine(21.991148575128552, 8.572527594031472e-16, -1.0),
  sine(628320.1015142854, 1.0, 1.2276991230731498e-11),
  sine(-22.75669506318705, 0.6929311219749207, -0.7210037865355338),
  sine(355.0, -3.014435335948845e-5, -0.999999999545659),
  sine(1000.25, 0.9403086681560692, 0.3403228005740423),
  sine(964722.5726787925, 0.7452956855882074, -0.6667340857070411),
  sine(1e22, -0.8522008497671888, 0.523214785395139),
  sine(5.319372648326541e255, 1.0, -4.687165924254628e-19),
  raised(10.0, 0.3, 1.9952623149688795),
  raised(2.0, 0.5833333333333334, 1.4983070768766815),
  raised(1.5, -7.25, 0.05288571397442165),
  raised(0.95, 400.5, 1.197578300414077e-9),
  raised(1e-300, 0.9, 9.999999999999847e-271),
  raised(7.0, 18.0, 1628413597910449.0),
  raised(1.0000001, 100000000.0, 22026.454910182532),
  raised(400.0, -0.0169, 0.903701880807793),
  raised(0.05, 0.3333333333333333, 0.3684031498640387),
  raised(-3.0, 5.0, -243.0),
  raised(200000.0, 1.159, 1392816.0573123775),
  raised(10000000000.0, -31.0, 1e-310),
  [product("3^3 [-]", () => cube(3), 27), product("3^4 [-]", () => fourth(3), 81)],
].flat();
