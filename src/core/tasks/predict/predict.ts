/** From a project to what that microphone does. */

import {
  answerFor,
  answerIn,
  createEngine,
  type Engine,
  type EngineAnswer,
  floorShare,
  type Manner,
  type ShapeEntry,
  scanOf,
  settle,
  shapeEntry,
} from "../../microphone/engine.ts";
import { loudestAt } from "../../microphone/loudest/loudest.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { heatSystem } from "../../microphone/noise/heatSystem.ts";
import { noiseOf } from "../../microphone/noise/noise.ts";
import { followedRates } from "../../microphone/poles/followPoles.ts";
import { reducedModel } from "../../microphone/poles/poleModel.ts";
import { asPole, findPoles, mayCreep, type Poles, slowPoles } from "../../microphone/poles/poles.ts";
import { enginePoles } from "../../microphone/poles/shapePoles.ts";
import { ventCorner } from "../../microphone/poles/ventCorner.ts";
import { type Band, bandAround } from "../../microphone/response/band.ts";
import { type Curve, readCurve } from "../../microphone/response/curve.ts";
import { fieldResponse } from "../../microphone/response/field.ts";
import { readLine } from "../../microphone/response/staticSensitivity.ts";
import {
  lumpedShare,
  type PoleWithResidue,
  ringDown,
  stepAnswer,
  timeModel,
} from "../../microphone/response/timeAnswers.ts";
import { biasAtRest } from "../../microphone/rest/biasAtRest.ts";
import { restingBias } from "../../microphone/rest/restingBias.ts";
import { isUneven } from "../../microphone/system/bentFilm.ts";
import { coupledSystem, plateWithFewer } from "../../microphone/system/coupled.ts";
import type { Line } from "../../microphone/system/line.ts";
import { hasWallHole } from "../../microphone/system/wallHole.ts";
import { type Complex, complex, scale } from "../../numerics/complex.ts";
import { equalRatios } from "../../numerics/power.ts";
import { isBowed } from "../../parts/diaphragm/diaphragm.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { staticPlate, staticPlateFrom } from "../../parts/diaphragm/statics.ts";
import { filmRegime } from "../../parts/film/regime.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import { type Brief, briefDefaults, readBrief } from "../../project/brief.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { aroundCards } from "./aroundCards.ts";
import { cardsOf } from "./cards.ts";
import { heardPoles } from "./heardPoles.ts";
import { jetRemarks } from "./jets.ts";
import { lightOf } from "./light.ts";
import { lightRemarks } from "./lightRemarks.ts";
import { limitCards } from "./limitCards.ts";
import { limitRemarks } from "./limitRemarks.ts";
import { mainResonance, sharesOf } from "./mainResonance.ts";
import { narrowPeaks } from "./narrowPeaks.ts";
import { partsOfAnswer } from "./parts.ts";
import type { Prediction, Watched } from "./prediction.ts";
import { remarksOn } from "./remarks.ts";
import { siteRemarks } from "./siteRemarks.ts";
import { straightnessAt } from "./straightness.ts";
import { strengthFor } from "./strengthFor.ts";
import { verdicts } from "./verdict.ts";
import { vibrationOf } from "./vibration.ts";

export interface PredictOptions {
  /** Frequencies of the response [Hz], in the order wanted; a grid of 400 when absent. */
  readonly frequencies?: readonly number[];
  /** Keeps what depends on shapes only between calls; a new one for each call when absent. */
  readonly engine?: Engine;
  /**
   * "exact" (default): whole basis, poles polished and counted. "quick": for an answer under a moving hand, a reduced basis
   * where the shape was asked for before; within 1e-4 of the exact one, or the whole basis answers.
   */
  readonly manner?: Manner;
  /** A shape that is only passed through: what is kept of it is used, and nothing is prepared for its next question. */
  readonly passing?: boolean;
}

/**
 * Predicts a project's microphone: response, resonances, damping, sensitivity against guide position, band, verdict.
 * Refused with every problem of the description, or with those of its static state (`settled`).
 */
export function predict(project: Project, options: PredictOptions = {}): Outcome<Prediction> {
  const engine = options.engine ?? createEngine();
  const stands = standing(project, options, engine);
  if (!stands.ok) return stands;
  return answer(predictMicrophone(stands.value, readBrief(project), { ...options, engine }, stands.remarks));
}

