/**
 * What in a ring-down pushes its damping ratio up or down, as far as the record itself shows it. Derivation: docs/theory/ringDown.md.
 * The readout's curve shows as harmonics that die two and three times as fast; a tone that stays and a second decay are found
 * by the fit; an average of records with scattered resonance, and a source that dies slowly, bend the envelope.
 */

import { besselValues } from "../numerics/bessel.ts";
import { fitLinear } from "../numerics/linearFit.ts";
import { cos, sin } from "../numerics/sine.ts";
import { windowOf } from "../numerics/windows.ts";
import type { Problem } from "../problem.ts";
import type { RingDownMode } from "./ringDownMode.ts";

export interface RingDownSigns {
  /** Amplitudes of the second and third harmonic over the fundamental, at the start; null where noise hides them. */
  readonly secondHarmonic: number | null;
  readonly thirdHarmonic: number | null;
  /** Phase amplitude that would make this third harmonic by the readout's sine curve [rad]; null without one. */
  readonly phaseAmplitude: number | null;
  /** Change of the decay rate over one decay time, as a share of it; positive: it decays faster later. null: not seen. */
  readonly bend: number | null;
  readonly remarks: readonly Problem[];
}

interface Evidence {
  readonly y: Float64Array;
  readonly residuals: Float64Array;
  /** [s] */
  readonly step: number;
  readonly modes: readonly RingDownMode[];
  /** Standard deviation of a sample. */
  readonly noise: number;
  readonly included: readonly string[];
}

/** Remarks: `line-doubled`, `readout-harmonics`, `tone-remains`, `envelope-bends`. */
export function signsOf(evidence: Evidence): RingDownSigns {
  const { modes, step, included } = evidence;
  const main = modes[0]!;
  const omega = 2 * Math.PI * main.frequency.value * Math.sqrt(Math.max(0, 1 - main.dampingRatio.value ** 2));
  const rate = main.rate.value;
  const second = harmonic(evidence, 2 * omega * step, 2 * rate * step);
  const third = harmonic(evidence, 3 * omega * step, 3 * rate * step);
  // A harmonic that is strong was taken for a mode by the fit.
  const share = (found: number | null, order: number) =>
    (modes.slice(1).find((mode) => harmonicOrder(main, mode) === order)?.amplitude.value ?? found ?? 0) /
      main.amplitude.value || null;
  const [secondHarmonic, thirdHarmonic] = [share(second, 2), share(third, 3)];
  const phaseAmplitude = thirdHarmonic === null ? null : amplitudeFromThird(thirdHarmonic);
  const alone = modes.length === 1 && !included.some((name) => name.startsWith("tone"));
  const bend = alone ? bendOf(evidence, rate * step, omega * step) : null;
  const remarks: Problem[] = [];
  // The stronger line was taken for the tone, and the tone for a further mode.
  const half = modes.slice(1).find((mode) => harmonicOrder(mode, main) === 2);
  if (half !== undefined)
    remarks.push({
      code: "line-doubled",
      path: [],
      message: `The strongest line lies at twice the frequency of another one (${(half.frequency.value / 1000).toPrecision(5)} kHz): near the crossed state the readout doubles the tone. The damping ratio of the doubled line is that of the tone only if its decay is divided by its own frequency. Set the bias to quadrature, or fit the phase.`,
    });
  if (thirdHarmonic !== null && thirdHarmonic > 1e-4)
    remarks.push({
      code: "readout-harmonics",
      path: [],
      message: `A third harmonic of ${percent(thirdHarmonic)} dies with the tone: the readout's sine curve, at a phase amplitude of about ${phaseAmplitude!.toPrecision(2)} rad. Volts then decay too slowly: the damping ratio reads low. Calibrate and fit the phase, or start later.`,
    });
  else if (secondHarmonic !== null && secondHarmonic > 1e-3)
    remarks.push({
      code: "readout-harmonics",
      path: [],
      message: `A second harmonic of ${percent(secondHarmonic)} dies with the tone: the bias is off quadrature, or the diaphragm stretches. Near the crossed state the decay of volts reads high.`,
    });
  const tone = included.find((name) => name.startsWith("tone"));
  if (tone !== undefined)
    remarks.push({
      code: "tone-remains",
      path: [],
      message: `A ${tone} does not die: the source or hum of its electronics goes on. It was taken out of the fit; left in, it would push the damping ratio up or down by its phase.`,
    });
  if (bend !== null && Math.abs(bend) > 0.05 && !(thirdHarmonic !== null && thirdHarmonic > 1e-4))
    remarks.push({
      code: "envelope-bends",
      path: [],
      message:
        bend > 0
          ? `The decay gets faster by ${percent(bend)} over one decay time: the source may have died slowly (reads low at first), or the record is an average over a resonance that scattered (reads high).`
          : `The decay gets slower by ${percent(-bend)} over one decay time: a weaker mode, a room or a tone that is still there carries the end.`,
    });
  return { secondHarmonic, thirdHarmonic, phaseAmplitude, bend, remarks };
}

