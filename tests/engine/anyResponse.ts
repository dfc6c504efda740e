/** Responses in closed form, drawn from a seed, and how far a curve through few of their frequencies is from them. */
import { type Curve, readCurve } from "../../src/core/microphone/response/curve.ts";
import type { Complex } from "../../src/core/numerics/complex.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";

export interface AnyResponse {
  readonly respond: (frequency: number) => Complex;
  readonly from: number;
  readonly to: number;
  /** A thousandth of the response at rest. */
  readonly floor: number;
  /** Where it is looked at: 400 places over the range, and about every peak within a few of its widths. */
  readonly places: Float64Array;
}

const spread = 200;

/**
 * One to eight resonances, damped by 1e-4 to 0.5, of either sign, so that nulls lie between them; a vent that lets slow
 * pressure through; and a layer of air whose losses follow the root of the frequency:
 *
 *     S = i f / (i f + f_v) * (1 + t / (1 + sqrt(i f / f_t))) * sum s_k / (1 - f^2 / f_k^2 + 2 i zeta_k f / f_k)
 */
export function anyResponse(seed: number): AnyResponse {
  const uniform = seededUniform(seed);
  const between = (low: number, high: number) => low * (high / low) ** uniform();
  const [from, to] = [10, between(3e3, 3e4)];
  const resonances = Array.from({ length: 1 + Math.floor(8 * uniform()) }, (_, k) => ({
    at: between(0.05 * to, 1.3 * to),
    damping: between(1e-4, 0.5),
    share: k === 0 ? 1 : (uniform() < 0.5 ? -1 : 1) * between(0.01, 1),
  }));
  const [vent, loss, layer] = [between(0.1, 10), between(1e-3, 0.2), between(1, 300)];
  const respond = (frequency: number): Complex => {
    let [re, im] = [0, 0];
    for (const { at, damping, share } of resonances) {
      const ratio = frequency / at;
      const [a, b] = [1 - ratio * ratio, 2 * damping * ratio];
      re += (share * a) / (a * a + b * b);
      im -= (share * b) / (a * a + b * b);
    }
    const root = Math.sqrt(frequency / layer / 2);
    const t = loss / ((1 + root) ** 2 + root * root);
    const [layerRe, layerIm] = [1 + t * (1 + root), -t * root];
    const slow = 1 / (frequency * frequency + vent * vent);
    const [ventRe, ventIm] = [frequency * frequency * slow, frequency * vent * slow];
    const [bothRe, bothIm] = [layerRe * ventRe - layerIm * ventIm, layerRe * ventIm + layerIm * ventRe];
    return { re: re * bothRe - im * bothIm, im: re * bothIm + im * bothRe };
  };
  const places: number[] = [];
  for (let k = 0; k < spread; k++) {
    places.push(from + ((to - from) * (k + 0.3)) / spread, from * (to / from) ** ((k + 0.7) / spread));
  }
  for (const { at, damping } of resonances)
    for (const k of [-2, -1, -0.5, 0, 0.5, 1, 2]) places.push(at * (1 + k * damping));
  return {
    respond,
    from,
    to,
    floor: 1e-3 * Math.abs(resonances.reduce((sum, { share }) => sum + share, 0)),
    places: Float64Array.from(places.filter((frequency) => frequency > from && frequency < to)),
  };
}

/** Largest |dS| / max(|S|, floor) of a curve over places [-]. */
export function curveError(curve: Curve, { respond, floor, places }: Omit<AnyResponse, "from" | "to">): number {
  const read = readCurve(curve, places);
  let worst = 0;
  places.forEach((frequency, i) => {
    const { re, im } = respond(frequency);
    const off = Math.hypot(read.re[i]! - re, read.im[i]! - im) / Math.max(Math.hypot(re, im), floor);
    // Not a number is the worst of all.
    if (!(off <= worst)) worst = off;
  });
  return worst;
}
