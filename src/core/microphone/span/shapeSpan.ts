/**
 * One reduced basis for many shapes: devices that differ in sides, thickness, edges, tension, gap, air and guide at once.
 *
 * In coordinates over the half sides the functions are the same for every shape, and the shape enters by factors:
 *
 *     K = sum theta_i(shape) K_i,   k^2 = k_x^2 + (a / b)^2 k_y^2,   mass, coupling and load not at all
 *
 * So the answers of some devices span those of all between them, and the matrices of a new one are sums of small ones. The
 * influence function of the light (line.ts) is found the same way in a span of its own, for any place of the guide.
 * Derivation: docs/theory/engine.md.
 */

import { type Cholesky, cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { complex } from "../../numerics/complex.ts";
import {
  type BandCholesky,
  bandCholesky,
  bandSolve,
  type KroneckerSum,
  multiplyKronecker,
} from "../../numerics/kronecker.ts";
import { type Room, separately, sharedRoom } from "../../numerics/room.ts";
import { realRowProducts } from "../../numerics/rowProducts.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { symmetricEigen } from "../../numerics/symmetricEigen.ts";
import { overLine, type Plate, plateTerms, termFactors } from "../../parts/diaphragm/plate.ts";
import { type PlateShape, plateScales, plateShape } from "../../parts/diaphragm/shape.ts";
import { type StaticPlate, staticPlateFrom } from "../../parts/diaphragm/statics.ts";
import type { ReducedLine } from "../basis/reduced.ts";
import {
  addParts,
  dot,
  fromEnergy,
  orthonormal,
  type ReducedMatrices,
  stiffnessFactor,
  toEnergy,
} from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import { probeForce } from "../poles/poleModel.ts";
import { backLoad, coupledSystem, filmPressure, setFrequency, solveComplexLoad, solveLoad } from "../system/coupled.ts";
import { projectOnFilm } from "../system/filmProjection.ts";
import { guideAcross, guideVector } from "../system/line.ts";
import { hasNetwork } from "../system/network.ts";
import {
  type Functions,
  filmOnes,
  type Prepared,
  prepare,
  type Resolution,
  resolution,
  resolutionFor,
} from "../system/prepare.ts";

/** Plain data, so that it travels to workers. Matrices are row-major; the first `few` functions are a span of their own. */
export interface ShapeSpan {
  readonly detail: Functions;
  readonly count: number;
  readonly filmCount: number;
  readonly few: { readonly count: number; readonly filmCount: number };
  /** count x count, for the factors of `termFactors`; the mass is the unit matrix. */
  readonly bending: readonly Float64Array[];
  readonly tension: readonly Float64Array[];
  /** filmCount x filmCount: k_x^2 and k_y^2. */
  readonly filmAcross: Float64Array;
  readonly filmAlong: Float64Array;
  /** count x filmCount */
  readonly coupling: Float64Array;
  readonly load: Float64Array;
  readonly ones: Float64Array;
  /** The probe of poleModel.ts on each function. */
  readonly probe: Float64Array;
  /** c_n of nearField.ts at two side ratios; null without radiation. */
  readonly nearField: readonly { readonly aspect: number; readonly value: number }[] | null;
  readonly light: LightSpan;
}

/** Span of the influence functions, on the larger basis `fine`. */
interface LightSpan {
  readonly fine: Plate;
  /** Rows of coefficients. */
  readonly rows: readonly Float64Array[];
  /** rows x rows */
  readonly bending: readonly Float64Array[];
  readonly tension: readonly Float64Array[];
  /** F on each row. */
  readonly load: Float64Array;
  /** rows x functions across: what curvature and value across of a line along read of each row (`overLine`). */
  readonly curved: Float64Array;
  readonly valued: Float64Array;
  /** count x rows: mass and tension of a row on the plate's functions; filmCount x rows: a row on the film's. */
  readonly mass: Float64Array;
  readonly stretched: readonly Float64Array[];
  readonly film: Float64Array;
}

/** What a device brings to the span: its whole basis and answers. */
interface Member {
  readonly microphone: Microphone;
  readonly prepared: Prepared;
}

const most = 48;
const mostLights = 72;
/** Remainders of the answers at which the two spans end [-]; not derived. */
const fewTo = 4e-4;
const filmFewTo = 4e-5;
const allTo = 1e-6;

/** The functions that all of some devices need. */
export function commonFunctions(microphones: readonly Microphone[]): Functions {
  const wanted = microphones.map((microphone) => resolutionFor(microphone).functions);
  return {
    across: Math.max(...wanted.map(({ across }) => across)),
    along: Math.max(...wanted.map(({ along }) => along)),
  };
}

/**
 * Spans some devices up to a frequency [Hz], each its own where `upTo` says so, and their poles as far. They must be of one
 * kind (edges that turn or not, film, air around) and none buckled. The light's influence is spanned over those `beside` as
 * well. In the functions that all of them need, or in those of `detail`; `looser` times as much is left to the estimate. With
 * `motions` "read" the light's span holds those of the plate too, which makes the device's own light some times dearer: then what
 * it is off by is multiplied with what the plate's span leaves out, and the estimate sees all that matters.
 * Yields after each device.
 */
export function* spanShapes(
  microphones: readonly Microphone[],
  upTo: number | ((microphone: Microphone) => number),
  beside: readonly Microphone[] = [],
  options: { readonly detail?: Resolution | null; readonly looser?: number; readonly motions?: "read" } = {},
): Generator<{ readonly done: number; readonly of: number }, ShapeSpan> {
  const { detail: given = null, looser = 1, motions } = options;
  const wanted = given ?? resolution(commonFunctions(microphones));
  const detail = wanted.functions;
  const members: Member[] = [];
  const plates: Float64Array[] = [];
  const films: Float64Array[] = [];
  const lights: Float64Array[] = [];
  let energy: ReturnType<typeof stiffnessFactor> | null = null;
  for (const microphone of microphones) {
    const prepared = prepare(microphone, wanted);
    members.push({ microphone, prepared });
    energy ??= stiffnessFactor(prepared);
    const limit = typeof upTo === "number" ? upTo : upTo(microphone);
    answersOf(microphone, prepared, limit, energy.lower, plates, films);
    lightsOf(microphone, prepared.fine, prepared.fineFactor, lights);
    yield { done: members.length, of: microphones.length + beside.length };
  }
  const { prepared } = members[0]!;
  for (const [i, microphone] of beside.entries()) {
    const fine = { ...prepared.fine, shape: plateShape(microphone.diaphragm) };
    const factor = bandCholesky(shapedStiffness(fine));
    if (factor) lightsOf(microphone, fine, factor, lights);
    yield { done: microphones.length + i + 1, of: microphones.length + beside.length };
  }
  const plateSpan = orthonormal(plates, { most, tolerance: allTo });
  const filmSpan = orthonormal(films, { most, tolerance: allTo });
  const few = {
    count: firstBelow(plateSpan.remainders, looser * fewTo),
    filmCount: firstBelow(filmSpan.remainders, looser * filmFewTo),
  };
  const rows = plateModes(
    plateSpan.rows.map((row) => fromEnergy(energy!.factor, row)),
    few.count,
    prepared.plate.mass,
  );
  const { plate, fine } = prepared;
  const moved =
    motions === "read"
      ? orthonormal(
          rows.map((row) => sizedOne(onLarger(row, plate, fine))),
          { most, tolerance: 1e-9 },
        ).rows
      : [];
  return assembleSpan({
    detail,
    prepared,
    rows,
    filmRows: prepared.film ? filmModes(filmSpan.rows, few.filmCount, prepared.film, prepared.shape.aspect) : [],
    lightRows: orthonormal(lights, { most: mostLights, tolerance: 1e-7 }, moved).rows,
    few,
    nearField: nearFieldOf(members),
  });
}

/**
 * Rows of stiffness 1 in one plate: the first `count` turned among themselves into its modes, so that the matrices of plates like it
 * are nearly diagonal, and all made orthonormal in the mass, which no shape changes.
 */
function plateModes(rows: readonly Float64Array[], count: number, mass: KroneckerSum): readonly Float64Array[] {
  const first = rows.slice(0, count);
  const { vectors } = symmetricEigen(
    products(
      first,
      first.map((row) => multiplyKronecker(mass, row)),
    ),
    count,
  );
  const done: { readonly row: Float64Array; readonly heavy: Float64Array }[] = [];
  // The largest mass for a stiffness first: the lowest mode.
  for (const given of [...turnedRows(vectors, first).reverse(), ...rows.slice(count)]) {
    const row = given.slice();
    // What cleaning leaves of round-off grows with the size that is taken away: twice.
    for (let pass = 0; pass < 2; pass++) for (const one of done) addTimes(row, one.row, -dot(one.heavy, row));
    const size = Math.sqrt(dot(row, multiplyKronecker(mass, row)));
    const one = row.map((value) => value / size);
    done.push({ row: one, heavy: multiplyKronecker(mass, one) });
  }
  return done.map(({ row }) => row);
}

/** Orthonormal rows of a film: the first `count` turned among themselves into its modes between plates of one aspect ratio. */
function filmModes(
  rows: readonly Float64Array[],
  count: number,
  film: NonNullable<Prepared["film"]>,
  aspect: number,
): readonly Float64Array[] {
  const first = rows.slice(0, count);
  const [across, along] = [squaredWaves(film, "across"), squaredWaves(film, "along")];
  const waves = across.map((value, m) => value + along[m]! / aspect ** 2);
  const matrix = products(
    first,
    first.map((row) => row.map((value, m) => value * waves[m]!)),
  );
  return [...turnedRows(symmetricEigen(matrix, count).vectors, first), ...rows.slice(count)];
}

/** Sums of rows, one for each row of a square matrix. */
const turnedRows = (turn: Float64Array, rows: readonly Float64Array[]): Float64Array[] =>
  rows.map((_, i) => {
    const result = new Float64Array(rows[0]!.length);
    rows.forEach((row, k) => {
      addTimes(result, row, turn[i * rows.length + k]!);
    });
    return result;
  });

/** target += factor vector. */
function addTimes(target: Float64Array, vector: Float64Array, factor: number): void {
  for (let i = 0; i < target.length; i++) target[i]! += factor * vector[i]!;
}

const firstBelow = (remainders: readonly number[], limit: number): number => {
  const at = remainders.findIndex((remainder) => remainder < limit);
  return at < 0 ? remainders.length : Math.max(at, 1);
};

/**
 * Influence function of a device's light, and answers of its plate at rest to what it is multiplied with: the uniform load and the
 * inertia of slower and slower shapes. With both in the span, errors of the products are those of the two multiplied.
 */
function lightsOf(microphone: Microphone, fine: Plate, factor: BandCholesky, lights: Float64Array[]): void {
  lights.push(sizedOne(bandSolve(factor, guideVector(fine, microphone))));
  let right = fine.load;
  for (let power = 0; power < 4; power++) {
    const answer = sizedOne(bandSolve(factor, right));
    lights.push(answer);
    right = multiplyKronecker(fine.mass, answer);
  }
}

function shapedStiffness({ across, along, shape }: Plate): KroneckerSum {
  const terms = plateTerms(across, along);
  const factors = termFactors(shape);
  const scaled = (list: readonly KroneckerSum[], by: readonly number[]) =>
    list.flatMap(({ terms: [term] }, i) =>
      by[i] === 0 ? [] : [{ x: term!.x.map((value) => value * by[i]!), y: term!.y }],
    );
  return {
    nx: across.count,
    ny: along.count,
    terms: [...scaled(terms.bending, factors.bending), ...scaled(terms.tension, factors.tension)],
  };
}

function sizedOne(vector: Float64Array): Float64Array {
  const size = Math.sqrt(dot(vector, vector));
  return size > 0 ? vector.map((value) => value / size) : vector;
}

/** Shares of the upper limit at which a device answers to uniform pressure, and to the probe. */
const loaded = [1e-3, 0.05, 0.2, 0.36, 0.45, 0.56, 0.7, 0.85, 1];
const probed = [0.15, 0.4, 0.6, 0.85, 1.1];

/** Answers of a device to sound, to a pressure behind and to a point force. */
function answersOf(
  microphone: Microphone,
  prepared: Prepared,
  upTo: number,
  lower: Float64Array,
  plates: Float64Array[],
  films: Float64Array[],
): void {
  const system = coupledSystem(prepared, microphone);
  const top = 2 * Math.PI * upTo;
  const network = hasNetwork(microphone);
  const probe = probeForce(prepared);
  const keep = (q: ReturnType<typeof solveLoad>) => {
    addParts(plates, { re: toEnergy(lower, q.re), im: toEnergy(lower, q.im) });
    if (prepared.film) addParts(films, filmPressure(system, prepared.film, q));
  };
  for (const share of loaded) {
    const omega = complex(share * top);
    setFrequency(system, omega);
    keep(solveLoad(system, prepared.plate.load));
    if (!network) continue;
    const behind = backLoad(system, omega);
    if (prepared.film) addParts(films, behind.drop);
    keep(solveComplexLoad(system, behind.load));
  }
  // Off the real axis as well, where strongly damped poles lie.
  for (const share of probed) {
    for (const angle of [0, 0.8]) {
      setFrequency(system, complex(share * top * cos(angle), share * top * sin(angle)));
      keep(solveLoad(system, probe));
    }
  }
}

function nearFieldOf(members: readonly Member[]): ShapeSpan["nearField"] {
  const known = members
    .flatMap(({ prepared: { nearField, shape } }) =>
      nearField === null ? [] : [{ aspect: shape.aspect, value: nearField }],
    )
    .sort((a, b) => a.aspect - b.aspect);
  const [first, last] = [known[0], known.at(-1)];
  return first && last ? [first, last] : null;
}

function assembleSpan(given: {
  readonly detail: Functions;
  readonly prepared: Prepared;
  readonly rows: readonly Float64Array[];
  readonly filmRows: readonly Float64Array[];
  readonly lightRows: readonly Float64Array[];
  readonly few: ShapeSpan["few"];
  readonly nearField: ShapeSpan["nearField"];
}): ShapeSpan {
  const { prepared, rows, filmRows, lightRows } = given;
  const { plate, film, fine, fineFilm } = prepared;
  const on = (list: readonly Float64Array[]) => (matrix: KroneckerSum) =>
    products(
      list,
      list.map((row) => multiplyKronecker(matrix, row)),
    );
  const terms = plateTerms(plate.across, plate.along);
  const fineTerms = plateTerms(fine.across, fine.along);
  const onFilm = (row: Float64Array) => (film ? projectOnFilm(plate, film, row) : new Float64Array(0));
  const fineOnFilm = (row: Float64Array) =>
    film && fineFilm ? projectOnFilm(fine, { ...film, ...fineFilm }, row) : new Float64Array(0);
  const weightedBy = (weights: Float64Array) =>
    products(
      filmRows,
      filmRows.map((row) => row.map((value, m) => value * weights[m]!)),
    );
  const onCoarse = (matrix: KroneckerSum) =>
    products(
      rows,
      lightRows.map((row) => coarsePart(multiplyKronecker(matrix, row), fine, plate)),
    );
  const ones = film ? filmOnes(film) : new Float64Array(0);
  const probe = probeForce(prepared);
  const waves = (axis: "across" | "along") => (film ? squaredWaves(film, axis) : new Float64Array(0));
  return {
    detail: given.detail,
    count: rows.length,
    filmCount: filmRows.length,
    few: given.few,
    bending: terms.bending.map(on(rows)),
    tension: terms.tension.map(on(rows)),
    filmAcross: weightedBy(waves("across")),
    filmAlong: weightedBy(waves("along")),
    coupling: products(rows.map(onFilm), filmRows),
    load: Float64Array.from(rows, (row) => dot(row, plate.load)),
    ones: Float64Array.from(filmRows, (row) => dot(row, ones)),
    probe: Float64Array.from(rows, (row) => dot(row, probe)),
    nearField: given.nearField,
    light: {
      fine,
      rows: lightRows,
      bending: fineTerms.bending.map(on(lightRows)),
      tension: fineTerms.tension.map(on(lightRows)),
      load: Float64Array.from(lightRows, (row) => dot(row, fine.load)),
      ...readAcross(lightRows, fine),
      mass: onCoarse(fine.mass),
      stretched: fineTerms.tension.map(onCoarse),
      film: products(filmRows, lightRows.map(fineOnFilm)),
    },
  };
}

/** `curved` and `valued` of some rows: `overLine` of one function across at a time. */
function readAcross(rows: readonly Float64Array[], fine: Plate): Pick<LightSpan, "curved" | "valued"> {
  const { count } = fine.across;
  const none = new Float64Array(count);
  const units = Array.from({ length: count }, (_, i) => Float64Array.from(none, (_, k) => (k === i ? 1 : 0)));
  return {
    curved: products(
      rows,
      units.map((unit) => overLine(fine, unit, none)),
    ),
    valued: products(
      rows,
      units.map((unit) => overLine(fine, none, unit)),
    ),
  };
}

function squaredWaves(film: NonNullable<Prepared["film"]>, axis: "across" | "along"): Float64Array {
  const { across, along } = film;
  const result = new Float64Array(across.count * along.count);
  for (let m = 0; m < across.count; m++) {
    for (let n = 0; n < along.count; n++) {
      result[m * along.count + n] = (axis === "across" ? across.wavenumbers[m]! : along.wavenumbers[n]!) ** 2;
    }
  }
  return result;
}

/** All inner products, one row for each of the first list. */
function products(a: readonly Float64Array[], b: readonly Float64Array[]): Float64Array {
  const result = new Float64Array(a.length * b.length);
  for (let i = 0; i < a.length; i++) {
    for (let j = 0; j < b.length; j++) result[i * b.length + j] = dot(a[i]!, b[j]!);
  }
  return result;
}

/** A vector on the smaller basis as one on the larger. */
function onLarger(vector: Float64Array, coarse: Plate, fine: Plate): Float64Array {
  const result = new Float64Array(fine.size);
  const { count } = coarse.along;
  for (let i = 0; i < coarse.across.count; i++) {
    for (let j = 0; j < count; j++) result[i * fine.along.count + j] = vector[i * count + j]!;
  }
  return result;
}

/** The part of a vector on the larger basis that belongs to the smaller one. */
function coarsePart(vector: Float64Array, fine: Plate, coarse: Plate): Float64Array {
  const result = new Float64Array(coarse.size);
  const { count } = coarse.along;
  for (let i = 0; i < coarse.across.count; i++) {
    for (let j = 0; j < count; j++) result[i * count + j] = vector[i * fine.along.count + j]!;
  }
  return result;
}

/** A device on the functions of a span. */
export interface SpannedDevice {
  readonly matrices: ReducedMatrices;
  readonly line: ReducedLine;
  /** The probe on its functions. */
  readonly probe: Float64Array;
  /** First resonance in vacuum [rad/s]. */
  readonly firstOmega: number;
  /** Rows that turn the span's functions into those of `matrices`. */
  readonly turn: Float64Array;
  readonly filmTurn: Float64Array;
  /** The same factors for the light. */
  readonly light: Float64Array;
  /** F^T K^-1 F at rest, out of the light's span, which holds the answer at rest. */
  readonly volume: number;
}

/** Share of the highest mode's stiffness below which the lowest one's is round-off: the plate is next to buckling, or past it. */
const leastStiffness = 1e-13;

/** Matrices and line of a device on the first functions of the span; null where its stiffness is not positive: it is buckled. */
export function spannedDevice(span: ShapeSpan, microphone: Microphone): SpannedDevice | null {
  const shape = plateShape(microphone.diaphragm);
  const factors = termFactors(shape);
  const { count, filmCount } = span.few;
  // Some fifty arrays out of one: a chart asks for a device at each of its points.
  const lights = span.light.rows.length;
  const room = sharedRoom(
    9 * count * (count + 1) + 4 * filmCount * (filmCount + 1) + 4 * count * filmCount + 3 * lights * (lights + 2),
  );
  const onPlate = { width: span.count, count };
  const bending = block(span.bending, factors.bending, onPlate, room);
  const stressed = shape.tensionAcross !== 0 || shape.tensionAlong !== 0;
  const whole = stressed ? block(span.tension, factors.tension, onPlate, room) : bending;
  if (stressed) addTimes(whole, bending, 1);
  const { values, vectors: turn } = symmetricEigen(whole, count, room);
  if (!(values[0]! > leastStiffness * values[count - 1]!)) return null;
  const stiffness = lightFactor(span.light, shape, room);
  if (stiffness === null) return null;
  const light = influence(span.light, stiffness, microphone);
  // Stiffness 1 on each.
  for (let i = 0; i < count; i++) {
    const size = 1 / Math.sqrt(values[i]!);
    for (let at = i * count; at < (i + 1) * count; at++) turn[at]! *= size;
  }
  const onFilm = { width: span.filmCount, count: filmCount };
  const waves = block([span.filmAcross, span.filmAlong], [1, 1 / shape.aspect ** 2], onFilm, room);
  const { values: kappa, vectors: filmTurn } = symmetricEigen(waves, filmCount, room);
  const mass = room(count);
  for (let i = 0; i < count; i++) mass[i] = 1 / values[i]!;
  return {
    matrices: {
      count,
      filmCount,
      mass,
      bending: stressed ? turnBoth(turn, bending, count, room) : null,
      kappa,
      relief: null,
      coupling: turnCoupling(turn, filmTurn, span, room),
      load: apply(turn, span.load, count, count, room),
      ones: apply(filmTurn, span.ones, filmCount, filmCount, room),
      nearField: nearFieldAt(span, shape),
      hole: null,
    },
    line: lineOn(span, { shape, light, turn, filmTurn }, room),
    probe: apply(turn, span.probe, count, count, room),
    firstOmega: Math.sqrt(values[0]! / plateScales(microphone.diaphragm).lambda),
    turn,
    filmTurn,
    light,
    volume: dot(span.light.load, choleskySolve(stiffness, span.light.load)),
  };
}

/** The line of light of a device on the functions of its matrices. */
function lineOn(
  span: ShapeSpan,
  { shape, light, turn, filmTurn }: Pick<SpannedDevice, "light" | "turn" | "filmTurn"> & { readonly shape: PlateShape },
  room: Room = separately,
): ReducedLine {
  const { light: on, few } = span;
  const byLight = (matrix: Float64Array, rows: number) => apply(matrix, light, light.length, rows, room);
  const onModes = (row: Float64Array) => apply(turn, row, few.count, few.count, room);
  const [across, along] = termFactors(shape).tension;
  const stressed = shape.tensionAcross !== 0 || shape.tensionAlong !== 0;
  let tension: Float64Array | null = null;
  if (stressed) {
    tension = byLight(on.stretched[0]!, few.count);
    const other = byLight(on.stretched[1]!, few.count);
    for (let i = 0; i < few.count; i++) tension[i] = across * tension[i]! + along * other[i]!;
  }
  return {
    force: dot(light, on.load),
    stretched: null,
    mass: onModes(byLight(on.mass, few.count)),
    tension: tension && onModes(tension),
    film: apply(filmTurn, byLight(on.film, few.filmCount), few.filmCount, few.filmCount, room),
  };
}

/** The lines of a device's guides one by one, each with weight 1. */
export function guideLines(span: ShapeSpan, device: SpannedDevice, microphone: Microphone): readonly ReducedLine[] {
  const shape = plateShape(microphone.diaphragm);
  const stiffness = lightFactor(span.light, shape)!;
  return microphone.guides.map((guide) => {
    const light = influence(span.light, stiffness, { ...microphone, guides: [{ ...guide, weight: 1 }] });
    return lineOn(span, { ...device, shape, light });
  });
}

function nearFieldAt({ nearField }: ShapeSpan, { aspect }: PlateShape): number | null {
  const [low, high] = nearField ?? [];
  if (!low || !high) return null;
  const share = high.aspect === low.aspect ? 0 : (aspect - low.aspect) / (high.aspect - low.aspect);
  return low.value + share * (high.value - low.value);
}

/** The influence function of the light on its span, by the factor of its stiffness there. */
function influence(span: LightSpan, stiffness: Cholesky, microphone: Microphone): Float64Array {
  const { deflection } = plateScales(microphone.diaphragm);
  const { curvature, value } = guideAcross(span.fine, microphone);
  const right = apply(span.curved, curvature, curvature.length);
  const own = apply(span.valued, value, value.length);
  for (let i = 0; i < right.length; i++) right[i] = deflection * (right[i]! + own[i]!);
  return choleskySolve(stiffness, right);
}

/** A device's plate at rest under a uniform unit load, on the larger basis; null where it is buckled. */
export function spannedRest({ light }: ShapeSpan, { diaphragm }: Microphone): StaticPlate | null {
  const shape = plateShape(diaphragm);
  const factor = lightFactor(light, shape);
  if (factor === null) return null;
  const shares = choleskySolve(factor, light.load);
  const answer = new Float64Array(light.fine.size);
  light.rows.forEach((row, i) => {
    for (let k = 0; k < answer.length; k++) answer[k]! += shares[i]! * row[k]!;
  });
  return staticPlateFrom({ ...light.fine, shape }, answer, diaphragm);
}

function lightFactor({ rows, bending, tension }: LightSpan, shape: PlateShape, room?: Room): Cholesky | null {
  const factors = termFactors(shape);
  const n = rows.length;
  const all = block(
    [...bending, ...tension],
    [...factors.bending, ...factors.tension],
    { width: n, count: n },
    room,
    "lower",
  );
  return cholesky(all, n, room);
}

/** Leading part of a sum of square matrices with factors; "lower": its lower triangle, the rest is zero. */
const block = (
  matrices: readonly Float64Array[],
  factors: readonly number[],
  { width, count }: { readonly width: number; readonly count: number },
  room?: Room,
  lower?: "lower",
): Float64Array => partOf(matrices, factors, { width, from: [0, 0], count: [count, count] }, room, lower);

/** A rectangle of a matrix of `width` columns: its first row and column, and how many of both. */
export interface Part {
  readonly width: number;
  readonly from: readonly [row: number, column: number];
  readonly count: readonly [rows: number, columns: number];
}

/** A rectangle of a sum of matrices with factors. */
export function partOf(
  matrices: readonly Float64Array[],
  factors: readonly number[],
  { width, from: [top, left], count: [rows, columns] }: Part,
  room: Room = separately,
  lower?: "lower",
): Float64Array {
  const result = room(rows * columns);
  for (let t = 0; t < matrices.length; t++) {
    const matrix = matrices[t]!;
    const factor = factors[t]!;
    if (factor === 0) continue;
    for (let i = 0; i < rows; i++) {
      const end = i * columns + (lower ? i + 1 : columns);
      for (let to = i * columns, at = (top + i) * width + left; to < end; to++, at++)
        result[to]! += factor * matrix[at]!;
    }
  }
  return result;
}

/** The first rows of a matrix times the first entries of a vector. */
export function apply(
  matrix: Float64Array,
  vector: Float64Array,
  width: number,
  rows: number = width === 0 ? 0 : matrix.length / width,
  room: Room = separately,
): Float64Array {
  const result = room(rows);
  for (let i = 0, at = 0; i < rows; i++) {
    let total = 0;
    for (let k = 0; k < width; k++, at++) total += matrix[at]! * vector[k]!;
    result[i] = total;
  }
  return result;
}

/** T A T^T for square matrices, A symmetric. */
function turnBoth(turn: Float64Array, matrix: Float64Array, n: number, room: Room): Float64Array {
  const rows = { width: n, count: n, part: "all" } as const;
  const half = room(n * n);
  realRowProducts(turn, matrix, rows, half);
  const result = room(n * n);
  realRowProducts(turn, half, rows, result);
  return result;
}

/** T C Q^T, the leading part of the coupling. */
function turnCoupling(
  turn: Float64Array,
  filmTurn: Float64Array,
  { coupling, filmCount: width, few }: ShapeSpan,
  room: Room,
): Float64Array {
  const { count, filmCount } = few;
  const leading = room(count * filmCount);
  for (let i = 0, to = 0; i < count; i++) {
    for (let j = 0; j < filmCount; j++, to++) leading[to] = coupling[i * width + j]!;
  }
  const half = room(filmCount * count);
  realRowProducts(filmTurn, leading, { width: filmCount, count, part: "all" }, half);
  const result = room(count * filmCount);
  realRowProducts(turn, half, { width: count, count: filmCount, part: "all" }, result);
  return result;
}
