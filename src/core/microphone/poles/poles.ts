import { absolute, type Complex, complex, scale, subtract } from "../../numerics/complex.ts";
import { type ComplexVector, complexVector } from "../../numerics/complexSymmetric.ts";
import { cos, sin } from "../../numerics/sine.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import { nestedBases, type ReducedBasis, type Snapshot } from "../basis/reducedBasis.ts";
import type { Microphone } from "../microphone.ts";
import { bentMotion, bentRates, isUneven } from "../system/bentFilm.ts";
import { hasNetwork } from "../system/network.ts";
import type { Prepared } from "../system/prepare.ts";
import { withLevelFilm } from "../system/relief.ts";
import { hasWallHole } from "../system/wallHole.ts";
import { followedMotions, oscillates, readIn } from "./followPoles.ts";
import { oscillatingPoles, polish, rayPoints, rays } from "./oscillatingPoles.ts";
import { type OwnMotion, ownMotion, type Parts } from "./ownMotion.ts";
import { liveFactors, probeForce, reducedModel, type SmallModel, wholeModel, withoutLossIn } from "./poleModel.ts";
import { type CreepingAbout, polesByAxis, realPoles } from "./realPoles.ts";

export interface OscillatingPole {
  /** omega_p = omega_0 (sqrt(1 - zeta^2) + i zeta) [rad/s]. */
  readonly omega: Complex;
  /** |omega_p| / 2 pi [Hz] */
  readonly frequency: number;
  /** zeta = Im omega_p / |omega_p| [-] */
  readonly dampingRatio: number;
}

export interface Poles {
  /** In order of frequency. */
  readonly oscillating: readonly OscillatingPole[];
  /** Real poles e^(-rate t), slowest first [1/s]. */
  readonly real: readonly { readonly rate: number }[];
  /** All oscillating poles up to this |omega| / 2 pi are listed [Hz]. */
  readonly upTo: number;
  /** How plate, film and air move at each of them, in that basis, where it was read. */
  readonly motions?: readonly OwnMotion[];
  /** Where to look first for the poles of a device that differs little, a little beyond the limit as well [rad/s]. */
  readonly near: readonly Complex[];
  /** The basis that they were searched in. */
  readonly basis: ReducedBasis;
  /** Whether a contour in the small basis proved their number; otherwise they were searched and counted ring by ring. */
  readonly confirmed: boolean;
  /** Largest relative change of a pole from the reduced basis to the whole system [-]; null where they were not polished. */
  readonly polished: number | null;
}

export interface PoleSearch {
  /** All oscillating poles up to here [Hz]; default 4 times the first resonance in vacuum, and never less. */
  readonly upTo?: number;
  /** And so many at least; default 1. */
  readonly atLeast?: number;
  /** Only up to the limit, not counted by a contour, not polished: for an answer under a moving hand. */
  readonly quick?: boolean;
  /** Poles of a device that differs little, to start from [rad/s]. */
  readonly near?: readonly Complex[];
}

/** Poles of the even-even class, the one that sound excites. */
export function findPoles(prepared: Prepared, microphone: Microphone, search: PoleSearch = {}): Poles {
  const atLeast = search.atLeast ?? 1;
  const first = firstMode(prepared, microphone);
  const asked = Math.max(search.upTo ?? 0, 4 * first);
  const quick = search.quick ?? false;
  let reach = asked;
  const near = search.near ?? [];
  let found = polesUpTo(prepared, microphone, { upTo: reach, first, quick, near });
  if (quick) return found;
  // Twice two thirds more of the range, to nineteen first resonances; beyond, the functions do not reach.
  for (let step = 0; step < 2 && found.oscillating.length < atLeast; step++) {
    reach *= 5 / 3;
    found = polesUpTo(prepared, microphone, { upTo: reach, first, quick, near });
  }
  const { oscillating } = found;
  const below = oscillating.filter(({ frequency }) => frequency <= asked).length;
  const kept = oscillating.slice(0, Math.max(below, atLeast));
  const last = kept.at(-1)?.frequency ?? 0;
  const next = oscillating[kept.length]?.frequency ?? reach;
  // A little past the last one, so that a contour at the limit does not run through it.
  const motions = found.motions?.slice(0, kept.length);
  return {
    ...found,
    ...(motions && { motions }),
    oscillating: kept,
    upTo: Math.max(asked, Math.min(1.001 * last, (last + next) / 2)),
  };
}

/** First resonance in vacuum [Hz]. */
const firstMode = ({ first }: Prepared, { diaphragm }: Microphone): number =>
  Math.sqrt(first / plateScales(diaphragm).lambda) / (2 * Math.PI);

