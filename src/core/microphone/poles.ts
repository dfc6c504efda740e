import { absolute, type Complex, complex, scale } from "../numerics/complex.ts";
import { plateScales } from "../parts/diaphragm/shape.ts";
import type { Microphone } from "./microphone.ts";
import { hasNetwork } from "./network.ts";
import { oscillatingPoles, polish, rayPoints, rays } from "./oscillatingPoles.ts";
import type { OwnMotion } from "./ownMotion.ts";
import { liveFactors, probeForce, reducedModel, wholeModel } from "./poleModel.ts";
import type { Prepared } from "./prepare.ts";
import { realPoles, realPolesAround } from "./realPoles.ts";
import { type ReducedBasis, reducedBasis, type Snapshot } from "./reducedBasis.ts";

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
  return { ...found, oscillating: kept, upTo: Math.max(asked, Math.min(1.001 * last, (last + next) / 2)) };
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
  const basis = poleBasis(prepared, microphone, top, quick ? 0.6 * density : density);
  const starts = oscillatingPoles(reducedModel(prepared, basis, microphone), top * 1.02, {
    density: quick ? 0.5 * density : density,
    counted: !quick,
    near: starting,
  });
  const whole = wholeModel(prepared, microphone);
  const live = liveFactors(whole, 1.3 * top).map(({ index }) => index);
  const omegas: Complex[] = [];
  let polished = 0;
  for (const start of starts) {
    if (quick) {
      omegas.push(start);
      continue;
    }
    const polishedOne = polish(whole, live, omegas, start, 1e-7);
    // A mode of the film that the plate does not feel sits where the film's answer is infinite: no secant there, and none needed.
    const omega = polishedOne !== null && near(polishedOne, start, 1e-3) ? polishedOne : start;
    if (omegas.some((other) => near(other, omega, 1e-7))) continue;
    omegas.push(omega);
    polished = Math.max(polished, absolute({ re: omega.re - start.re, im: omega.im - start.im }) / absolute(omega));
  }
  const oscillating = omegas
    .map(asPole)
    .filter(({ frequency, omega }) => frequency <= upTo && omega.im > -1e-9 * absolute(omega))
    .sort((a, b) => a.frequency - b.frequency);
  return {
    oscillating,
    real:
      quick && !mayCreep(oscillating, first)
        ? []
        : slowPoles(prepared, basis, microphone, top, mayCreep(oscillating, first)),
    upTo,
    near: omegas,
    basis,
    polished: quick ? null : polished,
  };
}

/**
 * Whether real poles may make the resonance: where nothing rings near the first resonance in vacuum [Hz], or what rings there is
 * nearly overdamped. For quick answers, which look for real poles only then.
 */
export function mayCreep(oscillating: readonly OscillatingPole[], first: number): boolean {
  const lowest = oscillating[0];
  return lowest === undefined || lowest.dampingRatio > 0.8 || lowest.frequency > 1.5 * first;
}

/** Real poles of a device, without its constant loss factor [1/s]. */
export function slowPoles(
  prepared: Prepared,
  basis: ReducedBasis,
  microphone: Microphone,
  upTo: number,
  fast = true,
): readonly { readonly rate: number }[] {
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const model = reducedModel(prepared, basis, lossless);
  // Beside holes and cavities the faster ones are searched only where they may make the resonance.
  if (!hasNetwork(microphone) || !fast) return realPoles(model, upTo).map((rate) => ({ rate }));
  const alone = reducedModel(prepared, basis, { ...lossless, front: null, back: null });
  return realPolesAround(model, alone, upTo).map((rate) => ({ rate }));
}

const near = (a: Complex, b: Complex, within: number): boolean =>
  Math.hypot(a.re - b.re, a.im - b.im) < within * absolute(b);

export function asPole(omega: Complex): OscillatingPole {
  const size = absolute(omega);
  return { omega, frequency: size / (2 * Math.PI), dampingRatio: Math.max(0, omega.im / size) };
}

const pointsPerRay = [10, 5, 5] as const;

/** Basis from this microphone's answers to the probe, up to |omega| = top. */
function poleBasis(prepared: Prepared, microphone: Microphone, top: number, density: number): ReducedBasis {
  const force = probeForce(prepared);
  const gap = microphone.film?.gap ?? 0;
  const filmTerms = liveFactors(wholeModel(prepared, microphone), 1.1 * top).map(({ index }) => index);
  const omegas: Complex[] = rays.flatMap((angle, ray) =>
    Array.from(rayPoints(1.25 * top, Math.round(density * pointsPerRay[ray]!)), (t) =>
      scale(complex(Math.cos(angle), Math.sin(angle)), t),
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
  return reducedBasis(prepared, microphone, snapshots, { most: 80, tolerance: 1e-6, filmTerms });
}
