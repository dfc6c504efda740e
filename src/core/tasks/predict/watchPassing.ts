/** What a hand sees move while it holds one value; where that changes the shape, read in a span of shapes along it. */

import { type Engine, settle } from "../../microphone/engine.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { type Band, bandAround } from "../../microphone/response/band.ts";
import { sensitivityScan } from "../../microphone/response/sensitivityScan.ts";
import { settled } from "../../microphone/rest/rest.ts";
import { type Passage, passingAnswer, passingDevice, spanPassage } from "../../microphone/span/passage.ts";
import { spannedRest } from "../../microphone/span/shapeSpan.ts";
import { firstFrequency } from "../../microphone/system/prepare.ts";
import { scale } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import { cos } from "../../numerics/sine.ts";
import { plateShape } from "../../parts/diaphragm/shape.ts";
import { answer, type Outcome } from "../../problem.ts";
import { type Brief, briefDefaults, readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { type Variation, vary } from "../../project/paths.ts";
import { mainResonance, sharesIn } from "./mainResonance.ts";
import { curveRange, defaultGrid, quickTolerance, regimeOf, responseOver, timeOf, watchMicrophone } from "./predict.ts";
import type { Watched } from "./prediction.ts";
import { verdicts } from "./verdict.ts";

/** What spans the shapes along one value of a project; plain data, so that it travels to workers. */
export interface ValuePassage {
  readonly path: string;
  /** Reach of the value [SI]. */
  readonly low: number;
  readonly high: number;
  readonly passage: Passage;
}

/** How far from where it stands a value is spanned, as ratios. */
const reach = { low: 0.7, high: 1.45 } as const;
/** Places that are tried for a microphone that can be. */
const tried = 24;
const memberCount = 6;
const besideCount = 10;

/**
 * Spans the shapes along a value, as far around it as there are microphones. Null where the value changes no shape, is zero or
 * absent, or where nothing spans such a microphone. Yields after each shape. Problems: those of `vary`.
 */
export function* passageAlong(
  project: Project,
  path: string,
): Generator<{ readonly done: number; readonly of: number }, Outcome<ValuePassage | null>> {
  const variation = vary(project, [path]);
  if (!variation.ok) return variation;
  const { start, at } = variation.value;
  const now = start[0] ?? 0;
  const microphoneAt = (value: number): Microphone | null => {
    const described = at([value]);
    const stands = described.ok ? settled(described.value) : described;
    return stands.ok ? stands.value : null;
  };
  if (!(now > 0)) return answer(null);
  const [low, high] = [farthest(now, now * reach.low, microphoneAt), farthest(now, now * reach.high, microphoneAt)];
  const [first, last] = [microphoneAt(low), microphoneAt(high)];
  if (!first || !last || !(high > 1.01 * low) || sameShape(first, last)) return answer(null);
  const between = (share: number) => low * pow(high / low, share);
  // Chebyshev's points: closer together at the ends.
  const members = Array.from({ length: memberCount }, (_, k) =>
    microphoneAt(between((1 - cos((Math.PI * (k + 0.5)) / memberCount)) / 2)),
  ).filter((one) => one !== null);
  const beside = Array.from({ length: besideCount }, (_, k) => microphoneAt(between(k / (besideCount - 1)))).filter(
    (one) => one !== null,
  );
  const brief = readBrief(project);
  const upTo = (microphone: Microphone) => {
    // Tension raises what it estimates.
    const first = (1.2 * firstFrequency(microphone.diaphragm)) / (2 * Math.PI);
    return Math.max(polesTo(first, brief), curveRange(first, brief, []).to);
  };
  const passage = yield* spanPassage(members, beside, upTo);
  return answer(passage && { path, low, high, passage });
}

const sameShape = (one: Microphone, other: Microphone): boolean =>
  JSON.stringify(plateShape(one.diaphragm)) === JSON.stringify(plateShape(other.diaphragm));

/** The last of some places between two values where there is a microphone. */
function farthest(from: number, to: number, microphoneAt: (value: number) => Microphone | null): number {
  let last = from;
  for (let i = 1; i <= tried; i++) {
    const value = from * pow(to / from, i / tried);
    if (microphoneAt(value) === null) break;
    last = value;
  }
  return last;
}

/**
 * The microphone with one value of the project in place of its own, as `watch` sees it. `along`: what spans the shapes along that
 * value, where it was made; null: none. Problems: those of `Variation.at` and of `settled`.
 */
export function watchAlong(
  { variation, brief, engine }: { readonly variation: Variation; readonly brief: Brief; readonly engine: Engine },
  value: number,
  along: ValuePassage | null,
): Outcome<Watched> {
  const described = variation.at([value]);
  const stands = described.ok ? settle(engine, described.value) : described;
  if (!stands.ok) return stands;
  const passing = along && watchPassing(stands.value, brief, { along, value, engine });
  return answer(passing ?? watchMicrophone(stands.value, brief, { engine, manner: "quick", passing: true }));
}

const polesTo = (first: number, brief: Brief): number => Math.max(4 * first, 2 * (brief.band?.to ?? 0));

export interface PassingPlace {
  readonly along: ValuePassage;
  /** Where the hand has it [SI]. */
  readonly value: number;
  readonly engine: Engine;
}

/** The same numbers as `watch`, for a microphone in SI that has settled; null where the span does not answer well enough. */
export function watchPassing(
  microphone: Microphone,
  brief: Brief,
  { along, value, engine }: PassingPlace,
): Watched | null {
  if (value < along.low || value > along.high) return null;
  const { span } = along.passage;
  const device = passingDevice(along.passage, microphone);
  const rest = device && spannedRest(span, microphone);
  if (!device || !rest) return null;
  const first = device.firstOmega / (2 * Math.PI);
  const range = curveRange(first, brief, []);
  const upTo = polesTo(first, brief);
  const question = {
    ...range,
    tolerance: quickTolerance,
    polesTo: upTo,
    near: engine.lastPoles,
    slow: engine.lastRates,
  };
  const answered = passingAnswer(span, device, microphone, question);
  if (answered === null) return null;
  const { curve, respond, poles, estimate } = answered;
  engine.lastRates = poles.real.map(({ rate }) => rate);
  engine.lastPoles = poles.near.map((omega) => scale(omega, 1 / device.firstOmega));
  const given = { basis: device.matrices, line: device.line };
  const { resonances, decays, withResidues, atRest } = sharesIn(poles, microphone, given);
  const resonance = mainResonance(resonances, decays);
  const atReference = respond(brief.reference);
  const magnitude = Math.hypot(atReference.re, atReference.im);
  const within = brief.band?.withinDb ?? briefDefaults.withinDb;
  const edges: Band =
    magnitude > 0 ? bandAround(curve, { reference: brief.reference, within }) : { from: null, to: null };
  const scan = sensitivityScan(microphone, rest);
  const level = magnitude > 0 ? 20 * Math.log10(magnitude) : null;
  const seen = {
    response: responseOver(defaultGrid(range, first), curve, respond, true),
    sensitivity: {
      static: device.line.force,
      frequency: brief.reference,
      magnitude,
      scan: { at: scan.at, value: scan.value },
      best: scan.best,
      nulls: scan.nulls,
    },
    deflection: { center: rest.deflection(0, 0) },
    resonances,
    decays,
    resonance,
    time: timeOf(withResidues, { poles, atRest, resonance, respond }),
    band: { within, reference: brief.reference, level, ...edges },
    film: regimeOf(microphone, resonance.frequency ?? first),
    resolution: {
      functions: device.matrices.count,
      filmTerms: device.matrices.filmCount,
      change: estimate,
      samples: curve.samples,
      curveError: curve.error,
      route: "reduced" as const,
    },
  };
  const later = { noise: null, loudest: null, strength: null, vibration: { worst: null } };
  return { ...seen, verdict: verdicts(brief, { ...seen, ...later, computed: range }) };
}
