/** What a tone does to a device on the functions of a span: as `toneAt` (tone.ts), by products in place of solutions. */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import {
  evenSides,
  motionBetween,
  type ReducedLine,
  type ReducedSides,
  type ReducedSystem,
  reducedSides,
} from "../basis/reduced.ts";
import { dot } from "../basis/reducedBasis.ts";
import type { Multiple } from "../loudest/harmonicBalance.ts";
import { type Answer, multiplesToThird, restFrequency, slowShareOf, type Tone } from "../loudest/tone.ts";
import type { Microphone } from "../microphone.ts";
import { flowPerAnswer } from "../system/coupledState.ts";
import {
  hasNetwork,
  type Lumped,
  lumpedParts,
  type Pressures,
  portMatrix,
  solveNetwork,
  solvePorts,
} from "../system/network.ts";
import { angular } from "./judgeable.ts";
import { guideLines, type ShapeSpan, type SpannedDevice } from "./shapeSpan.ts";

/** Lines of light with the weight that each still carries. */
export interface GuidesInSpan {
  readonly lines: readonly [ReducedLine, ...ReducedLine[]];
  readonly weight: number;
}

/** The guides one by one: of a single one the device's own line, with its weight. */
export function guidesOf(span: ShapeSpan, device: SpannedDevice, microphone: Microphone): GuidesInSpan {
  const [{ weight }] = microphone.guides;
  if (microphone.guides.length === 1 && weight !== 0) return { lines: [device.line], weight };
  const [first, ...others] = guideLines(span, device, microphone);
  return { lines: [first!, ...others], weight: 1 };
}

/** A device at one frequency: what pressures before and behind it do. */
export interface AnswersAt {
  readonly omega: Complex;
  /** For each line of light. */
  readonly sides: readonly [ReducedSides, ...ReducedSides[]];
  /** The air around; null: none. */
  readonly lumped: Lumped | null;
  /** Flow that an even pressure stores in the film [m3/(Pa s)]; null: no film. */
  readonly stored: Complex | null;
}

export function answersAt(system: ReducedSystem, [line, ...others]: GuidesInSpan["lines"], omega: Complex): AnswersAt {
  const { microphone, basis } = system;
  const { across, along } = microphone.diaphragm;
  const sides = reducedSides(system, line, omega);
  return {
    omega,
    sides: [sides, ...others.map((other) => evenSides(system, other, omega))],
    lumped: hasNetwork(microphone) ? lumpedParts(microphone, omega, basis.nearField) : null,
    stored: system.numbers && scale(system.numbers.chi, across * along),
  };
}

/** The phases for 1 Pa of sound, and the pressures before and behind. */
export function soundOf({ sides, lumped }: AnswersAt): Pressures & { readonly phase: readonly Complex[] } {
  const { front, back } = lumped ? solveNetwork(lumped, sides[0].ports) : nothingAround;
  return { front, back, phase: sides.map((side) => phaseOf(side, { front, back })) };
}

const nothingAround: Pressures = { front: complex(1), back: complex(0) };

const phaseOf = ({ byFront, byBack }: ReducedSides, { front, back }: Pressures): Complex =>
  subtract(multiply(front, byFront), multiply(back, byBack));

/** 1 Pa on the plate alone: `front` counts it beside what the flows, that the pressed plate takes and puts behind, make there. */
function pressed({ sides: [{ ports }], lumped }: AnswersAt): Pressures {
  if (lumped === null) return nothingAround;
  const driven = { front: scale(ports.frontFront, -1), back: ports.frontBack };
  const { front, back } = solvePorts(portMatrix(lumped, ports), driven, complex(0));
  return { front: add(front, complex(1)), back };
}

