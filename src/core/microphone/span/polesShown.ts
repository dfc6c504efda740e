/**
 * The poles that a response shows, each polished on the device itself.
 *
 * The interpolant of the response knows them: what rings is polished where it lies, what creeps on the axis of decay, where S is real,
 * by Newton's rule with the interpolant's residue first and by the secant method after that. What all of them carry must add up to
 * the response at the slow end of its range, and where it does not the axis of decay is searched for the rest.
 * Derivation: docs/theory/poles.md.
 */
import {
  absolute,
  add,
  type Complex,
  complex,
  divide,
  multiply,
  scale,
  squareRoot,
  subtract,
} from "../../numerics/complex.ts";
import { type Rational, rationalPoles } from "../../numerics/rational.ts";
import { poleShare } from "../poles/shares.ts";
import { type Curve, readCurve } from "../response/curve.ts";
import { type Creeping, creepingPoles, settled, settledApart, slowPoles } from "./creepingPoles.ts";

export interface PolesShown {
  /** Poles that the response shows, polished, with their share in the output at rest. */
  readonly resonances: readonly { readonly frequency: number; readonly dampingRatio: number; readonly share: number }[];
  /** `partner`: the other real pole that carries most beyond it; a guess, where predict asks the motion itself. */
  readonly decays: readonly { readonly rate: number; readonly share: number; readonly partner: number | null }[];
}

/** Of which poles are asked for. */
export interface PolesOf {
  /** S at a frequency [rad/s], which may be complex [rad/Pa]. */
  readonly respond: (omega: Complex) => Complex;
  /** S of the device without a loss factor on the axis of decay, which would turn what creeps off it [rad/Pa]. */
  readonly lossless: (rate: number) => number;
  /** See `decays` of `PolesShown`. */
  readonly partner?: (rate: number) => number | null;
  /** Which of them never has one. */
  readonly isVent?: (rate: number) => boolean;
}

/** A pole with less of the output than this is left to the exact search. */
const leastShare = 1e-4;
/** Of the strongest one's share; a quarter competes for the name of resonance (mainResonance.ts). */
const weakShare = 0.15;
/** Of the strongest one's share, by the same measure: what a vent carries. */
const ventShare = 0.2;
/** Of what the strongest found carries: where so much of what the interpolant shows is missing, something strong may be. */
const missingShare = 0.2;
/** Of its size: what is so near the axis hardly turns before it has died. */
const besideAxis = 0.02;
/** Of its size: so little below the real axis round-off may put what nothing damps. */
const besideReal = 1e-6;
/** Of its rate: so near the axis a loss factor leaves what creeps. */
const lossTurns = 2e-3;
/** Where the search for a vent begins [Hz]: slower than any. */
const slowest = 1e-3;

interface Shown {
  readonly pole: Complex;
  readonly residue: Complex;
  readonly share: number;
}

/** What rings, or creeps. */
type Found = { readonly pole: Complex; readonly share: number } | Creeping;

/** `atRest`: output at rest, of which the shares are [rad/Pa]. */
export function polesShown(curve: Curve, device: PolesOf, atRest: number): PolesShown {
  const shown = polesWithin(curve, atRest).filter(({ share }) => Math.abs(share) > leastShare);
  const most = strongestOf(shown.map(({ share }) => share));
  const isWeak = ({ share }: Shown) => Math.abs(share) < weakShare * most;
  const ringing: { readonly pole: Complex; readonly share: number }[] = [];
  const creeping: Creeping[] = [];
  const add = (one: Found | null): boolean => {
    if (one === null) return false;
    if ("rate" in one) {
      if (!creeping.some(({ rate }) => isNear(rate, one.rate))) creeping.push(one);
    } else if (!ringing.some(({ pole }) => isNear(absolute(pole), absolute(one.pole)))) ringing.push(one);
    return true;
  };
  // What carries little is nobody's resonance: the interpolant's pole will do.
  const lost = shown.filter((one) => !add(isWeak(one) ? asShown(one) : onDevice(device, one, { creeping, atRest })));
  const creepShare = ({ rate, weight }: Creeping) => -weight / rate / atRest;
  const shares = () => [...ringing.map(({ share }) => share), ...creeping.map(creepShare)];
  const whole = sum(shown.map(({ share }) => share));
  const missing = () => Math.abs(whole - sum(shares())) > missingShare * strongestOf(shares());
  // Two that the interpolant can't tell apart: both creep, or they have not met yet and lead the steps along the axis away.
  const lumps = missing() ? shown.filter(onAxis) : [];
  const told = { shown: lumps.map(asCreeping), found: creeping };
  for (const one of lumps) {
    if (isWeak(one)) continue;
    for (let more = 0; more < 2 && missing(); more++)
      if (!add(settledApart(device.lossless, absolute(one.pole), told))) break;
  }
  const unknown = lost.filter((one) => !missing() || !add(asPair(device, one, { creeping, ringing })));
  if (missing()) for (const one of creepingPoles(device.lossless, [curve.from, 2 * curve.to])) add(one);
  for (const one of unknown) if (missing()) add(asShown(one));
  // What the output at rest has beyond the range is slower: a vent's.
  const slower = slowPoles(device.lossless, {
    rest: atRest,
    fast: readCurve(curve, Float64Array.of(curve.from)).re[0]!,
    before: 2 * Math.PI * curve.from,
    strongest: Math.abs(atRest) * strongestOf(shares()),
    heard: ventShare,
  });
  for (const one of slower ?? creepingPoles(device.lossless, [slowest, curve.from])) add(one);
  const decays = creeping.map((one) => ({ rate: one.rate, share: creepShare(one) }));
  return {
    resonances: ringing
      .map(({ pole, share }) => ({
        frequency: absolute(pole) / (2 * Math.PI),
        dampingRatio: Math.max(0, pole.im / absolute(pole)),
        share,
      }))
      .sort((one, other) => one.frequency - other.frequency),
    decays: withPartners(
      decays.sort((one, other) => one.rate - other.rate),
      device,
      weakShare * strongestOf(shares()),
    ),
  };
}

