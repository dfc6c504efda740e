/**
 * Many specimens of one design, each with its whole response, poles and an error estimate, in a millisecond or two.
 *
 * Some of the specimens are solved in the whole basis; what spans them answers for all of that kind (shapeSpan.ts). A specimen
 * whose estimate is too large, whose poles are not confirmed by their number, or that is of another kind is answered in the
 * whole basis, and counted. Derivation: docs/theory/engine.md.
 */
import { absolute, type Complex, complex, scale, subtract } from "../../numerics/complex.ts";
import { seededUniform } from "../../numerics/random.ts";
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { isBuckled } from "../../parts/diaphragm/modes.ts";
import { reducedResponseAt, reducedSystem, reduceLine } from "../basis/reduced.ts";
import { createEngine, engineAnswer, floorShare, shapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { followed, oscillates } from "../poles/followPoles.ts";
import { motionResidue } from "../poles/motionResidue.ts";
import { type OwnMotion, ownMotion } from "../poles/ownMotion.ts";
import { modelOf, type PoleModel } from "../poles/poleModel.ts";
import { asPole, findPoles, mayCreep } from "../poles/poles.ts";
import { polesByAxis, realPoles } from "../poles/realPoles.ts";
import { firstOmega } from "../poles/shapePoles.ts";
import { poleResidue, poleShare } from "../poles/shares.ts";
import { type Curve, sampleCurve } from "../response/curve.ts";
import { reducedAccelerationAt } from "../response/vibration.ts";
import { hasNetwork, isBare } from "../system/network.ts";
import { hasWallHole } from "../system/wallHole.ts";
import { type ShapeSpan, type SpannedDevice, spannedDevice, spanShapes } from "./shapeSpan.ts";
import { spanEstimate } from "./spanEstimate.ts";

export interface BatchQuestion {
  /** Range of the response [Hz]. */
  readonly from: number;
  readonly to: number;
  /** Largest |dS| / max(|S|, 1e-3 |S static|) that is wanted [-]; default 1e-4. */
  readonly tolerance?: number;
}

/** What was made ready for a design and its specimens; plain data, so that it travels to workers. */
export interface Batch {
  readonly question: Required<BatchQuestion>;
  /** null: nothing spans these specimens, each is answered in the whole basis. */
  readonly span: ShapeSpan | null;
  /** What all specimens of the span have in common. */
  readonly kind: string;
  /** Poles of the design over its first resonance in vacuum: where those of the specimens are looked for first. */
  readonly near: readonly Complex[];
}

export interface SpecimenAnswer {
  readonly route: "reduced" | "whole";
  /** The response between the limits of the question; `readCurve` reads it. */
  readonly curve: Curve;
  /** The same at any frequency [Hz] up to the question's [rad/Pa]. */
  readonly respond: (frequency: number) => Complex;
  /** Phase per acceleration of the frame along z [rad s2/m]. */
  readonly accelerate: (frequency: number) => Complex;
  /** Static sensitivity of the plate alone [rad/Pa]. */
  readonly static: number;
  /** Output at rest, trapped air included [rad/Pa]. */
  readonly atRest: number;
  /** First resonance in vacuum [Hz]. */
  readonly first: number;
  /** Poles up to 2.4 first resonances, as `Prediction` has them. */
  readonly resonances: readonly { readonly frequency: number; readonly dampingRatio: number; readonly share: number }[];
  readonly decays: readonly { readonly rate: number; readonly share: number }[];
  /** Estimate of the largest |dS| / max(|S|, 1e-3 |S static|) [-]. */
  readonly estimate: number;
}

/** Specimens that the span is made of, the design included; more do not make it better. */
const memberCount = 17;
/** Specimens that the light's influence is spanned over besides. */
const besideCount = 32;
/** Poles are listed up to so many first resonances. */
const polesTo = 2.4;

/**
 * Makes ready for a design and a list of its specimens, which should reach as far as any that will be asked for: corners of the
 * tolerances, or a few dozen at random. Buckled ones must not be among them. Yields after each specimen that is solved.
 */
export function* prepareBatch(
  design: Microphone,
  specimens: readonly Microphone[],
  question: BatchQuestion,
): Generator<{ readonly done: number; readonly of: number }, Batch> {
  const whole = { ...question, tolerance: question.tolerance ?? 1e-4 };
  const kind = kindOf(design);
  const alike = specimens.filter((specimen) => kindOf(specimen) === kind);
  if (alike.length === 0 || kind === alone) return { question: whole, span: null, kind, near: [] };
  const members = [design, ...chosen(alike, memberCount - 1)];
  const beside = chosen(alike, besideCount);
  const first = firstOmega(shapeEntry(createEngine(), design), design) / (2 * Math.PI);
  // Specimens ring higher than the design, too.
  const span = yield* spanShapes(members, 1.1 * Math.max(question.to, polesTo * first), beside);
  const device = spannedDevice(span, design);
  if (device === null) return { question: whole, span: null, kind, near: [] };
  const model = modelOf(reducedSystem(device.matrices, design), device.probe);
  const near = followed(model, null, polesTo * device.firstOmega, device.firstOmega / (2 * Math.PI)) ?? [];
  return { question: whole, span, kind, near: near.map((omega) => scale(omega, 1 / device.firstOmega)) };
}

/** Some of a list, evenly by chance: always the same ones. */
function chosen<T>(list: readonly T[], count: number): readonly T[] {
  if (list.length <= count) return list;
  const random = seededUniform(5);
  return Array.from({ length: count }, (_, i) => list[Math.floor(((i + random()) * list.length) / count)]!);
}

/** What the functions of a span depend on: whether edges turn, the film's edges, and what lies around. */
export function kindOf(microphone: Microphone): string {
  // A plate that stretches at rest and a film with one hole in its wall are no sums of few matrices.
  if (hasWallHole(microphone) || microphone.load || isBowed(microphone.diaphragm)) return alone;
  const { edges } = microphone.diaphragm;
  const film = microphone.film?.edges;
  return JSON.stringify([
    edges.sides === "clamped",
    edges.ends === "clamped",
    film?.sides,
    film?.ends,
    hasNetwork(microphone),
    microphone.front !== null,
    microphone.back !== null,
    isBare(microphone),
  ]);
}

/** Kind of those that nothing spans. */
export const alone = "alone";

/** How specimens were answered so far; a counter of the caller's own. */
export interface BatchCount {
  reduced: number;
  /** Of another kind, or nothing spans them. */
  whole: number;
  /** Estimate too large, or poles not confirmed. */
  fallBack: number;
}

/** One specimen; null where it is buckled. */
export function specimenAnswer(batch: Batch, microphone: Microphone, count?: BatchCount): SpecimenAnswer | null {
  if (batch.span === null || kindOf(microphone) !== batch.kind) {
    if (count) count.whole++;
    return wholeAnswer(batch, microphone);
  }
  const device = spannedDevice(batch.span, microphone);
  if (device === null) return null;
  const answer = spannedAnswer(batch, batch.span, device, microphone);
  if (answer) {
    if (count) count.reduced++;
    return answer;
  }
  if (count) count.fallBack++;
  return wholeAnswer(batch, microphone);
}

/** Shares of the range at which the error is estimated. */
const estimatedAt = [0.3, 0.62, 1] as const;
/** So slow that every vent has let its air through [Hz]. */
const restFrequency = 1e-3;

function spannedAnswer(
  { question, near }: Batch,
  span: ShapeSpan,
  device: SpannedDevice,
  microphone: Microphone,
): SpecimenAnswer | null {
  const { from, to, tolerance } = question;
  const system = reducedSystem(device.matrices, microphone);
  const respond = (omega: Complex) => reducedResponseAt(system, device.line, omega);
  const floor = floorShare * Math.abs(device.line.force);
  const curve = sampleCurve((frequency) => respond(complex(2 * Math.PI * frequency)), {
    from,
    to,
    floor,
    tolerance: tolerance / 3,
  });
  const at = estimatedAt.map((share) => complex(2 * Math.PI * share * to));
  const estimate = Math.max(curve.error, spanEstimate(span, device, system, { at, floor }));
  if (!curve.converged || !(estimate <= 10 * tolerance)) return null;
  const poles = polesOf(device, microphone, near);
  if (poles === null) return null;
  const given = { microphone, basis: device.matrices, line: device.line };
  const atRest = respond(complex(2 * Math.PI * restFrequency)).re;
  const shareOf = (motion: OwnMotion) =>
    poleShare(motionResidue(motion, given), motion.omega, atRest === 0 ? 1 : atRest);
  return {
    route: "reduced",
    curve,
    respond: (frequency) => respond(complex(2 * Math.PI * frequency)),
    accelerate: (frequency) => reducedAccelerationAt(system, device.line, complex(2 * Math.PI * frequency)),
    static: device.line.force,
    atRest,
    first: device.firstOmega / (2 * Math.PI),
    resonances: poles.oscillating.map((motion) => {
      const { frequency, dampingRatio } = asPole(motion.omega);
      return { frequency, dampingRatio, share: shareOf(motion) };
    }),
    decays: poles.real.map((motion) => ({ rate: motion.omega.im, share: shareOf(motion) })),
    estimate,
  };
}

/** Motions at the poles of a specimen; null where their number is not confirmed. */
function polesOf(device: SpannedDevice, microphone: Microphone, near: readonly Complex[]) {
  const model = modelOf(reducedSystem(device.matrices, microphone), device.probe);
  const top = polesTo * device.firstOmega;
  const first = device.firstOmega / (2 * Math.PI);
  const starts = followed(
    model,
    near.map((pole) => scale(pole, device.firstOmega)),
    top,
    first,
  );
  if (starts === null) return null;
  const inside = starts.filter((omega) => absolute(omega) <= top).sort((a, b) => absolute(a) - absolute(b));
  const oscillating = motionsAt(model, inside);
  if (oscillating.length < inside.length) return null;
  const creeps = mayCreep(
    oscillating.map(({ omega }) => asPole(omega)),
    first,
  );
  const axis = creeps ? creepOf(device, microphone, top) : { real: [], turning: [] };
  return { oscillating: withTurning(oscillating, axis.turning), real: axis.real };
}

/** What shows on the imaginary axis: motions that creep back, and such as hardly turn before they have died. */
interface OnAxis {
  readonly real: readonly OwnMotion[];
  readonly turning: readonly OwnMotion[];
}

/** Those that creep without the constant loss factor, which means nothing off the real axis (realPoles.ts). */
export function creepOf(device: SpannedDevice, microphone: Microphone, top: number): OnAxis {
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const modelFor = (one: Microphone) => modelOf(reducedSystem(device.matrices, one), device.probe);
  const model = modelFor(lossless);
  const found = hasNetwork(microphone)
    ? polesByAxis(model, modelFor({ ...lossless, front: null, back: null, body: null }), top)
    : realPoles(model, top).map((rate) => complex(0, rate));
  const real = found.filter(({ re }) => re === 0);
  const pairs = found.filter(({ re }) => re !== 0);
  const turning = pairs.length === 0 ? [] : motionsAt(modelFor(microphone), pairs);
  return { real: motionsAt(model, real), turning: turning.filter(({ omega }) => oscillates(omega, microphone)) };
}

/** Oscillating ones with those of the axis that are none of them, in order of frequency. */
export function withTurning(oscillating: readonly OwnMotion[], turning: readonly OwnMotion[]): readonly OwnMotion[] {
  const isKnown = (pole: Complex) =>
    oscillating.some(({ omega }) => absolute(subtract(omega, pole)) < 0.01 * absolute(pole));
  const more = turning.filter(({ omega }) => !isKnown(omega));
  return [...oscillating, ...more].sort((a, b) => absolute(a.omega) - absolute(b.omega));
}

export const motionsAt = (model: PoleModel, starts: readonly Complex[]): readonly OwnMotion[] =>
  starts.flatMap((start) => ownMotion(model.form, start, { within: 1e-5 }) ?? []);

/** The same for one that no span answers for. */
function wholeAnswer({ question }: Batch, microphone: Microphone): SpecimenAnswer | null {
  if (isBuckled(microphone.diaphragm, 8)) return null;
  const engine = createEngine();
  const { entry, curve, line, respond, accelerate } = engineAnswer(engine, microphone, {
    ...question,
    manner: "exact",
  });
  const first = firstOmega(entry, microphone) / (2 * Math.PI);
  const poles = findPoles(entry.prepared, microphone, { upTo: polesTo * first });
  const system = reducedSystem(poles.basis, microphone);
  const reduced = reduceLine(poles.basis, line);
  const inBasis = (omega: Complex) => reducedResponseAt(system, reduced, omega);
  const all = [...poles.oscillating.map(({ omega }) => omega), ...poles.real.map(({ rate }) => complex(0, rate))];
  const atRest = inBasis(complex(2 * Math.PI * restFrequency)).re;
  const shareOf = (omega: Complex) => poleShare(poleResidue(inBasis, omega, all), omega, atRest === 0 ? 1 : atRest);
  return {
    route: "whole",
    curve,
    respond: (frequency) => respond(complex(2 * Math.PI * frequency)),
    accelerate: (frequency) => accelerate(complex(2 * Math.PI * frequency)),
    static: line.static,
    atRest,
    first,
    resonances: poles.oscillating
      .filter(({ frequency }) => frequency <= polesTo * first)
      .map(({ frequency, dampingRatio, omega }) => ({ frequency, dampingRatio, share: shareOf(omega) })),
    decays: poles.real.map(({ rate }) => ({ rate, share: shareOf(complex(0, rate)) })),
    estimate: curve.error,
  };
}
