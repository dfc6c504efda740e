/**
 * The engine: prepared shapes that are kept between questions, and the fast way to a whole response.
 *
 * A shape asked for once is sampled in the whole basis. Asked for again, it gets two reduced bases, made from forced answers over
 * gaps and frequencies and checked against the whole basis at random points; from then on a new gap, thickness, guide, air or
 * loss costs a millisecond. Every answer is checked against the whole basis at one more frequency; where that check fails the
 * whole basis answers, and the engine counts it. Derivation: docs/theory/engine.md.
 */

import { type Complex, complex } from "../numerics/complex.ts";
import { bandSolve } from "../numerics/kronecker.ts";
import { pow } from "../numerics/power.ts";
import { seededUniform } from "../numerics/random.ts";
import { type PlateMode, plateModes } from "../parts/diaphragm/modes.ts";
import { type PlateShape, plateScales, plateShape } from "../parts/diaphragm/shape.ts";
import { staticPlateFrom } from "../parts/diaphragm/statics.ts";
import type { StressedArea } from "../parts/diaphragm/weibull.ts";
import type { Outcome } from "../problem.ts";
import { type Checked, checkFor, distance, errorOf } from "./basis/basisCheck.ts";
import { ownAnswer } from "./basis/ownBasis.ts";
import { type ReducedLine, reducedResponseAt, reducedSystem, reduceLine } from "./basis/reduced.ts";
import { nestedBases, type ReducedBasis, type Snapshot } from "./basis/reducedBasis.ts";
import type { LoudestParts } from "./loudest/loudest.ts";
import type { Microphone } from "./microphone.ts";
import type { HeatBases } from "./noise/heatSystem.ts";
import { firstOmega, gapClass, gapsFor, overGaps, type PoleBases } from "./poles/shapePoles.ts";
import { type Curve, type CurveOptions, sampleCurve } from "./response/curve.ts";
import { type SensitivityScan, sensitivityScan } from "./response/sensitivityScan.ts";
import type { StaticLines } from "./response/staticSensitivity.ts";
import { accelerationAt, reducedAccelerationAt } from "./response/vibration.ts";
import { restingPlate, restNumbers, restOf, settled } from "./rest/rest.ts";
import { coupledSystem, responseAt } from "./system/coupled.ts";
import { type Line, prepareLine } from "./system/line.ts";
import { hasNetwork, isBare } from "./system/network.ts";
import {
  type Functions,
  type Prepared,
  prepare,
  type Resolution,
  resolution,
  resolutionFor,
} from "./system/prepare.ts";
import { hasWallHole, withoutWallHole } from "./system/wallHole.ts";

/** A reduced basis with what its checks at building said. */
export interface CheckedBasis {
  readonly basis: ReducedBasis;
  /** Its beginning, for answers to 1e-5. */
  readonly few: ReducedBasis;
  /** Largest relative error of the response at the random points it was checked at [-]. */
  readonly estimate: number;
}

/** A line of light, by what it depends on, and what was made of it. */
interface KeptLine {
  readonly key: string;
  readonly line: Line;
  scan: SensitivityScan | null;
  /** On the functions of each basis that read it. */
  readonly reduced: Map<ReducedBasis, ReducedLine>;
}

/** Everything kept for one shape. */
export interface ShapeEntry {
  readonly prepared: Prepared;
  readonly detail: Resolution;
  /** Modes in vacuum as Lambda = omega^2 m a^4 / (16 D11), with their class. */
  readonly modes: readonly { readonly lambda: number; readonly parity: PlateMode["parity"] }[];
  response: CheckedBasis | null;
  poles: PoleBases | null;
  /** Size when it was last counted, and how many bases and lines there were. */
  size: { readonly parts: number; readonly bytes: number } | null;
  /** Times it was asked for in a row; a shape with bases counts as asked for before. */
  uses: number;
  /** Answer of the larger basis to a uniform load. */
  readonly static: Float64Array;
  /** The last line of light, by what it depends on. */
  line: KeptLine | null;
  /** What a basis is held against, at the microphone it was computed for, and the errors found. */
  checked: Checked | null;
  /** Small bases for thermal noise, made when first asked for, and the last lines of light on them (heatSystem.ts). */
  heat: HeatBases | null;
  /** The last lines of single guides and what stretching does to them (loudest.ts). */
  loudest: LoudestParts | null;
  /** Where the diaphragm is stretched, by what it depends on (strength.ts). */
  stressed: { readonly key: string; readonly answer: StressedArea } | null;
}

