/**
 * A device on the functions of a span (shapeSpan.ts), as a verdict needs it: response, the poles that it shows, tones, each in a
 * fraction of a millisecond. One whose estimate is too large is no answer: ask `judgedAlone`.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import {
  alikeSystem,
  type ReducedLine,
  type ReducedSystem,
  reducedResponseAt,
  reducedStates,
  reducedSystem,
} from "../basis/reduced.ts";
import { dot } from "../basis/reducedBasis.ts";
import { floorShare } from "../engine.ts";
import type { Multiple } from "../loudest/harmonicBalance.ts";
import { multiplesToThird, restFrequency, slowShare, type Tone } from "../loudest/tone.ts";
import type { Microphone } from "../microphone.ts";
import { creepPartner } from "../poles/creepPartner.ts";
import { readMotion } from "../poles/motionResidue.ts";
import { reducedCorner } from "../poles/ventCorner.ts";
import { sampleCurve } from "../response/curve.ts";
import { reducedAccelerationAt } from "../response/vibration.ts";
import { angular, type Judgeable, type RangeOf } from "./judgeable.ts";
import { polesShown } from "./polesShown.ts";
import { guideLines, type ShapeSpan, type SpannedDevice, spannedDevice } from "./shapeSpan.ts";
import { spanEstimate } from "./spanEstimate.ts";

/** Shares of the range at which the error is estimated. */
const estimatedAt = [0.4, 1] as const;

export interface SpannedQuestion {
  readonly rangeOf: RangeOf;
  /** Of the curve, relative to max(|S|, 1e-3 |S static|) [-]; ten times as much is trusted as an estimate. */
  readonly tolerance: number;
}

/** "buckled" where it is; null where the span does not reach. */
export function judgedInSpan(
  span: ShapeSpan,
  microphone: Microphone,
  { rangeOf, tolerance }: SpannedQuestion,
): Judgeable | "buckled" | null {
  const device = spannedDevice(span, microphone);
  if (device === null) return "buckled";
  const { line } = device;
  const system = reducedSystem(device.matrices, microphone);
  const respond = (omega: Complex) => reducedResponseAt(system, line, omega);
  const floor = Math.max(floorShare * Math.abs(line.force), Number.MIN_VALUE);
  const range = rangeOf(device.firstOmega / (2 * Math.PI));
  const curve = sampleCurve((frequency) => respond(angular(frequency)), {
    ...range,
    floor,
    tolerance,
    begin: 17,
    most: 121,
  });
  const at = estimatedAt.map((share) => angular(share * range.to));
  const estimate = Math.max(curve.error, spanEstimate(span, device, system, { at, floor }));
  if (!curve.converged || !(estimate <= 10 * tolerance)) return null;
  const atRest = respond(angular(restFrequency)).re;
  // A loss factor makes no heat in creeping: without it S is real on the imaginary axis.
  const lossless = alikeSystem(system, { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } });
  const poles = polesShown(
    curve,
    {
      respond,
      lossless: (rate) => reducedResponseAt(lossless, line, complex(0, rate)).re,
      partner: (rate) => creepPartner(lossless, rate),
    },
    atRest === 0 ? 1 : atRest,
  );
  return {
    microphone,
    curve,
    respond,
    accelerate: (omega) => reducedAccelerationAt(system, line, omega),
    estimate,
    ...poles,
    volume: device.volume,
    tone: (frequency, centerOverMean) =>
      toneInSpan(system, linesOf(span, device, microphone), { frequency, centerOverMean: centerOverMean ?? 1 }),
    heatLine: null,
    corner: () => reducedCorner(system),
  };
}

/** Lines of the guides one by one, each with weight 1. */
function linesOf(span: ShapeSpan, device: SpannedDevice, microphone: Microphone): readonly ReducedLine[] {
  const [{ weight }] = microphone.guides;
  const alone = microphone.guides.length === 1 && weight !== 0;
  return alone ? [weight === 1 ? device.line : times(device.line, 1 / weight)] : guideLines(span, device, microphone);
}

const times = (line: ReducedLine, factor: number): ReducedLine => {
  const by = (row: Float64Array) => row.map((value) => value * factor);
  return {
    force: line.force * factor,
    mass: by(line.mass),
    tension: line.tension && by(line.tension),
    stretched: null,
    film: by(line.film),
  };
};

/** As `toneAt` (tone.ts) on the functions of the span, of which the answer at rest is one. */
function toneInSpan(
  system: ReducedSystem,
  lines: readonly ReducedLine[],
  { frequency, centerOverMean }: { readonly frequency: number; readonly centerOverMean: number },
): Tone {
  const { basis, microphone, scales } = system;
  const atRest = dot(basis.load, basis.load);
  const movedBy = ({ re, im }: ComplexVector): Complex =>
    complex(dot(basis.load, re) / atRest, dot(basis.load, im) / atRest);
  const meanOf = ({ re, im }: ComplexVector): Complex =>
    microphone.film ? complex(dot(basis.ones, re) / 4, dot(basis.ones, im) / 4) : complex(0);
  const zero = complex(0);
  let tone: Pick<Tone, "phase" | "closing" | "moved" | "center" | "front"> | null = null;
  const plate: Complex[][] = [];
  const multiples: Multiple[] = [];
  for (let k = 0; k <= multiplesToThird; k++) {
    const omega = angular(k === 0 ? restFrequency : k * frequency);
    const states = reducedStates(system, omega);
    const pressed = states.pressed();
    plate.push(lines.map((line) => readMotion({ omega, ...pressed }, microphone, line)));
    const sound = k === 1 ? states.sound() : null;
    const [moved, film] = [movedBy(pressed.plate), meanOf(pressed.film)];
    multiples.push({
      moved: { sound: sound ? movedBy(sound.plate) : zero, plate: k === 0 ? complex(moved.re) : moved },
      film: { sound: sound ? meanOf(sound.film) : zero, plate: k === 0 ? complex(film.re) : film },
      slow: slowShare(microphone, omega),
    });
    if (sound === null) continue;
    const swept = movedBy(sound.plate);
    tone = {
      phase: lines.map((line) => readMotion({ omega, ...sound }, microphone, line)),
      closing: closingOf(system, sound.plate, swept),
      moved: absolute(swept),
      center: (scales.deflection * atRest * absolute(swept) * centerOverMean) / 4,
      front: sound.front,
    };
  }
  return { ...tone!, plate, multiples };
}

/** Share of the gap by the deflection of 1 Pa at rest [1/Pa], as tone.ts has it. */
function closingOf({ basis, microphone, scales }: ReducedSystem, plate: ComplexVector, moved: Complex): number {
  if (!microphone.film) return 0;
  let [squares, swept] = [complex(0), complex(0)];
  for (let i = 0; i < basis.count; i++) {
    const q = { re: plate.re[i]!, im: plate.im[i]! };
    squares = add(squares, scale(multiply(q, q), basis.mass[i]!));
    swept = add(swept, scale(q, basis.load[i]!));
  }
  return divide(scale(divide(squares, swept), scales.deflection / microphone.film.gap), moved).re;
}
