/** One steady tone in a record: frequency, amplitude and phase by a sine fitted to every sample. */

import { realFourier } from "../numerics/fourier.ts";
import { cos, sin } from "../numerics/sine.ts";
import { windowOf } from "../numerics/windows.ts";
import { answer, type Outcome, refuse } from "../problem.ts";
import { type SineFit, sineAt } from "./sine.ts";

export interface Tone {
  /** [Hz] */
  readonly frequency: number;
  readonly amplitude: number;
  /** Of the cosine at the first sample [rad]. */
  readonly phase: number;
  /** Standard uncertainties, for white noise; null without a degree of freedom. */
  readonly standard: { readonly frequency: number; readonly amplitude: number } | null;
  readonly offset: number;
  readonly degreesOfFreedom: number;
  readonly stopped: "converged" | "max-steps";
  readonly steps: number;
  readonly residuals: Float64Array;
  readonly model: Float64Array;
}

/** Samples that a sine is fitted to; more add nothing that counts. */
const most = 200_000;
const mostSteps = 50;

/**
 * Fits offset + a cos + b sin, the frequency free: sine after sine, each at the frequency at which the last one's slope to it
 * vanishes (Gauss and Newton). Samples that are missing are left out. `near`: about where it lies [Hz]; the strongest tone where
 * absent.
 *
 * Problems: `too-few-samples`, `silent`.
 */
export function fitTone(y: Float64Array, sampling: number, near?: number): Outcome<Tone> {
  const used = y.length > most ? y.subarray(0, most) : y;
  let [count, sum] = [0, 0];
  for (const value of used)
    if (!Number.isNaN(value)) {
      count += 1;
      sum += value;
    }
  if (count < 16)
    return refuse({
      code: "too-few-samples",
      path: ["y"],
      message: `Samples found: ${count}; needed: 16 or more, over several periods of the tone.`,
    });
  const mean = sum / count;
  if (used.every((value) => Number.isNaN(value) || value === mean))
    return refuse({ code: "silent", path: ["y"], message: `All samples are ${mean}; needed: a tone.` });
  let omega = 2 * Math.PI * (near === undefined ? strongest(used, mean) : near / sampling);
  let fit = sineAt(used, omega, true);
  let steps = 1;
  let moved = Number.POSITIVE_INFINITY;
  for (; steps < mostSteps && fit !== null; steps++) {
    // A step beyond half a bin leaves the valley that the tone lies in.
    const bin = Math.PI / used.length;
    const by = Math.max(-bin, Math.min(bin, fit.turn));
    const next = sineAt(used, omega + by, true);
    if (next === null || !(next.sumOfSquares <= fit.sumOfSquares * (1 + 1e-12))) break;
    omega += by;
    fit = next;
    moved = Math.abs(by) / omega;
    if (moved < 1e-13) break;
  }
  if (fit === null)
    return refuse({ code: "silent", path: ["y"], message: "No sine can be laid through the samples; needed: a tone." });
  return answer(toneOf(used, fit, { omega, sampling, count, steps, converged: steps < mostSteps }));
}

function toneOf(
  y: Float64Array,
  { cosine, sine, offset, sumOfSquares, inverse }: SineFit,
  {
    omega,
    sampling,
    count,
    steps,
    converged,
  }: {
    readonly omega: number;
    readonly sampling: number;
    readonly count: number;
    readonly steps: number;
    readonly converged: boolean;
  },
): Tone {
  const amplitude = Math.hypot(cosine, sine);
  const degreesOfFreedom = count - 4;
  const variance = sumOfSquares / Math.max(1, degreesOfFreedom);
  const middle = (y.length - 1) / 2;
  const model = y.map((_, i) => {
    const angle = omega * (i - middle);
    return offset + cosine * cos(angle) + sine * sin(angle);
  });
  const [a, b] = [cosine / (amplitude || 1), sine / (amplitude || 1)];
  return {
    frequency: (omega * sampling) / (2 * Math.PI),
    amplitude,
    // The sine counts from the middle of the record.
    phase: turned(Math.atan2(-sine, cosine) - omega * middle),
    standard: {
      frequency: (Math.sqrt(variance * inverse[15]!) * sampling) / (2 * Math.PI),
      amplitude: Math.sqrt(
        Math.max(0, variance * (a * a * inverse[0]! + 2 * a * b * inverse[1]! + b * b * inverse[5]!)),
      ),
    },
    offset,
    degreesOfFreedom,
    stopped: converged ? "converged" : "max-steps",
    steps,
    residuals: Float64Array.from(
      Array.from(y.keys()).filter((i) => !Number.isNaN(y[i]!)),
      (i) => y[i]! - model[i]!,
    ),
    model,
  };
}

/** Between -pi and pi. */
const turned = (angle: number) => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** Cycles per sample of the highest line, between the bins by the parabola through the logarithms of a Hann spectrum. */
function strongest(y: Float64Array, mean: number): number {
  const window = windowOf("hann", y.length);
  const { re, im } = realFourier(y.map((value, i) => (Number.isNaN(value) ? 0 : value - mean) * window[i]!));
  const power = re.map((value, k) => Math.log(value * value + im[k]! ** 2 + 1e-300));
  let top = 1;
  for (let k = 1; k < power.length - 1; k++) if (power[k]! > power[top]!) top = k;
  const [below, here, above] = [power[top - 1]!, power[top]!, power[top + 1] ?? power[top - 1]!];
  const bend = below - 2 * here + above;
  return (top + (bend < 0 ? (0.5 * (below - above)) / bend : 0)) / y.length;
}