/** The microphone as it stands under what loads it at rest, with all remarks so far. */
function standing(project: Project, options: PredictOptions, engine: Engine): Outcome<Microphone> {
  const described = describe(project);
  if (!described.ok) return described;
  const asked = inRange(options.frequencies ?? []);
  const stands = settle(engine, described.value);
  if (!stands.ok || asked.length > 0) return refuse(...asked, ...(stands.ok ? [] : stands.problems));
  return answer(stands.value, [...described.remarks, ...stands.remarks]);
}

/** Highest frequency that makes sense to ask [Hz]: no film, hole or plate here is modeled anywhere near it. */
const highest = 1e9;

function inRange(frequencies: readonly number[]): readonly Problem[] {
  return frequencies.flatMap((frequency, i) =>
    frequency > 0 && frequency <= highest
      ? []
      : [
          {
            code: "frequency-out-of-range",
            path: ["frequencies", i],
            message: `Frequency ${i + 1} is ${frequency} Hz; needed: more than 0 and at most ${highest / 1e9} GHz.`,
          },
        ],
  );
}

// Below so many frequencies each is solved by itself; more are read from the curve, which agrees to 1e-7.
const solvedOneByOne = 24;
const curveTolerance = 1e-7;
/** Of a quick answer; ten times as much is trusted [-]. */
export const quickTolerance = 1e-5;

/** What `watch` and `predict` both begin with: the answer, its poles, and everything that a hand sees move. */
function beginning(microphone: Microphone, brief: Brief, options: PredictOptions & { readonly watched?: boolean }) {
  const engine = options.engine ?? createEngine();
  const manner = options.manner ?? "exact";
  const entry = shapeEntry(engine, microphone);
  const { lambda } = plateScales(microphone.diaphragm);
  const modes = entry.modes.map((mode) => ({
    frequency: Math.sqrt(mode.lambda / lambda) / (2 * Math.PI),
    parity: mode.parity,
  }));
  const first = modes[0]?.frequency ?? 0;
  const range = curveRange(first, brief, options.frequencies ?? []);
  const upTo = Math.max(4 * first, 2 * (brief.band?.to ?? 0));
  const question = { ...range, tolerance: manner === "quick" ? quickTolerance : curveTolerance, manner };
  const exact = manner === "exact" ? findPoles(entry.prepared, microphone, { upTo, atLeast: 4 }) : null;
  const quick = exact
    ? null
    : quickPoles(engine, entry, microphone, { upTo, first, passing: options.passing ?? false });
  const known = isKnown(entry, options.passing ?? false) && !hasWallHole(microphone);
  const answered =
    exact || !known
      ? answerIn(engine, entry, microphone, question, (exact ?? quick!).basis)
      : answerFor(engine, entry, microphone, question);
  const { curve, line } = answered;
  const respond = (frequency: number) => answered.respond(complex(2 * Math.PI * frequency));

  const frequencies = options.frequencies ?? defaultGrid(range, first);
  const { poles, shares } = exact
    ? heardPoles(entry.prepared, exact, microphone, answered)
    : { poles: quick!, shares: sharesOf(quick!, microphone, line) };
  engine.lastPoles = poles.near.map((omega) => scale(omega, 1 / (2 * Math.PI * first)));
  const { resonances, decays, withResidues, atRest } = shares;
  const resonance = mainResonance(resonances, decays);
  const atReference = respond(brief.reference);
  const magnitude = Math.hypot(atReference.re, atReference.im);
  const scan = scanOf(entry, microphone);
  const within = brief.band?.withinDb ?? briefDefaults.withinDb;
  const edges: Band =
    magnitude > 0 ? bandAround(curve, { reference: brief.reference, within }) : { from: null, to: null };
  const response = responseOver(frequencies, curve, respond, options.watched ?? false);
  const band = {
    within,
    reference: brief.reference,
    level: magnitude > 0 ? 20 * Math.log10(magnitude) : null,
    ...edges,
  };
  const seen = {
    response,
    sensitivity: {
      static: line.static,
      frequency: brief.reference,
      magnitude,
      scan: { at: scan.at, value: scan.value },
      best: scan.best,
      nulls: scan.nulls,
    },
    deflection: {
      center: staticPlateFrom(entry.prepared.fine, entry.static, microphone.diaphragm).deflection(0, 0),
    },
    modes,
    resonances,
    decays,
    resonance,
    time: timeOf(withResidues, { poles, atRest, resonance, respond }),
    band,
    film: regimeOf(microphone, resonance.frequency ?? first),
    resolution: {
      functions: Math.min(entry.detail.functions.across, entry.detail.functions.along),
      filmTerms: entry.detail.filmTerms,
      change: manner === "quick" ? (answered.checked ?? 0) : changeFrom(answered, microphone, [first / 4, 1.3 * first]),
      samples: curve.samples,
      curveError: curve.error,
      route: answered.route,
    },
  };
  return { manner, entry, range, answered, curve, line, respond, poles, magnitude, seen };
}

