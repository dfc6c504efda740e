/** What the linear device does at one tone: what distortion is made from. Derivation: docs/theory/loudest.md. */
import { absolute, add, type Complex, complex, divide, scale, subtract } from "../numerics/complex.ts";
import { type LargeDeflection, largeDeflection } from "../parts/diaphragm/largeDeflection.ts";
import { valuesAt } from "../parts/diaphragm/polynomials.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { filmCoefficients } from "../parts/film/coefficients.ts";
import {
  type CoupledSystem,
  coupledSystem,
  deviceState,
  filmPressure,
  readPhase,
  responseIn,
  setFrequency,
  solveLoad,
} from "./coupled.ts";
import type { ShapeEntry } from "./engine.ts";
import { type Line, prepareLine } from "./line.ts";
import type { Microphone } from "./microphone.ts";
import { type PhaseSeries, phaseSeries, phaseSeriesAbout } from "./phaseSeries.ts";
import { standsFlat } from "./rest.ts";

/** What a device does at one tone, per pascal of sound. */
export interface Tone {
  /** Phase of each guide at the tone [rad/Pa], and per pascal on the plate at twice the tone [rad/Pa]. */
  readonly phase: readonly Complex[];
  readonly plateTwice: readonly Complex[];
  /** Deflection over that at rest under 1 Pa on the plate: at the tone per pascal of sound, at three times per pascal on the plate. */
  readonly moved: Complex;
  readonly plateThrice: Complex;
  /** Film: gap's share of change by the deflection that counts, mean pressure, and the exponent of its stiffness in the gap. */
  readonly film: { readonly closing: Complex; readonly pressure: Complex; readonly exponent: Complex } | null;
  /** Deflection at the center [m/Pa]. */
  readonly center: number;
  /** Flow through the first hole [m3/s per Pa]. */
  readonly front: Complex;
}

/** A diaphragm's series and a guide's line, kept with the shape while the diaphragm and the guides stay. */
export interface LoudestParts {
  readonly key: string;
  readonly lines: readonly Line[];
  readonly series: readonly PhaseSeries[];
  /** p = linear w0 + cubic w0^3 of the flat diaphragm [Pa/m, Pa/m3]. */
  readonly stiffening: LargeDeflection["stiffening"];
}

/** What is needed of a shape. */
export type LoudestEntry = Pick<ShapeEntry, "prepared" | "static" | "loudest">;

export function partsOf(entry: LoudestEntry, microphone: Microphone): LoudestParts {
  const { diaphragm, guides, light, load } = microphone;
  const key = JSON.stringify([diaphragm, guides, light.wavelength, load?.difference ?? 0]);
  if (entry.loudest?.key === key) return entry.loudest;
  // Five functions see the stretch of the smooth first answer to 1e-4; the curvature is read in twelve.
  const plate = largeDeflection(diaphragm, { functions: 5, fine: 12 });
  const made = {
    key,
    lines: guides.map((guide) => prepareLine(entry.prepared, { ...microphone, guides: [{ ...guide, weight: 1 }] })),
    series: guides.map((guide) => seriesOf(plate, microphone, guide)),
    stiffening: plate.stiffening,
  };
  entry.loudest = made;
  return made;
}

/** About a static load the slope of the phase is taken a little to either side of it. */
function seriesOf(plate: LargeDeflection, microphone: Microphone, guide: Microphone["guides"][0]): PhaseSeries {
  const { diaphragm, light, load } = microphone;
  const given = { guide, wavelength: light.wavelength, diaphragm };
  return standsFlat(microphone) ? phaseSeries(plate, given) : phaseSeriesAbout(plate, given, load?.difference ?? 0);
}