export interface Engine {
  readonly shapes: Map<string, ShapeEntry>;
  /** Largest size of all kept shapes together [bytes]. */
  readonly limit: number;
  /** Answers by each route so far, and how often a check sent an answer back to the whole basis. */
  readonly count: { reduced: number; whole: number; fallBack: number };
  /** Shape of the last question: only one that is asked for twice in a row gets bases. */
  last: string | null;
  /** Poles of the last answer over the first resonance in vacuum: where the next one looks first. */
  lastPoles: readonly Complex[];
  /** Rates of its real poles [1/s], under a hand; null: not known. */
  lastRates: readonly number[] | null;
}

export const createEngine = (options: { readonly limit?: number } = {}): Engine => ({
  shapes: new Map(),
  limit: options.limit ?? 64e6,
  count: { reduced: 0, whole: 0, fallBack: 0 },
  last: null,
  lastPoles: [],
  lastRates: null,
});

/** The shape's entry, made where it is new or known too coarsely; the oldest are dropped beyond the byte limit. */
export function shapeEntry(engine: Engine, microphone: Microphone): ShapeEntry {
  const key = shapeKey(microphone);
  const known = engine.shapes.get(key);
  const wanted = resolutionFor(microphone).functions;
  engine.shapes.delete(key);
  const entry =
    known && covers(known.detail.functions, wanted)
      ? known
      : newEntry(microphone, wanted, known ?? samePlate(engine, key));
  entry.uses = engine.last === key ? entry.uses + 1 : entry.response || entry.poles ? 2 : 1;
  engine.last = key;
  engine.shapes.set(key, entry);
  for (const [oldest] of engine.shapes) {
    if (engine.shapes.size === 1 || bytesOf(engine) <= engine.limit) break;
    engine.shapes.delete(oldest);
  }
  return entry;
}

const covers = (has: Functions, wanted: Functions): boolean => has.across >= wanted.across && has.along >= wanted.along;

/** `coarser`: of the same plate, at another gap or in fewer functions. */
function newEntry(microphone: Microphone, wanted: Functions, coarser: ShapeEntry | undefined): ShapeEntry {
  if (coarser && covers(coarser.detail.functions, wanted)) return { ...coarser, ...unasked, uses: 0 };
  const before = coarser?.detail.functions ?? wanted;
  const detail = resolution({
    across: Math.max(before.across, wanted.across),
    along: Math.max(before.along, wanted.along),
  });
  const { lambda } = plateScales(microphone.diaphragm);
  const rest = coarser?.prepared.rest ?? restOf(microphone);
  const about = restingPlate(microphone, rest);
  const modes = plateModes(microphone.diaphragm, { functions: modeFunctions(microphone), upTo: 6, about });
  const prepared = prepare(microphone, detail, rest);
  return {
    prepared,
    detail,
    static: bandSolve(prepared.fineFactor, prepared.fine.load),
    modes: coarser?.modes ?? modes.map(({ omega, parity }) => ({ lambda: omega ** 2 * lambda, parity })),
    ...unasked,
    uses: coarser?.uses ?? 0,
  };
}

/** What an entry gathers by being asked. */
const unasked = {
  response: null,
  poles: null,
  size: null,
  line: null,
  checked: null,
  heat: null,
  loudest: null,
  stressed: null,
} as const;

/** Five polynomials of a parity see the modes of a square to 2e-6; a long side holds more of them below six times the lowest. */
function modeFunctions({ diaphragm }: Microphone): { readonly across: number; readonly along: number } {
  const aspect = diaphragm.along / diaphragm.across;
  const functions = (slender: number) => Math.min(18, Math.ceil(2.5 + 2.5 * Math.max(1, slender)));
  return { across: functions(1 / aspect), along: functions(aspect) };
}

