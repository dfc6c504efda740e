/**
 * Microphones along one value that a hand moves: sides, thickness, edges. Each is another shape; what spans a few of them answers
 * for all between them in some milliseconds (shapeSpan.ts), with an estimate of its error.
 *
 * The number of poles is not counted for each: they are followed from the answer before, and searched afresh and counted where
 * one is lost. Derivation: docs/theory/engine.md.
 */
import { absolute, type Complex, complex } from "../../numerics/complex.ts";
import { reducedResponseAt, reducedSystem } from "../basis/reduced.ts";
import { floorShare } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { followed, followedRates, isAmong, oscillates } from "../poles/followPoles.ts";
import { type OwnMotion, ownMotion } from "../poles/ownMotion.ts";
import { modelOf, type PoleModel } from "../poles/poleModel.ts";
import { asPole, mayCreep, type Poles } from "../poles/poles.ts";
import { type Curve, sampleCurve } from "../response/curve.ts";
import { alone, creepOf, kindOf, motionsAt, withTurning } from "./batch.ts";
import { type ShapeSpan, type SpannedDevice, spannedDevice, spanShapes } from "./shapeSpan.ts";
import { spanEstimate } from "./spanEstimate.ts";

/** Plain data, so that it travels to workers. */
export interface Passage {
  readonly span: ShapeSpan;
  /** What all microphones of the span have in common. */
  readonly kind: string;
}

/**
 * Spans some microphones, each up to a frequency of its own [Hz]; the light's influence over those `beside` as well. None of them
 * may be buckled. Null where nothing spans that kind: under a static load, with one hole in the wall. Yields after each.
 */
export function* spanPassage(
  members: readonly Microphone[],
  beside: readonly Microphone[],
  upTo: (microphone: Microphone) => number,
): Generator<{ readonly done: number; readonly of: number }, Passage | null> {
  const [first] = members;
  const kind = first === undefined ? alone : kindOf(first);
  const alike = members.filter((one) => kindOf(one) === kind);
  if (kind === alone || alike.length < 2) return null;
  return { span: yield* spanShapes(alike, upTo, beside, { motions: "read" }), kind };
}

export interface PassingQuestion {
  /** Range of the curve [Hz]. */
  readonly from: number;
  readonly to: number;
  /** Of the curve, relative to max(|S|, 1e-3 |S static|); an error estimated above ten times as much is not trusted [-]. */
  readonly tolerance: number;
  /** Poles are listed up to so many hertz at least. */
  readonly polesTo: number;
  /** Where they should be, over the first resonance in vacuum; empty: nobody knows. */
  readonly near: readonly Complex[];
  /** Rates of the real poles of the answer before [1/s]; null: nobody knows, they are searched. */
  readonly slow: readonly number[] | null;
}

export interface PassingAnswer {
  readonly device: SpannedDevice;
  readonly curve: Curve;
  /** S at a frequency [Hz], [rad/Pa]. */
  readonly respond: (frequency: number) => Complex;
  readonly poles: Pick<Poles, "oscillating" | "motions" | "real" | "near" | "upTo">;
  /** Estimate of the largest |dS| / max(|S|, 1e-3 |S static|) [-]. */
  readonly estimate: number;
}

/** Where the error is estimated, as shares of the range from its lower end. */
const estimatedAt = [0, 0.3, 0.62, 1] as const;

/** One device of a span; null where it is another kind, buckled, or where its error or its poles are not known well enough. */
export function passingAnswer(
  span: ShapeSpan,
  device: SpannedDevice,
  microphone: Microphone,
  question: PassingQuestion,
): PassingAnswer | null {
  const { from, to, tolerance } = question;
  const system = reducedSystem(device.matrices, microphone);
  const at = (omega: Complex) => reducedResponseAt(system, device.line, omega);
  const respond = (frequency: number) => at(complex(2 * Math.PI * frequency));
  const floor = floorShare * Math.abs(device.line.force);
  const curve = sampleCurve(respond, { from, to, floor, tolerance });
  const looked = estimatedAt.map((share) => complex(2 * Math.PI * (from + share * (to - from))));
  const estimate = Math.max(curve.error, spanEstimate(span, device, system, { at: looked, floor }));
  if (!curve.converged || !(estimate <= 10 * tolerance)) return null;
  const poles = passingPoles(device, microphone, question);
  return poles && { device, curve, respond, poles, estimate };
}

/** The device of a passage; null where it is of another kind or buckled. */
export const passingDevice = ({ span, kind }: Passage, microphone: Microphone): SpannedDevice | null =>
  kindOf(microphone) === kind ? spannedDevice(span, microphone) : null;

function passingPoles(
  device: SpannedDevice,
  microphone: Microphone,
  { polesTo, near, slow }: PassingQuestion,
): PassingAnswer["poles"] | null {
  const model = modelOf(reducedSystem(device.matrices, microphone), device.probe);
  const { firstOmega } = device;
  const first = firstOmega / (2 * Math.PI);
  const top = 2 * Math.PI * polesTo;
  const starts = near.map(({ re, im }) => ({ re: re * firstOmega, im: im * firstOmega }));
  const motions = allFollowed(model, starts) ?? counted(model, starts, top, first);
  if (motions === null) return null;
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const creeping = modelOf(reducedSystem(device.matrices, lossless), device.probe);
  // Where the resonance itself may creep, poles meet on the axis: none may be missing there.
  const sorted = [...motions].sort((a, b) => absolute(a.omega) - absolute(b.omega));
  const creeps = mayCreep(
    sorted.map(({ omega }) => asPole(omega)),
    first,
  );
  const led = creeps ? null : followedRates(creeping, slow);
  const axis = led ? { real: led, turning: [] } : creepOf(device, microphone, top);
  // Those a little beyond the limit are known as well, and what rings begins with them.
  const all = withTurning(sorted, axis.turning);
  const oscillating = all.map(({ omega }) => asPole(omega));
  return {
    oscillating,
    motions: all,
    real: axis.real.map(({ omega }) => ({ rate: omega.im })),
    near: all.map(({ omega }) => omega),
    upTo: Math.max(polesTo, 1.001 * (oscillating.at(-1)?.frequency ?? 0)),
  };
}

/** Every pole from where it was; null where one is lost, has met another one or no longer turns. */
function allFollowed(model: PoleModel, starts: readonly Complex[]): readonly OwnMotion[] | null {
  const motions: OwnMotion[] = [];
  for (const start of starts) {
    const motion = ownMotion(model.form, start, { within: 1e-5 });
    if (motion === null || !oscillates(motion.omega, model.microphone)) return null;
    const known = motions.map(({ omega }) => omega);
    if (isAmong(motion.omega, known)) return null;
    motions.push(motion);
  }
  return motions.length === 0 ? null : motions;
}

function counted(
  model: PoleModel,
  starts: readonly Complex[],
  top: number,
  first: number,
): readonly OwnMotion[] | null {
  const found = followed(model, starts.length > 0 ? starts : null, top, first);
  if (found === null) return null;
  const motions = motionsAt(model, found);
  return motions.length < found.length ? null : motions;
}
