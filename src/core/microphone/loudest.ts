/**
 * The loudest sound: where the output's total harmonic distortion comes to a given share, by readout, by the diaphragm's
 * stretching and stiffening, and by the film that is squeezed, each alone and all together.
 *
 * The linear device gives the phase, deflection and film pressure at the tone; quadratic and cubic terms of diaphragm and film
 * make phases at twice and three times its frequency, which the readout's curve mixes. Complex amplitudes are summed, then
 * the distortion is taken. Derivation: docs/theory/loudest.md. Holds: weak distortion, up to a tenth or so; jet loss in holes
 * and sound's own nonlinearity are left out.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../numerics/complex.ts";
import { holeImpedance } from "../parts/acoustics/tube.ts";
import { type LargeDeflection, largeDeflection } from "../parts/diaphragm/largeDeflection.ts";
import { valuesAt } from "../parts/diaphragm/polynomials.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import { filmCoefficients } from "../parts/film/coefficients.ts";
import { type DistortedGuide, totalDistortion } from "../parts/readout/distortion.ts";
import { outputCurve } from "../parts/readout/operating.ts";
import { transferOf } from "../parts/readout/transfer.ts";
import { referencePressure, soundLevelDb } from "../quantity/kinds.ts";
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

export const distortionCauses = ["readout", "diaphragm", "film"] as const;
export type DistortionCause = (typeof distortionCauses)[number];

export interface Loudest {
  /** Frequency of the tone [Hz], and the distortion asked for [-]. */
  readonly frequency: number;
  readonly distortion: number;
  /** Level at which it is reached, or at which the diaphragm meets the wall, dB re 20 uPa; null: no linear output at this bias. */
  readonly level: number | null;
  /** The same by each cause alone, null: not below 200 dB. */
  readonly byCause: Readonly<Record<DistortionCause, number | null>>;
  /** Level at which the diaphragm touches the wall behind the film; null: no film, or not below 200 dB. */
  readonly contact: number | null;
  /** Cause that comes first. */
  readonly first: DistortionCause | "contact" | null;
  /** Level at which a port's voltage leaves the converter's full scale, the steady part taken off; null: not given. */
  readonly converter: number | null;
  /** Level at which the air in the narrowest front hole moves as far as its radius: jet loss begins, which is not computed. */
  readonly jet: number | null;
  /** Mean deflection at the tone over that at rest under the same pressure [-]. */
  readonly moved: number;
}

/** What a device does at one tone, per pascal of sound. */
interface Tone {
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
}

/** What is needed of a shape. */
export type LoudestEntry = Pick<ShapeEntry, "prepared" | "static" | "loudest">;

const most = 200;

/** Level at which the distortion is reached at a frequency. `bias`: retardation at rest of each guide [rad]; null: unknown. */
export function loudestAt(
  entry: LoudestEntry,
  microphone: Microphone,
  question: { readonly frequency: number; readonly distortion: number; readonly bias: readonly (number | null)[] },
): Loudest {
  const { frequency, distortion, bias } = question;
  const parts = partsOf(entry, microphone);
  const tone = toneAt(entry, microphone, parts, frequency);
  const distorted = guidesOf(microphone, parts, tone, bias);
  const levelOf = (causes: ReadonlySet<DistortionCause>) =>
    distorted && firstLevel((pressure) => totalDistortion(distorted(pressure, causes)) ?? 1, distortion);
  const all = levelOf(new Set(distortionCauses));
  const alone = (cause: DistortionCause) => levelOf(new Set([cause]));
  const byCause = { readout: alone("readout"), diaphragm: alone("diaphragm"), film: alone("film") };
  const contact = contactLevel(microphone, tone.center);
  const level = distorted === null ? null : least([all, contact]);
  return {
    frequency,
    distortion,
    level,
    byCause,
    contact,
    first: level === null ? null : firstOf({ ...byCause, contact }),
    converter: converterLevel(microphone, tone, bias),
    jet: jetLevel(microphone, tone, frequency),
    moved: absolute(tone.moved),
  };
}

const least = (levels: readonly (number | null)[]): number | null => {
  const known = levels.filter((level) => level !== null);
  return known.length === 0 ? null : Math.min(...known);
};