function shapeKey(microphone: Microphone): string {
  const shape: PlateShape = plateShape(microphone.diaphragm);
  const edges = microphone.film?.edges;
  // The bases of a device with air around it hold answers to the pressure behind as well.
  const around = isBare(microphone) ? "bare" : hasNetwork(microphone) ? "around" : "free";
  const numbers = [...Object.values(shape), ...restNumbers(microphone)].map((value: number) => value.toPrecision(13));
  const known = [...numbers, edges?.sides ?? "none", edges?.ends ?? "none", around].join(" ");
  const uneven = gapClass(microphone);
  return uneven ? [known, ofGaps, ...uneven].join(" ") : known;
}

/** What follows a shape's key where its film is uneven. */
const ofGaps = "over gaps";

/** An entry whose plate is that of a key, whatever the gap. */
function samePlate(engine: Engine, key: string): ShapeEntry | undefined {
  const plate = key.split(` ${ofGaps}`)[0]!;
  for (const [other, entry] of engine.shapes)
    if (other === plate || other.startsWith(`${plate} ${ofGaps}`)) return entry;
  return undefined;
}

/** The microphone as its static load leaves it, by the plate at rest that the engine knows. Problems: those of `settled`. */
export const settle = (engine: Engine, microphone: Microphone): Outcome<Microphone> =>
  settled(microphone, samePlate(engine, shapeKey(microphone))?.prepared.rest ?? null);

/** The line of light of a microphone; the last one is kept, because a gap or the air does not move it. */
export function lineOf(entry: ShapeEntry, microphone: Microphone): Line {
  const { diaphragm, guides, light, load } = microphone;
  const key = JSON.stringify([diaphragm, guides, light.wavelength, load?.difference ?? 0]);
  if (entry.line?.key === key) return entry.line.line;
  const line = prepareLine(entry.prepared, microphone);
  entry.line = { key, line, scan: null, reduced: new Map() };
  return line;
}

/** The line of light that was asked for last, on the functions of a basis. */
function reducedLineOf({ line: kept }: ShapeEntry, basis: ReducedBasis): ReducedLine {
  const known = kept!.reduced.get(basis);
  if (known) return known;
  const reduced = reduceLine(basis, kept!.line);
  kept!.reduced.set(basis, reduced);
  return reduced;
}

/** Static sensitivity against guide position; kept with the line of light, because it depends on nothing else. */
export function scanOf(entry: ShapeEntry, microphone: Microphone): SensitivityScan {
  lineOf(entry, microphone);
  const kept = entry.line!;
  kept.scan ??= sensitivityScan(microphone, staticLines(entry, microphone));
  return kept.scan;
}

/** What a uniform pressure does to any line of the plate, about its state at rest. */
function staticLines({ prepared, static: answer }: ShapeEntry, microphone: Microphone): StaticLines {
  const resting = restingPlate(microphone, prepared.rest);
  return resting ? { line: resting.slope } : staticPlateFrom(prepared.fine, answer, microphone.diaphragm);
}

/** Size of what is kept: all typed arrays of all entries [bytes]. */
export function bytesOf(engine: Engine): number {
  let total = 0;
  for (const entry of engine.shapes.values()) total += bytesOfEntry(entry);
  return total;
}

/** Counted again only where a basis has been added. */
function bytesOfEntry(entry: ShapeEntry): number {
  const parts = [entry.response, entry.poles, entry.line].filter((part) => part !== null).length;
  if (entry.size?.parts !== parts) entry.size = { parts, bytes: bytesIn(entry) };
  return entry.size.bytes;
}

function bytesIn(value: unknown): number {
  if (ArrayBuffer.isView(value)) return value.byteLength;
  if (typeof value !== "object" || value === null) return 0;
  return Object.values(value).reduce<number>((sum, part) => sum + bytesIn(part), 0);
}

/** A whole response, and how it was come by. */
export interface EngineAnswer {
  readonly entry: ShapeEntry;
  readonly curve: Curve;
  readonly line: Line;
  readonly route: "reduced" | "whole";
  /** Largest relative error at the frequencies where it was checked against the whole basis; null: it is the whole basis. */
  readonly checked: number | null;
  /** One frequency by the same route [rad/Pa]; may be complex [rad/s]. */
  readonly respond: (omega: Complex) => Complex;
  /** Phase per acceleration of the frame by the route of the curve [rad/(m/s2)]. */
  readonly accelerate: (omega: Complex) => Complex;
}

