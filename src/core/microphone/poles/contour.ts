/**
 * The determinant of plate and film along the border of a sector of the omega plane, kept between counts: over the poles that are
 * known it hardly turns, so that some forty frequencies say how many are missing, and the same integral says where.
 *
 *     missing = (1 / 2 pi i) integral d log g,   s_k = (1 / 2 pi i) integral z^k d log g,   g = Delta / product of (omega - omega_k)(omega + omega_k*)
 *
 * Source: argument principle. Derivation: docs/theory/poles.md.
 */
import { absolute, add, type Complex, complex, multiply, scale, subtract } from "../../numerics/complex.ts";
import { fromPowerSums } from "../../numerics/powerSums.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { Sector } from "./countPoles.ts";
import { filmModes, liveFactors, type PoleModel, pivotsOf } from "./poleModel.ts";

/** Largest turn in one step that is believed, of the determinant over its known poles and of a film factor over its zero [rad]. */
const tame = 0.9;
/** Steps to begin with on the four sides: along the real axis, outside, along the strongly damped border, inside. */
const coarse = [6, 8, 9, 2] as const;
/** Frequencies at most. */
const mostNodes = 400;
/** A step is not halved below this share of what it was. */
const shortest = 1 / 256;
/** More missing poles than this are not told apart by their sums. */
const mostApart = 4;

/** Zeros of the film alone that count, over the end of the sector. */
const withFilm = 1.2;

/** Angle under the real axis at which the border runs, so that poles without damping turn the determinant slowly [rad]. */
const under = 0.12;

interface Node {
  readonly t: number;
  readonly omega: Complex;
  /** Direction of the determinant without the film's own zeros, and the logarithm of its size. */
  readonly re: number;
  readonly im: number;
  readonly logarithm: number;
  /** Inverse film factors over their own zeros, and the logarithm of what they are together. */
  readonly filmRe: readonly number[];
  readonly filmIm: readonly number[];
  readonly filmLogarithm: number;
}

/** What is missing inside: how many poles, and where if they are few, to a per cent or two of the sector's size [rad/s]. */
export interface Missing {
  readonly count: number;
  readonly near: readonly Complex[];
}

export interface Contour {
  /** Poles inside that are not among the known ones; null where the determinant turns too fast to be sure. */
  readonly missing: (known: readonly Complex[]) => Missing | null;
}

/** About where the device and its film alone creep, on the imaginary axis and so outside the sector: rates of e^(-rate t) [1/s]. */
export interface Creeping {
  readonly device: readonly number[];
  readonly film: readonly number[];
}

/**
 * Rates of the `creeping` are divided out of the determinant as the known poles are, so that it turns less where the border
 * passes them; right to some per cent is enough, and none changes a count.
 */
export function contourOf(model: PoleModel, sector: Sector, creeping: Creeping = { device: [], film: [] }): Contour {
  const border = borderOf(sector);
  const walk: Walk = { model, film: filmZeros(model, sector), creeping, border, sides: [], left: mostNodes };
  for (const [side, steps] of coarse.entries()) {
    // Where a side begins the one before it has ended, and the last one ends where the first began.
    const start = walk.sides.at(-1)?.at(-1);
    const nodes = [start ? { ...start, t: 0 } : nodeAt(walk, side, 0)];
    for (let i = 1; i < steps; i++) nodes.push(nodeAt(walk, side, i / steps));
    const first = side === coarse.length - 1 ? walk.sides[0]?.[0] : undefined;
    nodes.push(first ? { ...first, t: 1 } : nodeAt(walk, side, 1));
    walk.sides.push(nodes);
  }
  const outer = border.outer;
  const middle = scale(complex(cos(0.6), sin(0.6)), 0.55 * outer);
  const missing = (known: readonly Complex[]): Missing | null => {
    const turns = turnsOver(walk, known);
    if (turns === null) return null;
    const count = Math.round(turns.reduce((sum, { angle }) => sum + angle, 0) / (2 * Math.PI));
    if (count < 1 || count > mostApart) return { count, near: [] };
    const z = (omega: Complex) => scale(subtract(omega, middle), 1 / outer);
    const near = fromPowerSums(powerSums(turns, z, count));
    return { count, near: near.map((root) => add(middle, scale(root, outer))) };
  };
  return { missing };
}