/**
 * What a hand sees move, and no more: noise, loudest sound, strength, vibration, field, parts, cards and remarks are left to
 * `predict`; their requirements are not judged. Refused as `predict` is.
 */
export function watch(project: Project, options: PredictOptions = {}): Outcome<Watched> {
  const engine = options.engine ?? createEngine();
  const stands = standing(project, options, engine);
  if (!stands.ok) return stands;
  return answer(watchMicrophone(stands.value, readBrief(project), { ...options, engine }), stands.remarks);
}

/** The same for a microphone in SI that has settled (rest.ts). */
export function watchMicrophone(microphone: Microphone, brief: Brief, options: PredictOptions): Watched {
  const { range, seen } = beginning(microphone, brief, { ...options, watched: true });
  const later = { noise: null, loudest: null, strength: null, vibration: { worst: null } };
  return { ...seen, verdict: verdicts(brief, { ...seen, ...later, computed: range }) };
}

/** The same for a microphone in SI that has settled (rest.ts). */
export function predictMicrophone(
  microphone: Microphone,
  brief: Brief,
  options: PredictOptions,
  remarks: readonly Problem[],
): Prediction {
  const { manner, entry, range, answered, curve, line, respond, poles, magnitude, seen } = beginning(
    microphone,
    brief,
    options,
  );
  const { response, resonances, resonance, band, modes } = seen;
  const computed = {
    ...seen,
    field: fieldOf(microphone, response),
    vibration: vibrationOf(answered, brief, {
      response,
      respond,
      mass: microphone.diaphragm.density * microphone.diaphragm.thickness,
    }),
    parts:
      manner === "quick"
        ? null
        : partsOfAnswer(answered, microphone, {
            resonances,
            resonance,
            band,
            oscillating: poles.oscillating,
          }),
    straightness: manner === "quick" ? null : straightnessAt(microphone, loudAt(brief, line, respond)),
    rest: restAnswer(microphone),
    bias: biasAtRest(microphone),
  };
  const bias = restingBias(microphone);
  const light = lightOf(microphone, brief, {
    sensitivity: magnitude,
    bias,
    load: computed.bias.map(({ load }) => load),
  });
  const noise = noiseOf({
    microphone,
    entry,
    curve,
    response: computed.response,
    reference: brief.reference,
    magnitude,
    peaks: narrowPeaks(resonances, modes, microphone),
    bias,
  });
  const loudest = loudestAt(entry, microphone, {
    frequency: brief.loudest?.at ?? brief.reference,
    distortion: brief.loudest?.distortion ?? briefDefaults.distortion,
    bias,
  });
  const strength = strengthFor(entry, microphone, brief, {
    moved: loudest.moved,
    corner: () => (computed.parts ? computed.parts.corner : ventCorner(heatSystem(entry, microphone).even.system)),
  });
  return {
    ...computed,
    light,
    noise,
    loudest,
    strength,
    verdict: verdicts(brief, { ...computed, computed: range, noise, loudest, strength }),
    cards: {
      ...cardsOf(microphone, computed),
      ...aroundCards(microphone, computed),
      ...limitCards({ noise, loudest, strength }),
    },
    remarks: [
      ...remarks,
      ...remarksOn(microphone, computed, curve),
      ...(manner === "quick" ? [] : jetRemarks(coupledSystem(entry.prepared, microphone), brief)),
      ...siteRemarks(microphone, brief, { deflection: seen.deflection.center, contact: loudest.contact }),
      ...lightRemarks(microphone, brief, light),
      ...limitRemarks({ noise, loudest, strength }, brief),
    ],
  };
}

/** Whether quick answers use the shape's own bases: asked for before, or there already where it is only passed through. */
const isKnown = ({ uses, response, poles }: ShapeEntry, passing: boolean): boolean =>
  passing ? response !== null && poles !== null : uses > 1;

function restAnswer({ diaphragm, load, film }: Microphone): Prediction["rest"] {
  if (!load?.settled) return null;
  const { center, mean, gap } = load.settled;
  return {
    difference: load.difference,
    moment: isBowed(diaphragm) ? (diaphragm.moment ?? null) : null,
    center,
    mean,
    gap: film && gap !== null ? { built: gap, computed: film.gap } : null,
  };
}

