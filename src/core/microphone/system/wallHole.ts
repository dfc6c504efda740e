/**
 * One hole in the wall behind the film: a sink of the film's flow, even over the hole's disk.
 *
 *     d_m P_m = i omega s (C^T q)_m - chi 1_m p_b - g_m U / (a b / 4),   sum g_m P_m = Z_hole U   (pressures above p_b)
 *     U (Z_s + Z_hole) = i omega h^T q - chi h_1 p_b,   Z_s = sum g_m^2 / (d_m a b / 4),   h = C (g / d),   h_1 = 1^T (g / d)
 *
 * g_m is the mean of the film's function over the hole. The sum Z_s converges like the field of a sink, slowly: what lies
 * beyond the film's terms enters by two constants of the shape, sum g^2 / k^2 and sum g^2 / k^4, and beyond k R = 12 by its mean
 * over the lattice of wavenumbers. A hole off the center also drives pressures odd across or along; they count in Z_s, but the
 * odd shapes of the plate that they would bend do not (docs/notModeled.md). What an even sink costs within its own disk,
 * U / (8 pi Psi), is left out: above the hole the air leaves at once. Derivation: docs/theory/film.md.
 */

import { besselValues } from "../../numerics/bessel.ts";
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { gaussLegendre } from "../../numerics/legendre.ts";
import { cube } from "../../numerics/power.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { Hole, Tone } from "../../parts/acoustics/acoustics.ts";
import { holeImpedance } from "../../parts/acoustics/tube.ts";
import type { Side } from "../../parts/diaphragm/polynomials.ts";
import type { FilmEdge } from "../../parts/film/film.ts";
import { pressureTerms } from "../../parts/film/pressureTerms.ts";
import type { Microphone } from "../microphone.ts";
import type { PreparedFilm } from "./prepare.ts";

/** A hole on the functions of a film; wavenumbers in units of 2 / across. */
export interface WallHole {
  readonly hole: Hole;
  /** g_m of the film's own functions, row-major across x along. */
  readonly means: Float64Array;
  /** Squared wavenumbers and squared means of low functions odd across or along. */
  readonly odd: Waves;
  /** Those of its own functions that take the mean of an uneven gap; empty over an even one. */
  readonly short: Waves;
  /** Of those odd across or along, the squared wavenumber from which the gap over the hole is all that is in their reach. */
  readonly near: number;
  /** Sums of g^2 / k^2 and g^2 / k^4 over all others. */
  readonly second: number;
  readonly fourth: number;
}

/** Squared wavenumbers of some functions, and their squared means over the hole. */
interface Waves {
  readonly kSquared: Float64Array;
  readonly meanSquared: Float64Array;
}

/** The last hole of each film; made again where hole, side or film changes. */
const known = new WeakMap<PreparedFilm, { readonly key: string; readonly value: WallHole }>();

/** The one hole of a microphone's wall on the functions of its film; null where there is none. */
export function wallHoleOf(film: PreparedFilm | null, microphone: Microphone): WallHole | null {
  const plate = microphone.film?.backPlate;
  if (!film || plate?.kind !== "hole") return null;
  const { across, along } = microphone.diaphragm;
  const key = JSON.stringify([plate.hole, across, along]);
  const before = known.get(film);
  if (before?.key === key) return before.value;
  const value = prepareHole(film, plate.hole, across, along);
  known.set(film, { key, value });
  return value;
}

/** A prepared hole with the device's own length and ends: what is prepared belongs to a place and a width. */
export function holeOf(prepared: WallHole, { film }: Microphone): WallHole {
  const plate = film?.backPlate;
  return plate?.kind === "hole" ? { ...prepared, hole: plate.hole } : prepared;
}

export const hasWallHole = ({ film }: Microphone): boolean => film?.backPlate?.kind === "hole";

/** The hole at one frequency, on the functions of a model. */
export interface Sink {
  /** D g, the film's answer to a flow: D = i omega s / d. */
  readonly film: ComplexVector;
  /** C D g: its force on the plate. */
  readonly plate: ComplexVector;
  /** i omega s (a b / 4) (Z_s + Z_hole). */
  readonly impedance: Complex;
}