function polesUpTo(
  prepared: Prepared,
  microphone: Microphone,
  {
    upTo,
    first,
    quick,
    near: starting,
  }: { readonly upTo: number; readonly first: number; readonly quick: boolean; readonly near: readonly Complex[] },
): Poles {
  const top = 2 * Math.PI * upTo;
  // Points in proportion to what may ring in the range; at four times the first resonance once.
  const density = Math.min(4, upTo / (4 * first));
  // Own motions do not know the flow through one hole in the wall.
  const level = withLevelFilm(microphone);
  const fast = hasWallHole(microphone)
    ? null
    : fastPoles(prepared, level, { top, first, density, quick, near: starting, sampled: microphone });
  const {
    basis,
    few = null,
    motions: found,
    near,
  } = fast ?? slowSearch(prepared, level, { top, density, quick, near: starting, sampled: microphone });
  const motions = isUneven(microphone) ? bentPoles(prepared, microphone, basis, { found, quick }) : found;
  const inside = motions
    .filter(({ omega }) => absolute(omega) <= top && omega.im > -1e-9 * absolute(omega))
    .sort((a, b) => absolute(a.omega) - absolute(b.omega));
  const oscillating = inside.map(({ omega }) => asPole(omega));
  const creeps = mayCreep(oscillating, first);
  const read = inside.map(({ motion }) => motion);
  const polished = Math.max(0, ...inside.map(({ omega, start }) => absolute(subtract(omega, start)) / absolute(omega)));
  const poles: Poles = {
    oscillating,
    ...(read.every((motion) => motion !== null) && { motions: read }),
    real: [],
    upTo,
    near,
    basis,
    polished: quick ? null : polished,
    confirmed: fast !== null,
  };
  if (quick && creeps && hasNetwork(microphone)) return withAxisPoles(prepared, poles, microphone, few);
  return quick && !creeps ? poles : { ...poles, real: slowPoles(prepared, basis, microphone, top, { creeps, few }) };
}

/** The poles over the gap as it is, from those over its mean. */
function bentPoles(
  prepared: Prepared,
  microphone: Microphone,
  basis: ReducedBasis,
  { found, quick }: { readonly found: readonly FoundPole[]; readonly quick: boolean },
): readonly FoundPole[] {
  const { form } = reducedModel(prepared, basis, microphone);
  const whole = quick ? null : wholeModel(prepared, microphone);
  const bent: FoundPole[] = [];
  for (const level of found) {
    const motion = bentMotion(form, level.omega, level.motion);
    const omega =
      whole && motion ? (ownMotion(whole.form, motion.omega, { within: 1e-7 })?.omega ?? motion.omega) : motion?.omega;
    const isNew = omega && !bent.some((other) => near(other.omega, omega, 1e-7));
    bent.push(motion && isNew ? { omega, start: motion.omega, motion } : level);
  }
  return bent;
}

/** A pole, where the search began to polish it, and its motion in the basis of the search; null where it was not read. */
interface FoundPole {
  readonly omega: Complex;
  readonly start: Complex;
  readonly motion: OwnMotion | null;
}

interface FoundPoles {
  readonly basis: ReducedBasis;
  readonly few?: ReducedBasis;
  readonly motions: readonly FoundPole[];
  readonly near: readonly Complex[];
}

/** The beginning of a basis that poles are searched in. */
const few = { most: 28, tolerance: 1e-3 } as const;

/** Searched in the beginning of a sparser basis, confirmed there in number, polished by their motions; null where that fails. */
function fastPoles(
  prepared: Prepared,
  microphone: Microphone,
  {
    top,
    first,
    density,
    quick,
    near: starting,
    sampled,
  }: {
    readonly top: number;
    readonly first: number;
    readonly density: number;
    readonly quick: boolean;
    readonly near: readonly Complex[];
    readonly sampled: Microphone;
  },
): FoundPoles | null {
  const bases = poleBases(prepared, sampled, top, 0.6 * density);
  const small = reducedModel(prepared, bases.few, microphone);
  const found = followedMotions(small, starting.length > 0 ? starting : null, top, first);
  if (found === null) return null;
  // A strongly damped one may lie some per cent off in the beginning of the basis.
  const read = readIn(reducedModel(prepared, bases.all, microphone), found, { bases, top, limit: 1.1 * top });
  if (read === null) return null;
  const whole = quick ? null : wholeModel(prepared, microphone);
  const motions: FoundPole[] = [];
  for (const motion of read) {
    const polished = whole && ownMotion(whole.form, motion.omega, { like: onWhole(bases.all, motion), off: 1e-9 });
    const omega = (whole ? polished : motion)?.omega;
    if (!omega || !near(omega, motion.omega, 1e-3)) return null;
    const isNew = !motions.some((other) => near(other.omega, omega, 1e-7));
    if (isNew) motions.push({ omega, start: motion.omega, motion });
    else if (absolute(omega) < top) return null;
  }
  return { basis: bases.all, few: bases.few, motions, near: found.map(({ omega }) => omega) };
}

