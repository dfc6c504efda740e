/** One steady tone in a record: frequency, amplitude and phase by a sine fitted to every sample. */
import { realFourier } from "../numerics/fourier.ts";
import { fitNonlinear } from "../numerics/nonlinearFit.ts";
import { windowOf } from "../numerics/windows.ts";
import { answer, type Outcome, refuse } from "../problem.ts";

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
  readonly stopped: string;
  readonly steps: number;
  readonly residuals: Float64Array;
  readonly model: Float64Array;
}

/** Samples that a sine is fitted to; more add nothing that counts. */
const most = 60_000;

/**
 * Fits offset + a cos + b sin, the frequency free. Samples that are missing are left out. `near`: about where it lies [Hz]; the
 * strongest tone where absent.
 *
 * Problems: `too-few-samples`, `silent`, those of `fitNonlinear`.
 */
export function fitTone(y: Float64Array, sampling: number, near?: number): Outcome<Tone> {
  const used = y.length > most ? y.subarray(0, most) : y;
  const places = Array.from(used.keys()).filter((i) => !Number.isNaN(used[i]!));
  if (places.length < 16)
    return refuse({
      code: "too-few-samples",
      path: ["y"],
      message: `Samples found: ${places.length}; needed: 16 or more, over several periods of the tone.`,
    });
  const mean = places.reduce((sum, i) => sum + used[i]!, 0) / places.length;
  if (places.every((i) => used[i] === used[0]))
    return refuse({ code: "silent", path: ["y"], message: `All samples are ${used[0]}; needed: a tone.` });
  const cycles = near === undefined ? strongest(used, mean) : near / sampling;
  const model = ([w, a, b, c]: readonly number[], i: number) => c! + a! * Math.cos(w! * i) + b! * Math.sin(w! * i);
  const omega = 2 * Math.PI * cycles;
  const size = Math.sqrt((2 * places.reduce((sum, i) => sum + (used[i]! - mean) ** 2, 0)) / places.length);
  const [cosine, sine] = [Math.cos, Math.sin].map(
    (of) => (2 * places.reduce((sum, i) => sum + (used[i]! - mean) * of(omega * i), 0)) / places.length,
  );
  const fit = fitNonlinear({
    model,
    derivatives: ([w, a, b]: readonly number[], i: number) => {
      const [c, s] = [Math.cos(w! * i), Math.sin(w! * i)];
      return [i * (b! * c - a! * s), c, s, 1];
    },
    start: [omega, cosine! || 1e-3 * size, sine! || 1e-3 * size, mean],
    x: places,
    y: places.map((i) => used[i]!),
    maxSteps: 200,
  });
  if (!fit.ok) return fit;
  const { values, covariance, residuals, degreesOfFreedom, stopped, steps } = fit.value;
  const [w, a, b, offset] = values as [number, number, number, number];
  const amplitude = Math.hypot(a, b);
  const u = (i: number, k: number) => covariance![4 * i + k]!;
  const ofAmplitude = () =>
    Math.sqrt(Math.max(0, a * a * u(1, 1) + 2 * a * b * u(1, 2) + b * b * u(2, 2))) / (amplitude || 1);
  return answer({
    frequency: (Math.abs(w) * sampling) / (2 * Math.PI),
    amplitude,
    phase: Math.atan2(-b, a) * (w < 0 ? -1 : 1),
    standard:
      covariance === null
        ? null
        : { frequency: (Math.sqrt(u(0, 0)) * sampling) / (2 * Math.PI), amplitude: ofAmplitude() },
    offset,
    degreesOfFreedom,
    stopped,
    steps,
    residuals,
    model: Float64Array.from(used, (_, i) => model(values, i)),
  });
}

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