/**
 * The sink of a film whose answer D g to it is given. `flow` is i omega s a b / 4; `toPlate` is C on a film vector.
 * What the hole takes from the film and the plate is Sink times (Sink . what drives it) over `impedance`.
 */
export function sinkOf(
  hole: WallHole,
  given: {
    readonly means: Float64Array;
    /** D g */
    readonly film: ComplexVector;
    readonly flow: Complex;
    readonly rest: Complex;
    readonly toPlate: (terms: ComplexVector) => ComplexVector;
  } & Tone,
): Sink {
  const { means, film, flow, rest, toPlate, air, omega } = given;
  let [re, im] = [0, 0];
  for (let m = 0; m < means.length; m++) {
    re += means[m]! * film.re[m]!;
    im += means[m]! * film.im[m]!;
  }
  const beyond = multiply(flow, add(rest, holeImpedance({ ...hole.hole, air, omega })));
  return { film, plate: toPlate(film), impedance: add({ re, im }, beyond) };
}

/** vector -= sink (sink . driver) / impedance, for a driver on the same functions as `part` of the sink. */
export function drain(vector: ComplexVector, out: ComplexVector, into: Complex, impedance: Complex): void {
  const { re, im } = divide(into, impedance);
  for (let i = 0; i < vector.re.length; i++) {
    vector.re[i]! -= out.re[i]! * re - out.im[i]! * im;
    vector.im[i]! -= out.re[i]! * im + out.im[i]! * re;
  }
}

/** Takes the hole's flow out of a matrix, row-major, lower triangle. */
export function drainMatrix(re: Float64Array, im: Float64Array, { plate, impedance }: Sink): void {
  const n = plate.re.length;
  for (let i = 0; i < n; i++) {
    const part = divide(complex(plate.re[i]!, plate.im[i]!), impedance);
    for (let k = 0; k <= i; k++) {
      re[i * n + k]! -= part.re * plate.re[k]! - part.im * plate.im[k]!;
      im[i * n + k]! -= part.re * plate.im[k]! + part.im * plate.re[k]!;
    }
  }
}

/** What the bases of a shape are made for: a hole has a place and a width of its own. */
export const withoutWallHole = (microphone: Microphone): Microphone =>
  microphone.film && hasWallHole(microphone)
    ? { ...microphone, film: { ...microphone.film, backPlate: null } }
    : microphone;

/** Wavenumbers times radius beyond which a sum is replaced by its mean. */
const farBeyond = 12;

function prepareHole(film: PreparedFilm, hole: Hole, across: number, along: number): WallHole {
  const aspect = along / across;
  const radius = hole.diameter / across;
  const x = (2 * hole.at[0]) / across;
  const y = (2 * hole.at[1]) / along;
  const own = film.across.count;
  // All functions inside a circle of wavenumbers; at least twice as far as the film's own corner.
  const reach = Math.max(
    Math.min(farBeyond / radius, farthest),
    1.05 * Math.hypot(film.across.wavenumbers.at(-1)!, film.along.wavenumbers.at(-1)! / aspect),
  );
  const means = new Float64Array(own * film.along.count);
  const odd = { kSquared: [] as number[], meanSquared: [] as number[] };
  const short = { kSquared: [] as number[], meanSquared: [] as number[] };
  const coupled = film.relief && new Set(film.relief.index);
  let [second, fourth] = [0, 0];
  for (const sideX of sides) {
    const inX = functionsAt(film.edges.sides, sideX, Math.ceil(reach / Math.PI) + 1, x);
    for (const sideY of sides) {
      const inY = functionsAt(film.edges.ends, sideY, Math.ceil((reach * aspect) / Math.PI) + 1, y);
      const even = sideX === "even" && sideY === "even";
      for (let m = 0; m < inX.values.length; m++) {
        for (let n = 0; n < inY.values.length; n++) {
          const kSquared = inX.wavenumbers[m]! ** 2 + (inY.wavenumbers[n]! / aspect) ** 2;
          if (kSquared > reach * reach) break;
          const low = m < own && n < film.along.count;
          const product = inX.values[m]! * inY.values[n]!;
          if (product === 0) continue;
          const mean = product * diskMean(Math.sqrt(kSquared) * radius);
          if (even && low) {
            const index = m * film.along.count + n;
            means[index] = mean;
            if (coupled && !coupled.has(index)) {
              short.kSquared.push(kSquared);
              short.meanSquared.push(mean * mean);
            }
          } else if (low) {
            odd.kSquared.push(kSquared);
            odd.meanSquared.push(mean * mean);
          } else {
            second += (mean * mean) / kSquared;
            fourth += (mean * mean) / kSquared ** 2;
          }
        }
      }
    }
  }
  // Mean over the lattice: one function for each pi^2 / (4 aspect) of the plane's quarter, of mean square 1 / 4 there.
  second += (aspect / (2 * Math.PI)) * diskTail(reach * radius);
  return {
    hole,
    means,
    odd: wavesOf(odd),
    short: wavesOf(short),
    near: Math.min(Number.POSITIVE_INFINITY, ...short.kSquared),
    second,
    fourth,
  };
}

