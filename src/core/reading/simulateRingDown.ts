/**
 * A ring-down as an instrument would record it: for teaching, for planning, and to test the fits. Noise follows the seed.
 * Derivation: docs/theory/ringDown.md.
 */
import { pow } from "../numerics/power.ts";
import { seededNormal } from "../numerics/random.ts";
import { cos, sin } from "../numerics/sine.ts";

export interface SimulatedMode {
  /** Of the pole, |omega_p| / 2 pi [Hz]. */
  readonly frequency: number;
  readonly dampingRatio: number;
  /** At the stop [rad]. */
  readonly amplitude: number;
  /** Phase at the stop [rad]; 0 where absent. */
  readonly phase?: number;
}

/** How phase becomes volts: half-span x sin(bias + phase) + middle. */
export interface SimulatedReadout {
  /** From the dark crossing [rad]; 0: quadrature here, pi / 2 away: crossed. */
  readonly bias: number;
  /** Half the span of the sine curve [V]. */
  readonly half: number;
}

export interface RingDownPlan {
  readonly modes: readonly SimulatedMode[];
  /** [Hz] */
  readonly sampling: number;
  /** After the stop [s]. */
  readonly duration: number;
  /** The tone before the stop [s]; 0 where absent. It has the frequency of the first mode. */
  readonly before?: number;
  /** Standard deviation of white noise, in the unit of the output. */
  readonly noise?: number;
  readonly offset?: number;
  /** Rise over the whole record. */
  readonly drift?: number;
  readonly hum?: { readonly frequency: number; readonly amplitude: number; readonly phase?: number };
  /** A tone that does not die: share of the first mode, and its phase against it [rad]. */
  readonly remaining?: { readonly share: number; readonly phase: number };
  /** Decay rate of the source after the stop [1/s]; it drives the first mode on. */
  readonly sourceRate?: number;
  /** The output never goes beyond these. */
  readonly clip?: { readonly low: number; readonly high: number };
  /** Standard deviation of the time of a sample, as a share of the step. */
  readonly jitter?: number;
  /** Bits of a converter over -full to full. */
  readonly converter?: { readonly bits: number; readonly full: number };
  /** Absent: the output is the phase itself [rad]. */
  readonly readout?: SimulatedReadout;
  readonly seed: number;
}

export interface SimulatedRecord {
  /** [s], even; the stop lies at zero. */
  readonly time: Float64Array;
  readonly output: Float64Array;
  /** [s] */
  readonly step: number;
}

export function simulateRingDown(plan: RingDownPlan): SimulatedRecord {
  const { sampling, duration, before = 0, noise = 0, offset = 0, drift = 0, jitter = 0, seed } = plan;
  const normal = seededNormal(seed);
  const step = 1 / sampling;
  const first = -Math.round(before * sampling);
  const count = Math.floor(duration * sampling) - first + 1;
  const time = Float64Array.from({ length: count }, (_, i) => (first + i) * step);
  const output = time.map((nominal, i) => {
    const t = nominal + (jitter > 0 ? jitter * step * normal() : 0);
    const phase = phaseAt(plan, t);
    const { readout, hum } = plan;
    const clean = readout === undefined ? phase : readout.half * sin(readout.bias + phase);
    const humming = hum === undefined ? 0 : hum.amplitude * cos(2 * Math.PI * hum.frequency * t + (hum.phase ?? 0));
    return recorded(plan, clean + offset + (drift * i) / count + humming + noise * normal());
  });
  return { time, output, step };
}

function phaseAt({ modes, remaining, sourceRate }: RingDownPlan, t: number): number {
  const [main] = modes;
  let sum = 0;
  for (const mode of modes)
    sum +=
      t < 0
        ? driven(mode, t)
        : mode === main && sourceRate !== undefined
          ? drivenOn(mode, sourceRate, t)
          : free(mode, t);
  if (remaining !== undefined && main !== undefined)
    sum += remaining.share * main.amplitude * cos(2 * Math.PI * main.frequency * t + remaining.phase);
  return sum;
}

const driven = ({ frequency, amplitude, phase = 0 }: SimulatedMode, t: number): number =>
  amplitude * cos(2 * Math.PI * frequency * t + phase);

/** Free decay from the amplitude and phase at the stop. */
function free({ frequency, dampingRatio, amplitude, phase = 0 }: SimulatedMode, t: number): number {
  const omega = 2 * Math.PI * frequency;
  return amplitude * Math.exp(-dampingRatio * omega * t) * cos(Math.sqrt(1 - dampingRatio ** 2) * omega * t + phase);
}

/**
 * The source dies at its own rate s after the stop and goes on driving at resonance: in amplitudes that vary slowly
 *
 *     A' = -r A + r A_0 e^{-s t},   A / A_0 = (r e^{-s t} - s e^{-r t}) / (r - s)
 *
 * Holds: small damping, drive at resonance.
 */
function drivenOn({ frequency, dampingRatio, amplitude, phase = 0 }: SimulatedMode, s: number, t: number): number {
  const omega = 2 * Math.PI * frequency;
  const r = dampingRatio * omega;
  const size =
    Math.abs(r - s) < 1e-6 * r
      ? (1 + r * t) * Math.exp(-r * t)
      : (r * Math.exp(-s * t) - s * Math.exp(-r * t)) / (r - s);
  return amplitude * size * cos(omega * t + phase);
}

function recorded({ clip, converter }: RingDownPlan, value: number): number {
  let out = value;
  if (clip !== undefined) out = Math.min(clip.high, Math.max(clip.low, out));
  if (converter === undefined) return out;
  const steps = pow(2, converter.bits - 1);
  return (Math.max(-steps, Math.min(steps - 1, Math.round((out / converter.full) * steps))) / steps) * converter.full;
}