function firstOf(levels: Readonly<Record<DistortionCause | "contact", number | null>>): Loudest["first"] {
  let first: Loudest["first"] = null;
  for (const cause of [...distortionCauses, "contact"] as const) {
    const level = levels[cause];
    if (level !== null && level < (first === null ? Number.POSITIVE_INFINITY : (levels[first] ?? 0))) first = cause;
  }
  return first;
}

/** Amplitude of a tone of a level [Pa], and the level of a tone of an amplitude: levels are of root mean squares. */
const amplitudeOf = (level: number): number => Math.SQRT2 * referencePressure * 10 ** (level / 20);
const levelOfAmplitude = (amplitude: number): number => soundLevelDb(amplitude / Math.SQRT2);

/** The lowest level where a share is reached, dB re 20 uPa: in steps of 5 dB from 40 dB, then halved to 1e-3 dB. */
function firstLevel(share: (pressure: number) => number, asked: number): number | null {
  const at = (level: number) => share(amplitudeOf(level)) - asked;
  if (at(40) >= 0) return null;
  for (let level = 40; level < most; level += 5) {
    if (at(level + 5) < 0) continue;
    let [low, high] = [level, level + 5];
    while (high - low > 1e-3) {
      const middle = (low + high) / 2;
      if (at(middle) < 0) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }
  return null;
}

function partsOf(entry: LoudestEntry, microphone: Microphone): LoudestParts {
  const { diaphragm, guides, light, load } = microphone;
  const key = JSON.stringify([diaphragm, guides, light.wavelength, load?.difference ?? 0]);
  if (entry.loudest?.key === key) return entry.loudest;
  // Five functions see the stretch of the smooth first answer to 1e-4; the curvature is read in twelve.
  const plate = largeDeflection(diaphragm, { functions: 5, fine: 12 });
  const made = {
    key,
    lines: guides.map((guide) => prepareLine(entry.prepared, { ...microphone, guides: [{ ...guide, weight: 1 }] })),
    series: guides.map((guide) => seriesOf(plate, microphone, guide)),
  };
  entry.loudest = made;
  return made;
}

/** About a static load the slope of the phase is taken a little to either side of it. */
function seriesOf(plate: LargeDeflection, microphone: Microphone, guide: Microphone["guides"][0]): PhaseSeries {
  const { diaphragm, light, load } = microphone;
  const given = { guide, wavelength: light.wavelength, diaphragm };
  return load && load.difference !== 0 ? phaseSeriesAbout(plate, given, load.difference) : phaseSeries(plate, given);
}

function toneAt(entry: LoudestEntry, microphone: Microphone, parts: LoudestParts, frequency: number): Tone {
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
function centerOverMean({ prepared, static: answer }: LoudestEntry): number {
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

function dot(a: Float64Array, b: Float64Array): number {
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
 * the power -n, n = d ln(Psi k^2 + chi) / d ln g at the film's longest wave: 3 for slow flow, 1 for air's mass or a spring.
 */
function filmAt(
  system: CoupledSystem,
  q: { readonly re: Float64Array; readonly im: Float64Array },
  omega: Complex,
): Tone["film"] {
  const { microphone, prepared, scales, ones } = system;
  const { film, air, diaphragm } = microphone;
  if (!film || !prepared.film || !ones) return null;
  const pressure = filmPressure(system, prepared.film, q);
  const mean = { re: dot(ones, pressure.re) / 4, im: dot(ones, pressure.im) / 4 };
  const swept = { re: dot(prepared.plate.load, q.re), im: dot(prepared.plate.load, q.im) };
  const squares = quadratic(prepared.mass, q);
  const closing = scale(divide(squares, swept), scales.deflection / film.gap);
  const open = (edge: "open" | "closed", side: number) => (edge === "open" ? (Math.PI / side) ** 2 : 0);
  const k2 = open(film.edges.sides, diaphragm.across) + open(film.edges.ends, diaphragm.along);
  const stiff = (gap: number) => {
    const { psi, chi } = filmCoefficients({ gap, air, omega });
    return add(scale(psi, k2), chi);
  };
  const step = 1e-4;
  const change = divide(
    subtract(stiff(film.gap * (1 + step)), stiff(film.gap * (1 - step))),
    scale(stiff(film.gap), 2 * step),
  );
  return { closing, pressure: mean, exponent: change };
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

type Distorted = (pressure: number, causes: ReadonlySet<DistortionCause>) => readonly DistortedGuide[];

/** Null where a bias is unknown or a readout stands in its null. */
function guidesOf(
  { guides, readout }: Microphone,
  { series }: LoudestParts,
  tone: Tone,
  bias: readonly (number | null)[],
): Distorted | null {
  const { amplitude, angle } = outputCurve(transferOf(readout), readout.outputs);
  if (amplitude === 0 || bias.some((one) => one === null || Math.abs(Math.sin(one + angle)) < 1e-9)) return null;
  return (pressure, causes) =>
    guides.map((guide, i) => {
      const rest = (bias[i] ?? 0) + angle;
      const slope = -amplitude * Math.sin(rest);
      const first = scale(tone.phase[i]!, pressure);
      const { second, third, shift } = overtones(tone, series[i]!, i, pressure, causes);
      // Without the readout's own curve a small phase stands for the large one.
      const small = causes.has("readout") ? 1 : 1e-4 / Math.max(absolute(first), 1e-30);
      return {
        weight: guide.weight,
        amplitude,
        rest: causes.has("readout") ? rest : -Math.PI / 2,
        slope: causes.has("readout") ? slope : amplitude,
        phases: [scale(first, small), scale(second, small), scale(third, small)],
        shift: causes.has("readout") ? shift : 0,
      };
    });
}

/** Phases at twice and three times the tone, and the steady shift [rad]. */
function overtones(
  { moved, plateThrice, film, plateTwice }: Tone,
  { quadratic, cubic }: PhaseSeries,
  i: number,
  pressure: number,
  causes: ReadonlySet<DistortionCause>,
) {
  let [second, third] = [complex(0), complex(0)];
  let shift = 0;
  const load = scale(moved, pressure);
  if (causes.has("diaphragm")) {
    // (Re W e^{i omega t})^2 = |W|^2 / 2 + Re W^2 e^{2 i omega t} / 2, and the cube's part at three times is W^3 / 4.
    second = scale(multiply(load, load), quadratic / 2);
    third = scale(multiply(multiply(multiply(load, load), load), plateThrice), cubic / 4);
    shift = (quadratic * absolute(load) ** 2) / 2;
  }
  if (causes.has("film") && film) {
    const force = scale(multiply(multiply(film.closing, film.pressure), film.exponent), pressure ** 2 / 2);
    second = subtract(second, multiply(plateTwice[i]!, force));
  }
  return { second, third, shift };
}

/** The wall is met where the static deflection and the amplitude at the center use up the gap. */
function contactLevel({ film, load }: Microphone, center: number): number | null {
  if (!film || center === 0) return null;
  const settled = load?.settled;
  const room = settled ? (settled.gap ?? film.gap) - settled.center : film.gap;
  const level = levelOfAmplitude(room / center);
  return level < most ? level : null;
}

/** Half the full scale against the swing of one port's voltage, a linear estimate. */
function converterLevel(
  { light, readout }: Microphone,
  { phase }: Tone,
  bias: readonly (number | null)[],
): number | null {
  const { responsivity, resistor, fullScale } = readout.receiver;
  const [atRest] = bias;
  const [first] = phase;
  if (light.launched === null || responsivity === null || resistor === null || fullScale === null) return null;
  if (atRest === null || atRest === undefined || first === undefined) return null;
  const port = transferOf(readout).first;
  const power = (light.launched * light.transmission) / phase.length;
  const perRadian = responsivity * power * resistor * port.amplitude * Math.abs(Math.sin(atRest + port.angle));
  const perPascal = perRadian * absolute(first);
  return perPascal > 0 ? levelOfAmplitude(fullScale / 2 / perPascal) : null;
}

/** Air in a hole moves by |p_s - p_f| / |Z_h| / (omega S). */
function jetLevel({ front, air }: Microphone, tone: Tone, frequency: number): number | null {
  const omega = 2 * Math.PI * frequency;
  const across = absolute(subtract(complex(1), tone.front));
  const levels = (front?.holes ?? []).map((hole) => {
    const area = (Math.PI * hole.diameter ** 2) / 4;
    const moved = across / absolute(holeImpedance({ ...hole, air, omega: complex(omega) })) / (omega * area);
    return moved > 0 ? levelOfAmplitude(hole.diameter / 2 / moved) : null;
  });
  return least(levels);
}