const wavesOf = (waves: { readonly kSquared: readonly number[]; readonly meanSquared: readonly number[] }): Waves => ({
  kSquared: Float64Array.from(waves.kSquared),
  meanSquared: Float64Array.from(waves.meanSquared),
});

const sides: readonly Side[] = ["even", "odd"];

/** Wavenumbers of the film's functions in one direction, and their values at a place. */
function functionsAt(edge: FilmEdge, side: Side, count: number, place: number) {
  const { wavenumbers } = pressureTerms(edge, side, count);
  const values = wavenumbers.map((c) => (side === "odd" ? sin(c * place) : c === 0 ? Math.SQRT1_2 : cos(c * place)));
  return { wavenumbers, values };
}

/** Functions farther out than this are taken by their mean, however small the hole; at 200 the lattice is even to 1e-4 of it. */
const farthest = 200;

const { nodes, weights } = gaussLegendre(8);

/** integral of (2 J1(x) / x)^2 / x from `from` on; beyond 12 by its mean, 4 / (3 pi x^3). */
function diskTail(from: number): number {
  if (from >= farBeyond) return 4 / (3 * Math.PI * cube(from));
  // In the logarithm of x, half a turn of J1 at most in a panel.
  let sum = 0;
  let low = from;
  while (low < farBeyond) {
    const high = Math.min(farBeyond, Math.max(2 * low, 1e-6), low + 1.5);
    const [a, b] = [Math.log(low), Math.log(high)];
    for (let i = 0; i < nodes.length; i++) {
      sum += ((weights[i]! * (b - a)) / 2) * diskMean(Math.exp((a + b) / 2 + (nodes[i]! * (b - a)) / 2)) ** 2;
    }
    low = high;
  }
  return sum + 4 / (3 * Math.PI * cube(farBeyond));
}

/** Mean of a plane wave over a disk, 2 J1(x) / x. */
const diskMean = (x: number): number => (x < 1e-6 ? 1 : (2 * besselValues(2, x)[1]!) / x);

/** Psi and chi of a film; `atHole`: those of the gap over the hole, where that is not the gap everywhere. */
export interface FilmAtHole {
  readonly psi: Complex;
  readonly chi: Complex;
  readonly atHole?: { readonly psi: Complex; readonly chi: Complex } | null;
}

/**
 * What the functions outside the film's own add to Z_s [Pa s/m3]. Under a bent diaphragm waves so short that only the gap over the
 * hole is in their reach meet that one; of the film's own, which have the mean, the difference is made up here.
 */
export function restImpedance(
  hole: WallHole,
  { across, along }: Microphone["diaphragm"],
  { psi, chi, atHole }: FilmAtHole,
): Complex {
  const quarter = (across * along) / 4;
  const unit = (across / 2) ** 2;
  const over = atHole ?? { psi, chi };
  const parted = atHole ? partedAt(hole.odd, hole.near) : { low: hole.odd, short: none };
  let sum = add(wavesOver(parted.low, unit, psi, chi), wavesOver(parted.short, unit, over.psi, over.chi));
  if (atHole)
    sum = add(
      sum,
      subtract(wavesOver(hole.short, unit, atHole.psi, atHole.chi), wavesOver(hole.short, unit, psi, chi)),
    );
  const inverse = divide(complex(1), over.psi);
  const ratio = multiply(over.chi, inverse);
  const tail = multiply(inverse, subtract(complex(hole.second * unit), scale(ratio, hole.fourth * unit * unit)));
  // Above the hole the air leaves at once and the pressure is even: the even flow within its disk, U / (8 pi Psi), is not there.
  const within = scale(inverse, 1 / (8 * Math.PI));
  return subtract(scale(add(sum, tail), 1 / quarter), within);
}