/** Where the brief asks for the loudest sound, and how far the diaphragm follows there as it does when slow. */
function loudAt(brief: Brief, line: Line, respond: (frequency: number) => Complex) {
  const frequency = brief.loudest?.at ?? brief.reference;
  const { re, im } = respond(frequency);
  return { frequency, gain: line.static === 0 ? 0 : Math.hypot(re, im) / Math.abs(line.static) };
}

/** First resonances up to which a shape's basis holds the poles, and a little less. */
const farTo = 6.7;

/** Poles under a moving hand: from where the last answer had them, in the shape's own basis where it has one. */
function quickPoles(
  engine: Engine,
  entry: ShapeEntry,
  microphone: Microphone,
  { upTo, first, passing }: { readonly upTo: number; readonly first: number; readonly passing: boolean },
): Poles {
  const near = engine.lastPoles.map((pole) => scale(pole, 2 * Math.PI * first));
  // Own motions do not know the flow through one hole in the wall.
  const bored = hasWallHole(microphone);
  const search = (to: number): Poles =>
    isKnown(entry, passing) && !bored
      ? enginePoles(entry, microphone, { upTo: to, near })
      : findPoles(entry.prepared, microphone, { upTo: to, quick: true, near });
  // What an overdamped film lets ring is heard at once after a tone that it damps: as many poles as an exact answer lists. Where the
  // last answer was overdamped the first search goes as far.
  const far = Math.max(upTo, farTo * first);
  const wasDamped = near.length > 0 && mayCreep(near.map(asPole), first);
  const few = search(wasDamped ? far : upTo);
  const found = !wasDamped && few.oscillating.length < 4 && mayCreep(few.oscillating, first) ? search(far) : few;
  // Where the resonance itself may creep they have been searched.
  const searched = mayCreep(found.oscillating, first);
  if (searched) engine.lastRates = found.real.map(({ rate }) => rate);
  return passing && !searched && !bored ? { ...found, real: slowUnderHand(engine, entry, microphone, found) } : found;
}

/** Slow poles show in the answer to a step: under a hand they are followed from the last answer, or searched once. */
function slowUnderHand(
  engine: Engine,
  entry: ShapeEntry,
  microphone: Microphone,
  { basis, upTo }: Poles,
): Poles["real"] {
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const followed = isUneven(microphone)
    ? null
    : followedRates(reducedModel(entry.prepared, basis, lossless), engine.lastRates);
  const few = entry.poles?.few ?? null;
  const real =
    followed?.map(({ omega }) => ({ rate: omega.im })) ??
    slowPoles(entry.prepared, basis, microphone, 2 * Math.PI * upTo, { creeps: false, few });
  engine.lastRates = real.map(({ rate }) => rate);
  return real;
}

/** From below everything asked to above it, and past the second resonance's foot [Hz]. */
export function curveRange(first: number, brief: Brief, asked: readonly number[]): { from: number; to: number } {
  // Only as far as the linear model reaches with the functions that it has: some ten resonances.
  const inReach = asked.filter((frequency) => frequency > 0 && frequency < 12 * first);
  const lowest = Math.min(10, first / 100, brief.reference / 2, (brief.band?.from ?? 20) / 2);
  return {
    from: inReach.reduce((low, frequency) => Math.min(low, frequency), lowest),
    to: inReach.reduce(
      (high, frequency) => Math.max(high, frequency),
      Math.max(2.2 * first, 1.5 * (brief.band?.to ?? 0), 1.5 * brief.reference),
    ),
  };
}

/** 400 frequencies in equal ratios from 10 Hz (or lower) to 2.2 times the first resonance or 1.5 times the band. */
export function defaultGrid({ from, to }: { from: number; to: number }, first: number): readonly number[] {
  const start = Math.min(10, first / 100);
  return Array.from(equalRatios(start, to, 400), (frequency) => Math.max(from, frequency));
}

export function responseOver(
  frequencies: readonly number[],
  curve: Curve,
  respond: (frequency: number) => Complex,
  watched: boolean,
): Prediction["response"] {
  const inside = (frequency: number) => frequency >= curve.from && frequency <= curve.to;
  const readable = curve.converged && frequencies.every(inside);
  const groupDelay = readable && !watched ? groupDelayOf(curve, frequencies) : null;
  if (frequencies.length <= solvedOneByOne || !readable) {
    const values = frequencies.map(respond);
    return { frequency: [...frequencies], re: values.map(({ re }) => re), im: values.map(({ im }) => im), groupDelay };
  }
  const { re, im } = readCurve(curve, Float64Array.from(frequencies));
  return { frequency: [...frequencies], re: [...re], im: [...im], groupDelay };
}