/** A motion in a reduced basis as one of the whole system. */
const onWhole = (basis: ReducedBasis, motion: OwnMotion): Parts => ({
  ...motion,
  plate: combined(basis.plate, basis.count, motion.plate),
  film: combined(basis.film, basis.filmCount, motion.film),
});

/** Sum of rows times coefficients. */
function combined(rows: Float64Array, count: number, { re, im }: ComplexVector): ComplexVector {
  const width = count === 0 ? 0 : rows.length / count;
  const sum = complexVector(width);
  for (let i = 0; i < count; i++) {
    for (let k = 0, at = i * width; k < width; k++, at++) {
      sum.re[k]! += re[i]! * rows[at]!;
      sum.im[k]! += im[i]! * rows[at]!;
    }
  }
  return sum;
}

/** Searched with more samples in a denser basis, counted by a contour, polished on the determinant of the whole system. */
function slowSearch(
  prepared: Prepared,
  microphone: Microphone,
  {
    top,
    density,
    quick,
    near: starting,
    sampled,
  }: {
    readonly top: number;
    readonly density: number;
    readonly quick: boolean;
    readonly near: readonly Complex[];
    readonly sampled: Microphone;
  },
): FoundPoles {
  const basis = poleBases(prepared, sampled, top, quick ? 0.6 * density : density).all;
  const starts = oscillatingPoles(reducedModel(prepared, basis, microphone), top * 1.02, {
    density: quick ? 0.5 * density : density,
    counted: !quick,
    near: starting,
  });
  const plain = (omega: Complex, start: Complex): FoundPole => ({ omega, start, motion: null });
  if (quick) return { basis, motions: starts.map((start) => plain(start, start)), near: starts };
  const whole = wholeModel(prepared, microphone);
  const live = liveFactors(whole, 1.3 * top).map(({ index }) => index);
  const motions: FoundPole[] = [];
  for (const start of starts) {
    const known = motions.map(({ omega }) => omega);
    const polishedOne = polish(whole, live, known, start, 1e-7);
    // A mode of the film that the plate does not feel sits where the film's answer is infinite: no secant there, and none needed.
    const omega = polishedOne !== null && near(polishedOne, start, 1e-3) ? polishedOne : start;
    if (!known.some((other) => near(other, omega, 1e-7))) motions.push(plain(omega, start));
  }
  return { basis, motions, near: motions.map(({ omega }) => omega) };
}

/**
 * Whether real poles may make the resonance: where nothing rings near the first resonance in vacuum [Hz], or what rings there is
 * nearly overdamped. For quick answers, which look for real poles only then.
 */
export function mayCreep(oscillating: readonly OscillatingPole[], first: number): boolean {
  const lowest = oscillating[0];
  return lowest === undefined || lowest.dampingRatio > 0.8 || lowest.frequency > 1.5 * first;
}

/**
 * Real poles of a device, without its constant loss factor [1/s]; `few`: a smaller basis of the same device; `models`: of both bases
 * over the level film, where they are at hand, with what `creepingOf` says of them. With air in front and behind those below the
 * first singularity of holes and cavities, and all where the resonance itself may creep.
 */
export function slowPoles(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  upTo: number,
  given: { readonly creeps?: boolean; readonly few?: ReducedBasis | null; readonly models?: BothModels } = {},
): Poles["real"] {
  const { creeps = true, few = null, models } = given;
  if (creeps && hasNetwork(microphone)) return creepAround(prepared, basis, microphone, upTo, few);
  const level = withLevelFilm(withoutLoss(microphone));
  const rates = models
    ? realPoles(withoutLossIn(models.large), upTo, () => withoutLossIn(models.small), models.starts)
    : realPoles(reducedModel(prepared, basis, level), upTo, few && (() => reducedModel(prepared, few, level)));
  return ratesOf(prepared, basis, microphone, rates);
}

/** Models of a device in a basis and in its beginning, and about where it creeps. */
interface BothModels {
  readonly large: SmallModel;
  readonly small: SmallModel;
  readonly starts: CreepingAbout["starts"];
}

/** The same with air in front and behind, beyond the singularities of holes and cavities too. */
function creepAround(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  upTo: number,
  few: ReducedBasis | null,
): Poles["real"] {
  const found = aroundAxis(prepared, basis, microphone, upTo, few);
  const rates = found.flatMap(({ re, im }) => (re === 0 ? [im] : []));
  return ratesOf(prepared, basis, microphone, rates);
}