/** A contour while it is walked: its nodes, side by side, and how many more it may have. */
interface Walk {
  readonly model: PoleModel;
  readonly film: readonly FilmZero[];
  readonly creeping: Creeping;
  readonly border: Border;
  readonly sides: Node[][];
  left: number;
}

function nodeAt(walk: Walk, side: number, t: number): Node {
  walk.left--;
  return nodeOf(walk, t, pointOn(walk.border, side, t));
}

/** Every step along the border with the turn of the determinant over the known poles, halved until it is sure; null where it never is. */
function turnsOver(walk: Walk, known: readonly Complex[]): readonly Turn[] | null {
  const turns: Turn[] = [];
  for (let side = 0; side < walk.sides.length; side++) {
    const nodes = walk.sides[side]!;
    let over = overKnown(nodes[0]!, known);
    for (let i = 0; i + 1 < nodes.length; ) {
      const from = nodes[i]!;
      const to = nodes[i + 1]!;
      const overNext = overKnown(to, known);
      const angle = turnBetween(from, to, over, overNext);
      if (angle !== null) {
        const growth = overNext.logarithm - over.logarithm - (to.filmLogarithm - from.filmLogarithm);
        turns.push({ from: from.omega, to: to.omega, angle, growth });
        over = overNext;
        i++;
      } else {
        if (walk.left <= 0 || to.t - from.t < shortest / coarse[side]!) return null;
        nodes.splice(i + 1, 0, nodeAt(walk, side, (from.t + to.t) / 2));
      }
    }
  }
  return turns;
}

interface FilmZero {
  readonly index: number;
  readonly own: Complex | null;
}

/**
 * Film factors whose own zero may lie inside: where the determinant of the plate is infinite. Those beyond are left in it, where a
 * pole of the device stands beside each and both together hardly turn. Without a zero that was found they are followed alone.
 */
function filmZeros(model: PoleModel, { upTo, below }: Sector): readonly FilmZero[] {
  const reach = withFilm * 2 * Math.PI * upTo;
  const own = new Map(filmModes(model, reach).map(({ index, omega }) => [index, omega]));
  return liveFactors(model, reach)
    .map(({ index }) => ({ index, own: own.get(index) ?? null }))
    .filter(
      ({ own: zero }) => zero === null || (absolute(zero) < reach && zero.im < ((1 + below) / 2) * absolute(zero)),
    );
}

interface Turn {
  readonly from: Complex;
  readonly to: Complex;
  /** Change of the argument, and of the logarithm of the size. */
  readonly angle: number;
  readonly growth: number;
}

/** (1 / 2 pi i) integral z^k d log g, k = 1 .. count. */
function powerSums(turns: readonly Turn[], z: (omega: Complex) => Complex, count: number): readonly Complex[] {
  const [sumsRe, sumsIm] = [new Float64Array(count), new Float64Array(count)];
  for (const { from, to, angle, growth } of turns) {
    const [start, end] = [z(from), z(to)];
    let [a, b] = [start, end];
    for (let k = 0; k < count; k++) {
      const [re, im] = [(a.re + b.re) / 2, (a.im + b.im) / 2];
      sumsRe[k]! += (re * angle + im * growth) / (2 * Math.PI);
      sumsIm[k]! += (im * angle - re * growth) / (2 * Math.PI);
      [a, b] = [multiply(a, start), multiply(b, end)];
    }
  }
  return Array.from(sumsRe, (re, k) => complex(re, sumsIm[k]));
}

interface Border {
  readonly inner: number;
  readonly outer: number;
  /** Angle of the strongly damped side. */
  readonly high: number;
}

const borderOf = (sector: Sector): Border => ({
  inner: 2 * Math.PI * (sector.from ?? sector.upTo / 100),
  outer: 2 * Math.PI * sector.upTo,
  high: Math.asin(sector.below),
});

