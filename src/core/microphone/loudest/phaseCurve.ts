/**
 * The phase of the light against the pressure across the diaphragm, slow against its resonance: bent by stiffening (odd) and by the
 * stretch of the neutral plane (even).
 *
 *     phi(p) = sum of guides of  x (<eps_x0> - z <w_xx>) + y (<eps_y0> - z <w_yy>)  at the state of large deflection under p
 *
 * Solved at Chebyshev points and interpolated between them. Derivation: docs/theory/largeDeflection.md.
 */
import { cube } from "../../numerics/power.ts";
import { cos } from "../../numerics/sine.ts";
import { type LargeDeflection, largeDeflection } from "../../parts/diaphragm/largeDeflection.ts";
import type { Microphone } from "../microphone.ts";
import { readLine, type StaticLines } from "../response/staticSensitivity.ts";
import { standsFlat } from "../rest/rest.ts";

export interface PhaseCurve {
  /** Static pressure difference that sound comes on top of [Pa]. */
  readonly about: number;
  /** Phase at that difference, against the flat plate [rad]: it belongs to the bias. */
  readonly atRest: number;
  /** Change of the phase = linear p + quadratic p^2 + cubic p^3 [rad/Pa, rad/Pa^2, rad/Pa^3] about the difference. */
  readonly series: { readonly linear: number; readonly quadratic: number; readonly cubic: number };
  /** Largest |p| that the curve was solved for [Pa]. */
  readonly reach: number;
  /** Loads solved for the curve. */
  readonly loads: number;
  /** Change of the phase at p beyond the difference, |p| <= reach [rad]. */
  at(pressure: number): number;
  /** Amplitudes a_k of the phase under a slow tone, phi(P cos t) = sum a_k cos k t, k = 0 .. 8, signed [rad]; P <= reach. */
  harmonics(amplitude: number): Float64Array;
  /** Deflection at the center under p beyond the difference [m]. */
  center(pressure: number): number;
}

const loads = 40;
/** Harmonics counted, and points of half a period for them: the other half is its mirror image. */
const highest = 8;
const points = 32;
/** The curve goes to this deflection over the thickness at most; von Karman's plate is still a good one there. */
const furthest = 2;
/** And not much beyond this share of distortion, by the first terms. */
const enough = 0.1;

/** The curve of all guides together. Throws where the diaphragm is buckled. */
export function phaseCurve(microphone: Microphone): PhaseCurve {
  const { diaphragm, guides, light, load } = microphone;
  const about = load?.difference ?? 0;
  const flatAtRest = standsFlat(microphone);
  const all: Reader = (lines) =>
    guides.reduce((sum, guide) => sum + guide.weight * readLine(lines, diaphragm, guide, light.wavelength), 0);
  const prepared = largeDeflection(diaphragm);
  const flat = flatSeries(prepared, all);
  const reach = reachOf(prepared, flat, { about, thickness: diaphragm.thickness });
  const plate = prepared.reaching(Math.abs(about) + reach);
  const atRest = flatAtRest ? 0 : all(plate.at(about));
  const values = new Float64Array(loads);
  for (let i = 0; i < loads / 2; i++) {
    const under = remembered(plate.at(about + reach * nodes[i]!));
    const opposite = flatAtRest ? mirrored(under) : plate.at(about - reach * nodes[i]!);
    values[i] = all(under) - atRest;
    values[loads - 1 - i] = all(opposite) - atRest;
  }
  const at = (pressure: number) => interpolated(values, pressure / reach);
  return {
    about,
    atRest,
    series: flatAtRest ? flat : seriesAbout(at, all({ line: plate.at(about).slope }), reach),
    reach,
    loads,
    at,
    harmonics: (amplitude) => harmonicsOf((c) => at(amplitude * c)),
    center: (pressure) => plate.at(about + pressure).deflection(0, 0),
  };
}

/** The phase of all guides, of what each line of the plate does. */
type Reader = (lines: StaticLines) => number;