function aroundAxis(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  upTo: number,
  few: ReducedBasis | null,
): readonly Complex[] {
  const level = withLevelFilm(withoutLoss(microphone));
  const model = reducedModel(prepared, basis, level);
  const alone = reducedModel(prepared, basis, { ...level, front: null, back: null, body: null });
  return polesByAxis(model, alone, upTo, few ? reducedModel(prepared, few, level) : model);
}

/**
 * Poles with those besides that a walk up the imaginary axis shows: of holes and cavities, beyond their first singularity, and
 * pairs that hardly turn before they have died. `few`: a smaller basis of the same device, for the walk.
 */
export function withAxisPoles(
  prepared: Prepared,
  poles: Poles,
  microphone: Microphone,
  few: ReducedBasis | null = null,
): Poles {
  const { basis } = poles;
  const top = 2 * Math.PI * poles.upTo;
  const found = aroundAxis(prepared, basis, microphone, top, few);
  const model = reducedModel(prepared, basis, microphone);
  const known = poles.oscillating.map(({ omega }) => omega);
  const more = found.flatMap((omega) => {
    if (omega.re === 0 || known.some((other) => near(other, omega, 0.01))) return [];
    const motion = ownMotion(model.form, omega, { within: 1e-7 });
    return motion && oscillates(motion.omega, microphone) && absolute(motion.omega) <= top ? [motion] : [];
  });
  const all = [
    ...poles.oscillating.map((pole, i) => ({ pole, motion: poles.motions?.[i] ?? null })),
    ...more.map((motion) => ({ pole: asPole(motion.omega), motion })),
  ].sort((a, b) => a.pole.frequency - b.pole.frequency);
  const motions = all.flatMap(({ motion }) => motion ?? []);
  const rates = found.flatMap(({ re, im }) => (re === 0 ? [im] : []));
  return {
    ...poles,
    oscillating: all.map(({ pole }) => pole),
    ...(poles.motions && { motions }),
    real: ratesOf(prepared, basis, microphone, rates),
    near: [...poles.near, ...more.map(({ omega }) => omega)],
  };
}

/** Rates over a level film, or those over the uneven one that they become. */
function ratesOf(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  level: readonly number[],
): Poles["real"] {
  const given = withoutLoss(microphone);
  const formOf = (one: Microphone) => reducedModel(prepared, basis, one).form;
  const rates = isUneven(given) ? bentRates(formOf(given), formOf(withLevelFilm(given)), level) : level;
  return rates.map((rate) => ({ rate }));
}

const withoutLoss = (microphone: Microphone): Microphone => ({
  ...microphone,
  diaphragm: { ...microphone.diaphragm, lossFactor: 0 },
});

const near = (a: Complex, b: Complex, within: number): boolean =>
  Math.hypot(a.re - b.re, a.im - b.im) < within * absolute(b);

export function asPole(omega: Complex): OscillatingPole {
  const size = absolute(omega);
  return { omega, frequency: size / (2 * Math.PI), dampingRatio: Math.max(0, omega.im / size) };
}

const pointsPerRay = [10, 5, 5] as const;

/** Basis from this microphone's answers to the probe, up to |omega| = top, and its beginning. */
function poleBases(prepared: Prepared, microphone: Microphone, top: number, density: number) {
  const force = probeForce(prepared);
  const gap = microphone.film?.gap ?? 0;
  const filmTerms = liveFactors(wholeModel(prepared, withLevelFilm(microphone)), 1.1 * top).map(({ index }) => index);
  const omegas: Complex[] = rays.flatMap((angle, ray) =>
    Array.from(rayPoints(1.25 * top, Math.round(density * pointsPerRay[ray]!)), (t) =>
      scale(complex(cos(angle), sin(angle)), t),
    ),
  );
  // The creep of an overdamped film lies low on the imaginary axis.
  for (const t of [1e-3, 1e-2, 0.08, 0.3, 0.8]) omegas.push(complex(0, t * top));
  // The uniform load as well: then the response itself can be read in this basis. Air around acts by the pressure behind, too.
  // They are smoother than the probe's answer, so every second frequency does.
  const others = [prepared.plate.load, ...(hasNetwork(microphone) ? (["behind"] as const) : [])];
  const snapshots = omegas.flatMap((omega, i) =>
    [force, ...(i % 2 === 0 ? others : [])].map((each): Snapshot => ({ gap, omega, force: each })),
  );
  return nestedBases(prepared, microphone, snapshots, { most: 80, tolerance: 1e-6, filmTerms, few });
}
