/**
 * Noise of light, laser and receiver, each as the phase that it imitates: one-sided densities [rad^2/Hz].
 *
 *     output = weight (first port - second port, or one port) / (total current * slope)     [rad]
 *
 * Guides that are summed have a detector, a receiver and a converter each, and share the laser: shot, receiver and rounding add
 * in power, weight by weight; intensity and wavelength add in amplitude, so that guides of opposite weight cancel them. Two ports
 * likewise. Derivation: docs/theory/noise.md.
 */
import { elementaryCharge, lightSpeed, planck } from "../../quantity/constants.ts";
import { nyquist } from "../../quantity/nyquist.ts";
import type { OperatingPoint } from "./operating.ts";
import type { Light, Readout } from "./readout.ts";
import { quantizationDensity, shotCurrent } from "./receiverNoise.ts";

export const lightSources = ["shot", "intensity", "resistor", "voltage", "current", "rounding", "wavelength"] as const;
export type LightSource = (typeof lightSources)[number];

/** A density: white (1 + corner / f) (1 + (f / bandwidth)^2); the last for what enters after the receiver's corner. */
export interface SourceSpectrum {
  /** [rad^2/Hz] */
  readonly white: number;
  /** Below it the density rises as 1 / f [Hz]. */
  readonly corner: number;
  /** [Hz]; null: it takes the same way as the signal. */
  readonly bandwidth: number | null;
}

/** One guide on its way to the output. */
export interface ReadGuide {
  readonly weight: number;
  readonly point: OperatingPoint;
  /** Optical path by which its two fields differ [m]: B L in a polarimeter, the imbalance of the arms otherwise. */
  readonly pathDifference: number;
}

export interface LightNoise {
  readonly sources: Readonly<Record<LightSource, SourceSpectrum>>;
  /** Power at the detectors of one guide, both ports together [W], and its current [A]. */
  readonly power: number;
  readonly current: number;
}

/** Density of a source at a frequency [rad^2/Hz]. */
export const sourceDensity = ({ white, corner, bandwidth }: SourceSpectrum, frequency: number): number =>
  white * (1 + corner / frequency) * (bandwidth === null ? 1 : 1 + (frequency / bandwidth) ** 2);

/**
 * All sources. What the project does not say of laser and receiver is ideal: no excess noise, a photodiode of one electron a
 * photon, no resistor. Null: no launched power is given, or a guide stands in a null of the readout, so that no phase is read.
 * The launched light is shared evenly by the guides.
 */
export function lightNoise(given: {
  readonly light: Light;
  readonly readout: Readout;
  readonly guides: readonly ReadGuide[];
  /** Of the receiver [K]. */
  readonly temperature: number;
}): LightNoise | null {
  const { light, readout, guides, temperature } = given;
  if (light.launched === null || guides.some(({ point }) => point.slope === 0)) return null;
  const { receiver } = readout;
  const power = (light.launched * light.transmission) / guides.length;
  const perWatt = receiver.responsivity ?? (elementaryCharge * light.wavelength) / (planck * lightSpeed);
  const current = perWatt * power;
  const squared = (per: (guide: ReadGuide) => number) =>
    guides.reduce((sum, guide) => sum + guide.weight ** 2 * per(guide), 0);
  const summed = (per: (guide: ReadGuide) => number) =>
    guides.reduce((sum, guide) => sum + guide.weight * per(guide), 0);
  // Current noise at each port, in the phase: the share that a port's noise has in the output, over slope and current.
  const atPorts = (density: (share: number) => number) =>
    squared(({ point }) => portNoise(point, readout, density) / (point.slope * current) ** 2);
  const each = (density: number): number => atPorts(() => density);
  const { resistor } = receiver;
  const converter =
    receiver.bits !== null && receiver.fullScale !== null && receiver.sampling !== null && resistor !== null
      ? quantizationDensity({ fullScale: receiver.fullScale, bits: receiver.bits, sampling: receiver.sampling }) /
        resistor ** 2
      : 0;
  const kept = readout.normalized ? () => 0 : ({ point }: ReadGuide) => point.output / point.slope;
  const rejected = readout.outputs === "both" || readout.normalized ? readout.rejection : 0;
  const relative = summed(kept) ** 2 + squared(({ point }) => (rejected / point.slope) ** 2);
  const plain = (white: number): SourceSpectrum => ({ white, corner: 0, bandwidth: null });
  return {
    power,
    current,
    sources: {
      shot: plain(atPorts((share) => shotCurrent(share * current))),
      intensity: { white: (light.relativeIntensity ?? 0) * relative, corner: light.noiseCorner ?? 0, bandwidth: null },
      resistor: plain(resistor === null ? 0 : each(nyquist(1 / resistor, temperature))),
      voltage: plain(resistor === null ? 0 : each(((receiver.voltageNoise ?? 0) / resistor) ** 2)),
      current: plain(each((receiver.currentNoise ?? 0) ** 2)),
      rounding: { white: each(converter), corner: 0, bandwidth: receiver.bandwidth },
      wavelength: plain(frequencyNoise(light) * summed(({ pathDifference }) => phasePerFrequency(pathDifference)) ** 2),
    },
  };
}

/**
 * Noise of the output from independent noise at its ports; `density` gives that of a port from its share of the light.
 * Divided by the power, a port's noise also enters through the sum: (1 - output) and (1 + output) in place of 1 and 1.
 */
function portNoise(
  { first, second, output }: OperatingPoint,
  { outputs, normalized }: Readout,
  density: (share: number) => number,
): number {
  if (outputs === "one") return density(first);
  const o = normalized ? output : 0;
  return (1 - o) ** 2 * density(first) + (1 + o) ** 2 * density(second);
}

/**
 * Frequency noise of a laser with a Lorentzian line [Hz^2/Hz], one-sided.
 *
 *     S_nu = linewidth / pi
 *
 * Source: Schawlow and Townes's line in a white spectrum of frequency, linewidth = pi S_nu (from memory, to be confirmed).
 * Holds: white frequency noise; real lasers add 1/f below some tens of kilohertz, which widens the line: measure it.
 */
const frequencyNoise = ({ linewidth }: Pick<Light, "linewidth">): number => (linewidth ?? 0) / Math.PI;

/**
 * Phase per change of the light's frequency [rad/Hz].
 *
 *     d phi / d nu = 2 pi (path difference) / c
 *
 * Holds: dispersion of the birefringence left out (group and phase birefringence alike).
 */
export const phasePerFrequency = (pathDifference: number): number => (2 * Math.PI * pathDifference) / lightSpeed;