/** How an answer is wanted: "exact" in the whole basis, or "quick" in a reduced one where the shape is known. */
export type Manner = "exact" | "quick";

export interface EngineQuestion extends Pick<CurveOptions, "from" | "to" | "tolerance"> {
  /** Error against the whole basis above which the whole basis answers; default ten times a coarse tolerance, four times a fine one. */
  readonly trust?: number;
  readonly manner: Manner;
}

/** Tolerance from which the beginning of a basis is enough [-]. */
const coarse = 1e-5;

/** |S| below which errors count against this share of the static output. */
export const floorShare = 1e-3;

const atHertz = (frequency: number): Complex => complex(2 * Math.PI * frequency);

/** The response between two frequencies [Hz]. */
export function engineAnswer(engine: Engine, microphone: Microphone, question: EngineQuestion): EngineAnswer {
  return answerFor(engine, shapeEntry(engine, microphone), microphone, question);
}

/** The same for a shape that is at hand. */
export function answerFor(
  engine: Engine,
  entry: ShapeEntry,
  microphone: Microphone,
  question: EngineQuestion,
): EngineAnswer {
  const line = lineOf(entry, microphone);
  const floor = floorShare * Math.abs(line.static);
  const options = { ...question, floor };
  // One hole in the wall has a basis of the device's own, or none (answerIn).
  const kept = question.manner === "quick" && entry.uses > 1 && !hasWallHole(microphone);
  const bases = kept ? responseBasis(entry, microphone) : null;
  if (bases) {
    const isCoarse = question.tolerance >= coarse;
    // A fine check stands for drifts by a quarter, so it must leave room below ten times the tolerance.
    const trust = question.trust ?? (isCoarse ? 10 : 4) * question.tolerance;
    const inBasis = (basis: ReducedBasis) => {
      const [system, reduced] = [reducedSystem(basis, microphone), reducedLineOf(entry, basis)];
      const respond = (omega: Complex) => reducedResponseAt(system, reduced, omega);
      return { respond, accelerate: (omega: Complex) => reducedAccelerationAt(system, reduced, omega) };
    };
    const check = checkFor(entry.checked, microphone, question.to);
    entry.checked = check;
    const few = inBasis(bases.few);
    const all = isCoarse ? few : inBasis(bases.basis);
    const checked = errorOf(check, isCoarse ? "few" : "all", () => {
      const whole = coupledSystem(entry.prepared, microphone);
      return distance(all.respond, (frequency) => responseAt(whole, line, atHertz(frequency)), {
        at: [question.to],
        floor,
      });
    });
    if (checked <= trust) {
      engine.count.reduced++;
      // Few functions answer once they have agreed with all of them at every sample of a curve.
      const between = isCoarse ? 0 : check.errors.get("between");
      const agreed = between !== undefined && between <= question.tolerance;
      const { respond, accelerate } = agreed ? few : all;
      const seen = new Map<number, Complex>();
      const curve = sampleCurve((frequency) => {
        const value = respond(atHertz(frequency));
        seen.set(frequency, value);
        return value;
      }, options);
      if (between === undefined) {
        check.errors.set(
          "between",
          distance(few.respond, (frequency) => seen.get(frequency)!, { at: [...seen.keys()], floor }),
        );
      }
      return {
        entry,
        curve,
        line,
        route: "reduced",
        checked: agreed ? Math.max(checked, between) : checked,
        respond,
        accelerate,
      };
    }
    engine.count.fallBack++;
  }
  const whole = coupledSystem(entry.prepared, microphone);
  const own = hasWallHole(microphone) ? null : ownAnswer(whole, line, options);
  if (own) {
    engine.count.reduced++;
    return { entry, line, route: "reduced", ...own };
  }
  engine.count.whole++;
  const respond = (omega: Complex) => responseAt(whole, line, omega);
  const curve = sampleCurve((frequency) => respond(atHertz(frequency)), options);
  const accelerate = (omega: Complex) => accelerationAt(whole, line, omega);
  return { entry, curve, line, route: "whole", checked: null, respond, accelerate };
}