const none: Waves = { kSquared: new Float64Array(0), meanSquared: new Float64Array(0) };

/** Waves below a squared wavenumber, and from there on. */
function partedAt({ kSquared, meanSquared }: Waves, near: number): { readonly low: Waves; readonly short: Waves } {
  const of = (is: (k: number) => boolean) => ({
    kSquared: kSquared.filter(is),
    meanSquared: meanSquared.filter((_, i) => is(kSquared[i]!)),
  });
  return { low: of((k) => k < near), short: of((k) => k >= near) };
}

/** sum g^2 / (Psi k^2 + chi) */
function wavesOver({ kSquared, meanSquared }: Waves, unit: number, psi: Complex, chi: Complex): Complex {
  let [re, im] = [0, 0];
  for (let i = 0; i < kSquared.length; i++) {
    const k = kSquared[i]! / unit;
    const dRe = psi.re * k + chi.re;
    const dIm = psi.im * k + chi.im;
    const share = meanSquared[i]! / (dRe * dRe + dIm * dIm);
    re += dRe * share;
    im -= dIm * share;
  }
  return { re, im };
}

/** Integrals over the area of |grad p|^2 [Pa2] and |p|^2 [Pa2 m2], per |U|^2. */
export interface RestIntegrals {
  readonly gradient: number;
  readonly pressure: number;
}

/**
 * Those of the same functions, to the order that `restImpedance` keeps: what meets the film's gap, or the mean of an uneven one,
 * and what meets the gap over the hole where that is another.
 */
export function restIntegrals(
  hole: WallHole,
  { across, along }: Microphone["diaphragm"],
  { psi, chi, atHole }: FilmAtHole,
): { readonly film: RestIntegrals; readonly atHole: RestIntegrals } {
  const quarter = (across * along) / 4;
  const unit = (across / 2) ** 2;
  const over = atHole ?? { psi, chi };
  const parted = atHole ? partedAt(hole.odd, hole.near) : { low: hole.odd, short: none };
  const odd = waveIntegrals(parted.low, unit, psi, chi);
  const oddShort = waveIntegrals(parted.short, unit, over.psi, over.chi);
  const psiSquared = over.psi.re * over.psi.re + over.psi.im * over.psi.im;
  const ratio = divide(over.chi, over.psi);
  const tail = {
    gradient:
      (hole.second * unit - 2 * ratio.re * hole.fourth * unit * unit) / psiSquared / quarter -
      1 / (8 * Math.PI * psiSquared),
    pressure: (hole.fourth * unit * unit) / psiSquared / quarter,
  };
  const odds = { gradient: odd.gradient / quarter, pressure: odd.pressure / quarter };
  if (!atHole) {
    const both = { gradient: odds.gradient + tail.gradient, pressure: odds.pressure + tail.pressure };
    return { film: both, atHole: { gradient: 0, pressure: 0 } };
  }
  const [short, local] = [
    waveIntegrals(hole.short, unit, psi, chi),
    waveIntegrals(hole.short, unit, over.psi, over.chi),
  ];
  return {
    film: { gradient: odds.gradient - short.gradient / quarter, pressure: odds.pressure - short.pressure / quarter },
    atHole: {
      gradient: tail.gradient + (local.gradient + oddShort.gradient) / quarter,
      pressure: tail.pressure + (local.pressure + oddShort.pressure) / quarter,
    },
  };
}

function waveIntegrals({ kSquared, meanSquared }: Waves, unit: number, psi: Complex, chi: Complex): RestIntegrals {
  let [gradient, pressure] = [0, 0];
  for (let i = 0; i < kSquared.length; i++) {
    const k = kSquared[i]! / unit;
    const d = add(scale(psi, k), chi);
    const share = meanSquared[i]! / (d.re * d.re + d.im * d.im);
    gradient += k * share;
    pressure += share;
  }
  return { gradient, pressure };
}