const sum = (shares: readonly number[]): number => shares.reduce((all, share) => all + share, 0);

const strongestOf = (shares: readonly number[]): number =>
  shares.reduce((size, share) => Math.max(size, Math.abs(share)), 0);

const onAxis = ({ pole }: Shown): boolean => pole.re === 0;

/** R / (omega - i r) is Im R / (rate - r) at omega = i rate. */
const asCreeping = ({ pole, residue }: Pick<Shown, "pole" | "residue">): Creeping => ({
  rate: absolute(pole),
  weight: residue.im,
});

const asShown = (one: Shown): Found => (onAxis(one) ? asCreeping(one) : one);

/** One polished on the device, as what rings or what creeps; null where the steps lead away. `creeping`: found before. */
function onDevice(
  { respond, lossless }: PolesOf,
  one: Shown,
  { creeping, atRest }: { readonly creeping: readonly Creeping[]; readonly atRest: number },
): Found | null {
  if (onAxis(one)) return settled(lossless, asCreeping(one), creeping);
  const polish = polished(respond, one);
  if (polish === null) return null;
  const { pole, residue } = polish;
  // A residue along the axis is that of one that creeps; of one of two about to meet it lies across.
  const alone = Math.abs(pole.re) < besideAxis * absolute(pole) && Math.abs(residue.im) > Math.abs(residue.re);
  const slow = alone ? settled(lossless, asCreeping(polish), creeping) : null;
  return slow ?? { pole, share: poleShare(residue, pole, atRest) };
}

/** One of two that have not met yet, with the share that is shown: their own are large, and nearly cancel. */
function asPair(
  { respond, lossless }: PolesOf,
  one: Shown,
  {
    creeping,
    ringing,
  }: { readonly creeping: readonly Creeping[]; readonly ringing: readonly { readonly pole: Complex }[] },
): Found | null {
  const pole = parted(
    respond,
    one.pole,
    ringing.map((other) => other.pole),
  );
  if (pole === null) return null;
  if (Math.abs(pole.re) > besideAxis * absolute(pole)) return { pole, share: one.share };
  // The loss factor turns what creeps off the axis by as much.
  const slow = { rate: absolute(pole), weight: one.residue.im };
  return settled(lossless, slow, creeping, lossTurns) ?? { pole, share: one.share };
}

const isNear = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6 * b;

/** Poles of the interpolant with their residues [rad/s], what creeps moved onto the axis. */
function polesWithin({ rational, from, to }: Curve, atRest: number): readonly Shown[] {
  const found = rationalPoles(rational).filter((one) => absolute(one) > from && absolute(one) < 1.5 * to);
  return found.flatMap((one) => {
    const size = absolute(one);
    const lone = Math.abs(one.re) < 0.2 * size && !found.some((other) => isMirrored(one, other));
    if (!lone && !(one.re > 0 && one.im > -besideReal * size)) return [];
    const own = residueOf(rational, one);
    const creeps = lone && Math.abs(own.im) > Math.abs(own.re);
    // Of a lone one that rings the image may be shown in its place.
    const pole = scale(creeps ? complex(0, size) : complex(Math.abs(one.re), one.im), 2 * Math.PI);
    const residue = scale(creeps || one.re > 0 ? own : complex(-own.re, own.im), 2 * Math.PI);
    return [{ pole, residue, share: poleShare(residue, pole, atRest) }];
  });
}

/** What rings has an image on the other side of the axis of decay, which the interpolant shows as far as the range can tell. */
const isMirrored = (one: Complex, other: Complex): boolean =>
  Math.abs(one.re + other.re) < 0.5 * Math.abs(one.re) && Math.abs(one.im - other.im) < 0.5 * Math.abs(one.re);