/** Shares of the range at which an answer in a device's own basis is held against the whole basis. */
const checkedAt = [0, 0.13, 0.41, 0.73, 1] as const;

/**
 * The response in a basis made for this very microphone (that of its poles), where it agrees with the whole basis to the
 * tolerance at five frequencies; else in the whole basis. `respond` solves in the whole basis in either case.
 */
export function answerIn(
  engine: Engine,
  entry: ShapeEntry,
  microphone: Microphone,
  question: EngineQuestion,
  basis: ReducedBasis,
): EngineAnswer {
  const { from, to, tolerance } = question;
  const line = lineOf(entry, microphone);
  const floor = floorShare * Math.abs(line.static);
  const whole = coupledSystem(entry.prepared, microphone);
  const respond = (omega: Complex) => responseAt(whole, line, omega);
  const system = reducedSystem(basis, microphone);
  const reduced = reduceLine(basis, line);
  const at = checkedAt.map((share) => from + share * (to - from));
  const checked = distance(
    (omega) => reducedResponseAt(system, reduced, omega),
    (frequency) => respond(atHertz(frequency)),
    { at, floor },
  );
  const curveOf = (at: (omega: Complex) => Complex) =>
    sampleCurve((frequency) => at(atHertz(frequency)), { ...question, floor });
  if (checked <= tolerance) {
    engine.count.reduced++;
    const curve = curveOf((omega) => reducedResponseAt(system, reduced, omega));
    const accelerate = (omega: Complex) => reducedAccelerationAt(system, reduced, omega);
    return { entry, curve, line, route: "reduced", checked, respond, accelerate };
  }
  engine.count.fallBack++;
  engine.count.whole++;
  const accelerate = (omega: Complex) => accelerationAt(whole, line, omega);
  return { entry, curve: curveOf(respond), line, route: "whole", checked: null, respond, accelerate };
}

/** Basis for the response to uniform pressure, over gaps and up to 2.4 times the first resonance, checked when it is made. */
export function responseBasis(entry: ShapeEntry, given: Microphone): CheckedBasis {
  if (entry.response) return entry.response;
  const microphone = withoutWallHole(given);
  const first = firstOmega(entry, microphone);
  const load = entry.prepared.plate.load;
  const shares = [2e-3, 2e-2, 0.1, 0.3, 0.55, 0.8, 1, 1.25, 1.55, 1.85, 2.15, 2.4];
  const at = (gap: number, force: Snapshot["force"]) =>
    shares.map((share): Snapshot => ({ gap, omega: complex(share * first), force }));
  const snapshots = overGaps(microphone, (gap) => [
    ...at(gap, load),
    ...(hasNetwork(microphone) ? at(gap, "behind") : []),
  ]);
  const { all: basis, few } = nestedBases(entry.prepared, microphone, snapshots, {
    most: hasNetwork(microphone) ? 44 : 32,
    few: { most: 28, tolerance: 1e-5 },
    tolerance: 5e-9,
  });
  entry.response = { basis, few, estimate: checkBasis(entry, basis, microphone, first) };
  return entry.response;
}

/** Largest relative error of the mean deflection at two random gaps and frequencies inside the basis's range. */
function checkBasis(entry: ShapeEntry, basis: ReducedBasis, microphone: Microphone, first: number): number {
  const random = seededUniform(20261);
  const { from, to } = gapsFor(microphone);
  let worst = 0;
  for (let i = 0; i < 2; i++) {
    const gap = from * pow(to / from, random());
    const there = microphone.film ? { ...microphone, film: { ...microphone.film, gap } } : microphone;
    const line = prepareLine(entry.prepared, there);
    const [whole, fast] = [coupledSystem(entry.prepared, there), reducedSystem(basis, there)];
    const reduced = reduceLine(basis, line);
    const off = distance(
      (omega) => reducedResponseAt(fast, reduced, omega),
      (frequency) => responseAt(whole, line, atHertz(frequency)),
      { at: [(first * 2.2 * random()) / (2 * Math.PI)], floor: floorShare * Math.abs(line.static) },
    );
    worst = Math.max(worst, off);
  }
  return worst;
}