/** `parts.lines`: those of the guides one by one, each with weight 1. */
export function toneAt(
  entry: Pick<LoudestEntry, "prepared" | "static">,
  microphone: Microphone,
  parts: Pick<LoudestParts, "lines">,
  frequency: number,
): Tone {
  const { prepared } = entry;
  const { diaphragm } = microphone;
  const system = coupledSystem(prepared, microphone);
  const [once, twice, thrice] = [1, 2, 3].map((k) => complex(2 * Math.PI * frequency * k)) as [
    Complex,
    Complex,
    Complex,
  ];
  const { deflection } = plateScales(diaphragm);
  const load = prepared.plate.load;
  const swept = (q: { re: Float64Array; im: Float64Array }) => ({ re: dot(load, q.re), im: dot(load, q.im) });
  // At rest, by the same functions: a hertz is slow enough for plate and film without holes.
  const atRest = dot(prepared.fine.load, entry.static);
  setFrequency(system, thrice);
  const plateThrice = scale(swept(solveLoad(system, load)), 1 / atRest);
  setFrequency(system, twice);
  const onTwice = solveLoad(system, load);
  const plateTwice = parts.lines.map((line) => readPhase(system, line, onTwice, twice));
  const state = deviceState(system, once);
  const q = { re: new Float64Array(load.length), im: new Float64Array(load.length) };
  addTimes(q, state.onFront, state.front);
  if (state.behind) addTimes(q, state.behind.q, scale(state.back, -1));
  const moved = scale(swept(q), 1 / atRest);
  const film = filmAt(system, q, once);
  const phase = parts.lines.map((line) => responseIn(system, line, state, once));
  const center = (deflection * atRest * absolute(moved) * centerOverMean(entry)) / 4;
  return { phase, plateTwice, moved, plateThrice, film, center, front: state.front };
}

/** The deflection at the center over its mean, of the plate at rest. */
function centerOverMean({ prepared, static: answer }: Pick<LoudestEntry, "prepared" | "static">): number {
  const { fine } = prepared;
  const [across, along] = [fine.across, fine.along].map((basis) => valuesAt(basis, 0).value) as [
    Float64Array,
    Float64Array,
  ];
  let center = 0;
  for (let i = 0; i < across.length; i++)
    for (let j = 0; j < along.length; j++) center += answer[i * along.length + j]! * across[i]! * along[j]!;
  return (4 * center) / dot(fine.load, answer);
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function addTimes(
  target: { re: Float64Array; im: Float64Array },
  vector: { readonly re: Float64Array; readonly im: Float64Array },
  factor: Complex,
): void {
  for (let i = 0; i < target.re.length; i++) {
    target.re[i]! += vector.re[i]! * factor.re - vector.im[i]! * factor.im;
    target.im[i]! += vector.re[i]! * factor.im + vector.im[i]! * factor.re;
  }
}

/**
 * The film under the deflection q: the gap closes by <w^2> / (<w> g) where it is squeezed, and its pressure goes with the gap to
 * the power -n: 3 for slow flow, 1 for air's mass or a spring.
 */
function filmAt(
  system: CoupledSystem,
  q: { readonly re: Float64Array; readonly im: Float64Array },
  omega: Complex,
): Tone["film"] {
  const { microphone, prepared, scales, ones } = system;
  const { film } = microphone;
  if (!film || !prepared.film || !ones) return null;
  const pressure = filmPressure(system, prepared.film, q);
  const mean = { re: dot(ones, pressure.re) / 4, im: dot(ones, pressure.im) / 4 };
  const swept = { re: dot(prepared.plate.load, q.re), im: dot(prepared.plate.load, q.im) };
  const squares = quadratic(prepared.mass, q);
  const closing = scale(divide(squares, swept), scales.deflection / film.gap);
  return { closing, pressure: mean, exponent: filmExponent(microphone, omega) };
}

/** n = d ln(Psi k^2 + chi) / d ln g at the film's longest wave [-]: its pressure goes with the gap to the power -n. */
export function filmExponent({ film, air, diaphragm }: Microphone, omega: Complex): Complex {
  if (!film) return complex(0);
  const open = (edge: "open" | "closed", side: number) => (edge === "open" ? (Math.PI / side) ** 2 : 0);
  const k2 = open(film.edges.sides, diaphragm.across) + open(film.edges.ends, diaphragm.along);
  const stiff = (gap: number) => {
    const { psi, chi } = filmCoefficients({ gap, air, omega });
    return add(scale(psi, k2), chi);
  };
  const step = 1e-4;
  return divide(subtract(stiff(film.gap * (1 + step)), stiff(film.gap * (1 - step))), scale(stiff(film.gap), 2 * step));
}

/** q^T M q. */
function quadratic(
  matrix: Float64Array,
  { re, im }: { readonly re: Float64Array; readonly im: Float64Array },
): Complex {
  const n = re.length;
  let [sumRe, sumIm] = [0, 0];
  for (let i = 0; i < n; i++) {
    let [a, b] = [0, 0];
    for (let k = 0; k < n; k++) {
      a += matrix[i * n + k]! * re[k]!;
      b += matrix[i * n + k]! * im[k]!;
    }
    sumRe += re[i]! * a - im[i]! * b;
    sumIm += re[i]! * b + im[i]! * a;
  }
  return { re: sumRe, im: sumIm };
}