/** Partners of those that carry at least `heard`; where the device does not tell, each has the faster one that carries most. */
function withPartners(
  decays: readonly { readonly rate: number; readonly share: number }[],
  { partner, isVent }: PolesOf,
  heard: number,
): PolesShown["decays"] {
  const told = ({ rate, share }: { readonly rate: number; readonly share: number }): number | null => {
    if (partner) return Math.abs(share) < heard ? null : partner(rate);
    if (isVent?.(rate)) return null;
    const beyond = decays.filter((other) => other.rate > rate);
    const most = strongestOf(beyond.map((other) => other.share));
    return beyond.find((other) => Math.abs(other.share) === most)?.rate ?? null;
  };
  return decays.map((slow) => ({ ...slow, partner: told(slow) }));
}

/** Residue of the interpolant at one of its poles: N / D' of its barycentric form, in plain numbers. */
function residueOf({ x, re, im, weightRe, weightIm }: Rational, z: Complex): Complex {
  let [valueRe, valueIm, slopeRe, slopeIm] = [0, 0, 0, 0];
  for (let j = 0; j < x.length; j++) {
    const step = z.re - x[j]!;
    const perSquare = 1 / (step * step + z.im * z.im);
    const [oneRe, oneIm] = [step * perSquare, -z.im * perSquare];
    const termRe = weightRe[j]! * oneRe - weightIm[j]! * oneIm;
    const termIm = weightRe[j]! * oneIm + weightIm[j]! * oneRe;
    valueRe += termRe * re[j]! - termIm * im[j]!;
    valueIm += termRe * im[j]! + termIm * re[j]!;
    slopeRe -= termRe * oneRe - termIm * oneIm;
    slopeIm -= termRe * oneIm + termIm * oneRe;
  }
  return divide(complex(valueRe, valueIm), complex(slopeRe, slopeIm));
}

/** Steps shorter than this share of the decay rate leave a hundredth of them: so well the interpolant knows the slope. */
const shortStep = 1e-4;
/** Of the pole's size: steps that say nothing about the residue. */
const roundOff = 1e-9;

/** A zero of 1 / S near a pole of the interpolant, and the residue there; null where the steps lead away. */
function polished(
  respond: (omega: Complex) => Complex,
  start: Shown,
): { readonly pole: Complex; readonly residue: Complex } | null {
  let { pole, residue } = start;
  const size = absolute(pole);
  let before: Point | null = null;
  for (let step = 0; step < 12; step++) {
    const here = inverseAt(respond, pole);
    // 1 / S = (omega - pole) / R
    if (before) residue = divide(subtract(here.omega, before.omega), subtract(here.value, before.value));
    const move = multiply(here.value, residue);
    pole = subtract(pole, move);
    if (!(absolute(subtract(pole, start.pole)) < 0.2 * size && pole.im > -besideReal * size)) return null;
    const short = before ? 1e-5 * size : Math.max(shortStep * pole.im, roundOff * size);
    if (absolute(move) < short) return { pole, residue };
    before = here;
  }
  return null;
}

/**
 * One of two poles about to meet on the axis, which lead the steps of a straight line astray: a parabola through three points has
 * both. `others` are divided out of 1 / S, with their images, so that none is found again. null where it does not settle.
 * Source: Muller 1956 (from memory, to be confirmed).
 */
function parted(respond: (omega: Complex) => Complex, from: Complex, others: readonly Complex[]): Complex | null {
  const start = complex(Math.max(from.re, 0.02 * absolute(from)), from.im);
  const at = (omega: Complex): Point => {
    let { value } = inverseAt(respond, omega);
    for (const { re, im } of others) {
      const both = multiply(complex(omega.re - re, omega.im - im), complex(omega.re + re, omega.im - im));
      value = divide(scale(value, re * re + im * im), both);
    }
    return { omega, value };
  };
  let points = [scale(start, 1.01), scale(start, 0.99), start].map(at) as [Point, Point, Point];
  for (let step = 0; step < 15; step++) {
    const [first, second, here] = points;
    const last = subtract(here.omega, second.omega);
    const slope = divide(subtract(here.value, second.value), last);
    const before = divide(subtract(second.value, first.value), subtract(second.omega, first.omega));
    const bend = divide(subtract(slope, before), subtract(here.omega, first.omega));
    const tangent = add(slope, multiply(bend, last));
    const root = squareRoot(subtract(multiply(tangent, tangent), scale(multiply(bend, here.value), 4)));
    const [plus, minus] = [add(tangent, root), subtract(tangent, root)];
    const move = divide(scale(here.value, -2), absolute(plus) > absolute(minus) ? plus : minus);
    const pole = add(here.omega, move);
    if (!Number.isFinite(pole.re + pole.im)) return null;
    if (absolute(subtract(pole, start)) > 0.2 * absolute(start) || pole.im <= 0) return null;
    if (absolute(move) < 1e-6 * absolute(pole)) return pole.re > 0 ? pole : null;
    // Each of the two leads to the other's side of the axis; what rings is on this one.
    points = [second, here, at(complex(Math.abs(pole.re), pole.im))];
  }
  return null;
}

interface Point {
  readonly omega: Complex;
  /** 1 / S */
  readonly value: Complex;
}

const inverseAt = (respond: (omega: Complex) => Complex, omega: Complex): Point => ({
  omega,
  value: divide(complex(1), respond(omega)),
});