/** On one of the four sides of the sector, t = 0 .. 1, counterclockwise. */
function pointOn({ inner, outer, high }: Border, side: number, t: number): Complex {
  const far = side === 2 ? 1 - t : t;
  const radius = side === 1 ? outer : side === 3 ? inner : inner + far ** 2 * (outer - inner);
  const turned = side === 1 ? t ** 2 * (high + under) - under : side === 3 ? high - t * (high + under) : high;
  const angle = side === 0 ? -under : turned;
  return complex(radius * cos(angle), radius * sin(angle));
}

function nodeOf({ model, film, creeping }: Walk, t: number, omega: Complex): Node {
  const ports = model.set(omega);
  const product = { re: 1, im: 0, logarithm: 0 };
  const { pivotRe, pivotIm, size } = model.work;
  // `work` has the inverses.
  for (let i = 0; i < size; i++) times(product, pivotRe[i]!, pivotIm[i]!);
  invert(product);
  for (const pivot of pivotsOf(model, ports)) times(product, pivot.re, pivot.im);
  for (const rate of creeping.film) times(product, omega.re, omega.im - rate);
  for (const rate of creeping.device) {
    const over = omega.im - rate;
    const squared = omega.re * omega.re + over * over;
    times(product, omega.re / squared, -over / squared);
  }
  const [filmRe, filmIm]: [number[], number[]] = [[], []];
  let filmLogarithm = 0;
  for (const { index, own } of film) {
    const [re, im] = [model.filmRe[index]!, model.filmIm[index]!];
    const [asideRe, asideIm] = own ? [omega.re - own.re, omega.im - own.im] : [1, 0];
    times(product, asideRe, asideIm);
    const [smoothRe, smoothIm] = [re * asideRe - im * asideIm, re * asideIm + im * asideRe];
    filmRe.push(smoothRe);
    filmIm.push(smoothIm);
    filmLogarithm += 0.5 * Math.log(smoothRe ** 2 + smoothIm ** 2);
  }
  return { t, omega, ...product, filmRe, filmIm, filmLogarithm };
}

interface Product {
  re: number;
  im: number;
  logarithm: number;
}

/** In place, its size kept within what numbers hold. */
function times(product: Product, re: number, im: number): void {
  const next = product.re * re - product.im * im;
  product.im = product.re * im + product.im * re;
  product.re = next;
  const size = Math.abs(product.re) + Math.abs(product.im);
  if (size > 1e100 || size < 1e-100) {
    product.re /= size;
    product.im /= size;
    product.logarithm += Math.log(size);
  }
}

/** 1 over it, in place. */
function invert(product: Product): void {
  const squared = product.re ** 2 + product.im ** 2;
  product.re /= squared;
  product.im /= -squared;
  product.logarithm *= -1;
}

/** A node's determinant over the factors of known poles and of their mirror images; `logarithm` of its whole size. */
function overKnown({ omega, re, im, logarithm }: Node, known: readonly Complex[]): Product {
  const product = { re, im, logarithm };
  let sizes = 1;
  for (const pole of known) {
    const [a, b, c] = [omega.re - pole.re, omega.im - pole.im, omega.re + pole.re];
    times(product, a, -b);
    times(product, c, -b);
    sizes *= (a * a + b * b) * (c * c + b * b);
    if (sizes > 1e200) {
      product.logarithm -= Math.log(sizes);
      sizes = 1;
    }
  }
  product.logarithm += 0.5 * Math.log(product.re ** 2 + product.im ** 2) - Math.log(sizes);
  return product;
}

/** Turn of the determinant from one node to the next; null where some factor turns too far to be sure. */
function turnBetween(a: Node, b: Node, overA: Product, overB: Product): number | null {
  let angle = Math.atan2(overA.re * overB.im - overA.im * overB.re, overA.re * overB.re + overA.im * overB.im);
  if (Math.hypot(angle, 0.5 * (overB.logarithm - overA.logarithm)) > tame) return null;
  for (let m = 0; m < a.filmRe.length; m++) {
    const [re, im, toRe, toIm] = [a.filmRe[m]!, a.filmIm[m]!, b.filmRe[m]!, b.filmIm[m]!];
    const film = Math.atan2(re * toIm - im * toRe, re * toRe + im * toIm);
    if (Math.abs(film) > tame) return null;
    angle -= film;
  }
  return angle;
}