/** 2 or 3 where a mode is a harmonic of another: that many times its tone. null where it is a mode of its own. */
export function harmonicOrder(main: RingDownMode, mode: RingDownMode): 2 | 3 | null {
  const ratio = mode.frequency.value / main.frequency.value;
  if (Math.abs(ratio - 2) < 0.01) return 2;
  return Math.abs(ratio - 3) < 0.015 ? 3 : null;
}

const percent = (share: number) => `${(100 * share).toPrecision(2)} %`;

/** Amplitude at the start of e^{-rate i} times a tone in the residuals; null below five standard uncertainties. */
function harmonic({ residuals, noise, y }: Evidence, speed: number, rate: number): number | null {
  if (speed >= 0.95 * Math.PI) return null;
  const count = Math.min(y.length, Math.ceil(6 / rate));
  if (count < 20) return null;
  let [cc, ss, cs, cy, sy] = [0, 0, 0, 0, 0];
  // Ten thousand samples tell as much as is needed.
  const stride = Math.ceil(count / 10_000);
  for (let i = 0; i < count; i += stride) {
    const size = Math.exp(-rate * i);
    const [c, s] = [size * cos(speed * i), size * sin(speed * i)];
    cc += c * c;
    ss += s * s;
    cs += c * s;
    cy += c * residuals[i]!;
    sy += s * residuals[i]!;
  }
  const determinant = cc * ss - cs * cs;
  if (!(determinant > 0)) return null;
  const amplitude = Math.hypot((cy * ss - sy * cs) / determinant, (sy * cc - cy * cs) / determinant);
  const standard = noise * Math.sqrt((cc + ss) / 2 / determinant);
  return amplitude > 5 * standard ? amplitude : null;
}

/** m of J3(m) / J1(m) = share, at quadrature. Source: Jacobi and Anger's expansion. */
function amplitudeFromThird(share: number): number {
  let [low, high] = [1e-4, 3.5];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const values = besselValues(4, middle);
    if (values[3]! / values[1]! < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Curvature of the logarithm of the amplitude: ln A = a - r t - bend r^2 t^2 / 2, t from the start, over three decay times at
 * most. The amplitude is that of two periods under a Hann window, so that offset, hum and noise do not push it. null where it
 * is within five standard uncertainties of none.
 */
function bendOf({ y, noise }: Evidence, rate: number, speed: number): number | null {
  const width = Math.round((4 * Math.PI) / speed);
  const count = Math.min(y.length, Math.ceil(3 / rate)) - width;
  const hop = Math.max(width / 2, count / 60);
  if (count < 6 * hop || width < 8) return null;
  const shape = windowOf("hann", width);
  // Root mean square of the window over its mean, for two independent parts of the noise.
  const standardOfAmplitude = noise * Math.sqrt((2 * 1.5) / width);
  const [x, z, standard]: [number[], number[], number[]] = [[], [], []];
  for (let from = 0; from <= count; from += hop) {
    const first = Math.round(from);
    let [re, im] = [0, 0];
    for (let i = 0; i < width; i++) {
      const value = shape[i]! * y[first + i]!;
      re += value * cos(speed * i);
      im += value * sin(speed * i);
    }
    const amplitude = (4 * Math.hypot(re, im)) / width;
    if (amplitude < 10 * standardOfAmplitude || amplitude === 0) break;
    x.push(first * rate);
    z.push(Math.log(amplitude));
    // Neighbors share half their samples; what a window's place in the period does to it stays below a thousandth.
    standard.push(Math.hypot((1.5 * standardOfAmplitude) / amplitude, 1e-3));
  }
  if (x.length < 6) return null;
  const fit = fitLinear({
    columns: [x.map(() => 1), x.map((value) => -value), x.map((value) => -(value ** 2) / 2)],
    y: z,
    standard,
  });
  if (!fit.ok || fit.value.standardUncertainties === null) return null;
  const bend = fit.value.values[2]!;
  return Math.abs(bend) > 5 * fit.value.standardUncertainties[2]! ? bend : null;
}