function fieldOf(microphone: Microphone, { frequency, re, im }: Prediction["response"]): Prediction["field"] {
  if (microphone.body === null) return null;
  const over = frequency.map((each, i) => fieldResponse(microphone, each, complex(re[i]!, im[i]!))!);
  return {
    free: { re: over.map(({ free }) => free.re), im: over.map(({ free }) => free.im) },
    random: over.map(({ random }) => random),
    approximate: over.some(({ approximate }) => approximate),
  };
}

/** -d arg S / d omega [s], from the curve a part in 10,000 to either side. */
function groupDelayOf(curve: Curve, frequencies: readonly number[]): number[] {
  const step = 1e-4;
  const below = readCurve(
    curve,
    Float64Array.from(frequencies, (frequency) => frequency * (1 - step)),
  );
  const above = readCurve(
    curve,
    Float64Array.from(frequencies, (frequency) => frequency * (1 + step)),
  );
  return frequencies.map((frequency, i) => {
    const [re, im] = [
      above.re[i]! * below.re[i]! + above.im[i]! * below.im[i]!,
      above.im[i]! * below.re[i]! - above.re[i]! * below.im[i]!,
    ];
    return -Math.atan2(im, re) / (2 * step * 2 * Math.PI * frequency);
  });
}

/** Share of a ring-down's beginning that poles which are not listed may have [-]. */
const mostLumped = 0.5;

/** Ring-down and step over some decay times of the resonance, 300 points each. */
export function timeOf(
  poles: readonly PoleWithResidue[],
  given: {
    readonly poles: Pick<Poles, "upTo">;
    readonly atRest: number;
    readonly resonance: Prediction["resonance"];
    readonly respond: (frequency: number) => Complex;
  },
): Prediction["time"] {
  const { atRest, resonance, respond } = given;
  const model = timeModel(poles, atRest, 2 * given.poles.upTo);
  const frequency = resonance.frequency;
  if (frequency === null || poles.length === 0) return null;
  // Seven decay times of the resonance, but no more than forty periods: what hardly decays is not drawn to its end.
  const damping = Math.min(1, Math.max(resonance.dampingRatio ?? 1, 1e-6));
  const length = Math.min(7 / (2 * Math.PI * frequency * damping), 40 / frequency);
  const count = 300;
  const time = Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
  const tone = { omega: 2 * Math.PI * frequency, response: respond(frequency) };
  // Sealed, or a guide that sees nothing: there is nothing to ring down.
  if (tone.response.re === 0 && tone.response.im === 0) return null;
  // Poles that have met a hole's own on the axis of decay may be lost: then nothing is said.
  if (lumpedShare(model, tone) > mostLumped) return null;
  return {
    ringDown: { time, value: ringDown(model, tone, time) },
    step: { time, value: stepAnswer(model, time) },
  };
}

export function regimeOf({ film, air, diaphragm }: Microphone, frequency: number) {
  if (!film) return null;
  return filmRegime({ film, air, across: diaphragm.across, along: diaphragm.along, frequency });
}

/**
 * Largest relative change of S against one function fewer a direction at a few frequencies, and of the static output against
 * two thirds of the functions: upper estimates of the error.
 */
function changeFrom({ entry, line }: EngineAnswer, microphone: Microphone, frequencies: readonly number[]): number {
  const system = coupledSystem(entry.prepared, microphone);
  const floor = floorShare * Math.abs(line.static);
  const { across, along } = entry.detail.functions;
  const coarse = staticPlate(microphone.diaphragm, { functions: 2 * Math.max(across, along) });
  const statics = microphone.guides.reduce(
    (sum, guide) => sum + guide.weight * readLine(coarse, microphone.diaphragm, guide, microphone.light.wavelength),
    0,
  );
  let change = Math.abs(line.force - statics) / Math.max(Math.abs(line.force), Number.MIN_VALUE);
  for (const frequency of frequencies) {
    const omega = complex(2 * Math.PI * frequency);
    const { value, fewer } = plateWithFewer(system, line, omega);
    const off = Math.hypot(fewer.re - value.re, fewer.im - value.im);
    change = Math.max(change, off / Math.max(Math.hypot(value.re, value.im), floor, Number.MIN_VALUE));
  }
  return change;
}