/** Each line read once. */
const remembered = ({ line }: StaticLines): StaticLines => {
  const known = new Map<number, ReturnType<StaticLines["line"]>>();
  return {
    line: (x) => {
      const read = known.get(x) ?? line(x);
      known.set(x, read);
      return read;
    },
  };
};

/** What a flat plate does under the opposite load: it bends the other way and stretches alike. */
const mirrored = ({ line }: StaticLines): StaticLines => ({
  line: (x) => {
    const { xx, yy, ...stretch } = line(x);
    return { ...stretch, xx: -xx, yy: -yy };
  },
});

function flatSeries(plate: LargeDeflection, read: Reader): PhaseCurve["series"] {
  const none = { xx: 0, yy: 0 };
  return {
    linear: read({ line: (x) => plate.series(x).linear }),
    quadratic: read({ line: (x) => ({ ...none, ...plate.series(x).quadratic }) }),
    cubic: read({ line: (x) => plate.series(x).cubic }),
  };
}

/** Pressure of W = 2 by the cubic law, or where the first terms promise distortion enough, if that is less. */
function reachOf(
  { stiffening }: LargeDeflection,
  { linear, quadratic, cubic }: PhaseCurve["series"],
  { about, thickness: h }: { readonly about: number; readonly thickness: number },
): number {
  const most = stiffening.linear * furthest * h + stiffening.cubic * cube(furthest * h);
  const bySquare = quadratic === 0 ? most : (2 * enough * Math.abs(linear)) / Math.abs(quadratic);
  const byCube = cubic === 0 ? most : Math.sqrt((4 * enough * Math.abs(linear)) / Math.abs(cubic));
  const early = Math.min(bySquare, byCube);
  // A guide where the first term all but vanishes has no straight line to leave: then the curve itself is of interest.
  const wanted = early > 1e-3 * most ? Math.min(most, early) : most;
  return Math.max(wanted, 0.1 * Math.abs(about));
}

/** Second and third term about a load, from the curve around it. */
function seriesAbout(at: (pressure: number) => number, linear: number, reach: number): PhaseCurve["series"] {
  const step = 0.05 * reach;
  const even = (p: number) => (at(p) + at(-p)) / 2;
  const odd = (p: number) => (at(p) - at(-p)) / 2 - linear * p;
  // Two steps, so that the next term of either cancels.
  const quadratic = (16 * even(step / 2) - even(step)) / (3 * step ** 2);
  const cubic = (32 * odd(step / 2) - odd(step)) / (3 * cube(step));
  return { linear, quadratic, cubic };
}

/** Chebyshev points of the second kind, -1 .. 1, and their weights in the barycentric formula. */
const nodes = new Float64Array(loads);
const weights = new Float64Array(loads);
for (let i = 0; i < loads / 2; i++) {
  nodes[i] = -cos((Math.PI * i) / (loads - 1));
  nodes[loads - 1 - i] = -nodes[i]!;
  weights[i] = (i % 2 === 0 ? 1 : -1) * (i === 0 ? 0.5 : 1);
  weights[loads - 1 - i] = -weights[i]!;
}

/** Barycentric formula at those points. */
function interpolated(values: Float64Array, t: number): number {
  let [above, below] = [0, 0];
  for (let i = 0; i < loads; i++) {
    const off = t - nodes[i]!;
    if (off === 0) return values[i]!;
    const weight = weights[i]! / off;
    above += weight * values[i]!;
    below += weight;
  }
  return above / below;
}

/** cos k t at the middles of equal parts of half a period, one row a point. */
const cosines = new Float64Array(points * (highest + 1));
for (let j = 0; j < points; j++)
  for (let k = 0; k <= highest; k++) cosines[j * (highest + 1) + k] = cos((Math.PI * k * (j + 0.5)) / points);

function harmonicsOf(phase: (cosine: number) => number): Float64Array {
  const result = new Float64Array(highest + 1);
  for (let j = 0; j < points; j++) {
    const row = j * (highest + 1);
    const value = phase(cosines[row + 1]!);
    for (let k = 0; k <= highest; k++) result[k]! += ((k === 0 ? 1 : 2) / points) * value * cosines[row + k]!;
  }
  return result;
}