/**
 * What pressures before and behind do, from the flows Y_ff = i omega s F^T A^-1 F and so on:
 *
 *     x = (Y_ff p_f - Y_fb p_b) / (i omega s F^T F),   film = ((Y_ff - Y_fb) p_f - (Y_fb - Y_bb) p_b) / (chi A) - (1 - Y / (chi A)) p_b
 *
 * because C D 1 = (F - B) i omega s / chi, and Y = chi A - chi^2 1^T D 1 / (i omega s).
 */
function answerTo(system: ReducedSystem, { omega, sides, stored }: AnswersAt, pressures: Pressures): Answer {
  const { load } = system.basis;
  const { frontFront, frontBack, backBack, film } = sides[0].ports;
  const { front, back } = pressures;
  const sweeping = subtract(multiply(front, frontFront), multiply(back, frontBack));
  return {
    moved: scale(divide(sweeping, flowPerAnswer(system, omega)), 1 / dot(load, load)),
    film: stored
      ? divide(
          subtract(
            subtract(sweeping, multiply(front, frontBack)),
            multiply(back, subtract(subtract(stored, film), backBack)),
          ),
          stored,
        )
      : complex(0),
    phase: sides.map((side) => phaseOf(side, pressures)),
  };
}

/** `slow`: answers of the device's own line at `restFrequency`. */
export function toneInSpan(
  system: ReducedSystem,
  { lines, weight }: GuidesInSpan,
  given: { readonly frequency: number; readonly slow: AnswersAt; readonly centerOverMean: number },
): Tone {
  const { basis, microphone, scales } = system;
  const { frequency, slow, centerOverMean } = given;
  const each = (phase: readonly Complex[]) => (weight === 1 ? phase : phase.map((one) => scale(one, 1 / weight)));
  const slowShare = slowShareOf(microphone);
  const nothing: Answer = { moved: complex(0), film: complex(0), phase: [] };
  let tone: Pick<Tone, "phase" | "closing" | "moved" | "center" | "front"> | null = null;
  const plate: (readonly Complex[])[] = [];
  const multiples: Multiple[] = [];
  for (let k = 0; k <= multiplesToThird; k++) {
    const omega = angular(k === 0 ? restFrequency : k * frequency);
    const here = k === 0 && lines.length === 1 ? slow : answersAt(system, lines, omega);
    const under = answerTo(system, here, pressed(here));
    let sound = nothing;
    if (k === 1) {
      const { front, back } = soundOf(here);
      sound = answerTo(system, here, { front, back });
      const size = absolute(sound.moved);
      tone = {
        phase: each(sound.phase),
        closing: closingOf(system, motionBetween(system, { front, back }), sound.moved),
        moved: size,
        center: (scales.deflection * dot(basis.load, basis.load) * size * centerOverMean) / 4,
        front,
      };
    }
    plate.push(each(under.phase));
    multiples.push({
      moved: { sound: sound.moved, plate: k === 0 ? complex(under.moved.re) : under.moved },
      film: { sound: sound.film, plate: k === 0 ? complex(under.film.re) : under.film },
      slow: slowShare(omega),
    });
  }
  return { ...tone!, plate, multiples };
}

/** Share of the gap by the deflection of 1 Pa at rest [1/Pa], as tone.ts has it. */
function closingOf({ basis, microphone, scales }: ReducedSystem, plate: ComplexVector, moved: Complex): number {
  if (!microphone.film) return 0;
  let [squaresRe, squaresIm, sweptRe, sweptIm] = [0, 0, 0, 0];
  for (let i = 0; i < basis.count; i++) {
    const [re, im] = [plate.re[i]!, plate.im[i]!];
    const [mass, load] = [basis.mass[i]!, basis.load[i]!];
    squaresRe += mass * (re * re - im * im);
    squaresIm += mass * 2 * re * im;
    sweptRe += load * re;
    sweptIm += load * im;
  }
  const perSwept = divide(complex(squaresRe, squaresIm), complex(sweptRe, sweptIm));
  return divide(scale(perSwept, scales.deflection / microphone.film.gap), moved).re;
}
