/** The light at rest: where its modes are, where the readout works, what moves it, how loud a sound it follows. */

import type { Microphone } from "../../microphone/microphone.ts";
import { sin } from "../../numerics/sine.ts";
import { type Bias, phaseAtRest } from "../../parts/guide/bias.ts";
import type { GuideMode } from "../../parts/guide/guide.ts";
import { coherenceLength, coherentContrast, crosstalkPhase } from "../../parts/readout/coherence.ts";
import { amplitudeAtDistortion, stepForSlope } from "../../parts/readout/harmonics.ts";
import { operatingPoint, outputCurve } from "../../parts/readout/operating.ts";
import { type Transfer, transferOf } from "../../parts/readout/transfer.ts";
import type { Brief } from "../../project/brief.ts";
import { soundLevelDb } from "../../quantity/kinds.ts";

export interface LightAnswer {
  readonly guides: readonly {
    /** Depth d at which the strain is read [m]. */
    readonly depth: number;
    /** Modal birefringence B = n_TM - n_TE [-]. */
    readonly birefringence: number;
    /** Each mode's own index, depth and width, where profile or process gave them. */
    readonly modes: { readonly te: GuideMode; readonly tm: GuideMode } | null;
    /** Over the whole path; `load` from a static pressure difference [rad]; `inUse`: what the readout works at. */
    readonly bias: Bias & { readonly load: number; readonly inUse: number };
  }[];
  /** Both ports against the phase, in shares of the detected power. */
  readonly transfer: Transfer;
  /** At the first guide's bias; see `OperatingPoint`. */
  readonly bias: number;
  /** "given" in the file, or "computed" from birefringence, stress and load. */
  readonly biasFrom: "given" | "computed";
  readonly visibility: number;
  /** Share of the light in the output at rest [-]; slope [1/rad] and curvature [1/rad^2] there, of the detected power. */
  readonly output: number;
  readonly slope: number;
  readonly curvature: number;
  /** Slope over the largest at any bias [-]. */
  readonly quadrature: number;
  /** Power on the detectors at rest [W]; null: no launched power is given. */
  readonly power: { readonly first: number; readonly second: number } | null;
  /** Phase amplitudes at which the cosine alone distorts by 1 and 3 % [rad], and the sound levels that make them, dB re 20 uPa; null: no linear signal. */
  readonly distortion: readonly {
    readonly share: number;
    readonly amplitude: number | null;
    readonly level: number | null;
  }[];
  readonly drift: {
    /** Of the weighted sum of all guides: a common drift cancels where weights have opposite signs [rad/K]. */
    readonly perKelvin: number;
    /** Step of temperature [K], of wavelength [m] and of mount stress [Pa] until the slope falls by 1 dB; null: nothing moves it, or no slope. */
    readonly stepForOneDb: {
      readonly temperature: number | null;
      readonly wavelength: number | null;
      readonly stress: number | null;
    };
    /** Over the site's temperatures: bias at both ends after the servo [rad], least slope over the present one [dB]; null: no range. */
    readonly site: {
      readonly bias: readonly [number, number];
      readonly leastSlopeDb: number;
      readonly held: boolean;
    } | null;
    /** Plus or minus, by the fiber's wrong axis [rad]; null: no crosstalk given. */
    readonly crosstalk: number | null;
  };
  /** The nearest quadrature, and the bias in use: what would make the first guide's own phase be there. */
  readonly choose: OwnBias;
  readonly present: OwnBias;
  /** Optical path difference of the two fields [m]; coherence length [m] and contrast left [-]; null: no linewidth. */
  readonly pathDifference: number;
  readonly coherence: { readonly length: number | null; readonly contrast: number } | null;
}

/** A bias, and the least change of the guide's length [m] or of temperature [K] after which the guide's own phase is there, whole turns aside; null: can't. */
export interface OwnBias {
  readonly bias: number;
  readonly lengthChange: number | null;
  readonly temperatureChange: number | null;
}

/** `sensitivity`: |S| at the brief's reference frequency [rad/Pa]; `bias` of each guide and what a static load adds [rad]. */
export function lightOf(
  microphone: Microphone,
  brief: Pick<Brief, "site">,
  given: {
    readonly sensitivity: number;
    readonly bias: readonly (number | null)[];
    readonly load: readonly number[];
  },
): LightAnswer {
  const { readout, light, guides, air } = microphone;
  const transfer = transferOf(readout);
  const inUse = given.bias.map((bias) => bias ?? 0);
  const all = guides.map((guide, i) => ({
    depth: guide.depth,
    birefringence: guide.birefringence,
    modes: guide.modes ?? null,
    bias: {
      ...phaseAtRest(guide, light.wavelength, readout.pathDifference),
      load: given.load[i] ?? 0,
      inUse: inUse[i] ?? 0,
    },
  }));
  const [first] = guides;
  const bias = inUse[0] ?? 0;
  const point = operatingPoint(transfer, readout.outputs, bias);
  const curve = outputCurve(transfer, readout.outputs);
  const angle = bias + curve.angle;
  const detected = light.launched === null ? null : light.launched * light.transmission;
  const own = phaseAtRest(first, light.wavelength, readout.pathDifference);
  const step = stepForSlope(angle, 1);
  const over = (per: number) => (per === 0 || step === 0 || curve.amplitude === 0 ? null : Math.abs(step / per));
  const phase = own.atRest + (given.load[0] ?? 0);
  const perLength = readout.kind === "polarimetric" ? own.atRest / first.length : 0;
  const makes = (target: number): OwnBias => {
    const turns = Math.round((target - phase) / (2 * Math.PI));
    const change = target - phase - 2 * Math.PI * turns;
    const by = (per: number) => (per === 0 ? null : change / per);
    return { bias: target, lengthChange: by(perLength), temperatureChange: by(own.perKelvin) };
  };
  const pathDifference = readout.kind === "polarimetric" ? first.birefringence * first.length : readout.pathDifference;
  return {
    guides: all,
    transfer,
    bias,
    biasFrom: readout.bias === null ? "computed" : "given",
    visibility: point.visibility,
    output: point.output,
    slope: point.slope,
    curvature: point.curvature,
    quadrature: point.quadrature,
    power: detected === null ? null : { first: detected * point.first, second: detected * point.second },
    distortion: [0.01, 0.03].map((share) => {
      const amplitude = curve.amplitude === 0 ? null : amplitudeAtDistortion(angle, share);
      const heard = amplitude !== null && given.sensitivity > 0;
      return { share, amplitude, level: heard ? soundLevelDb(amplitude / (Math.SQRT2 * given.sensitivity)) : null };
    }),
    drift: {
      perKelvin: all.reduce((sum, { bias: one }, i) => sum + (guides[i]?.weight ?? 0) * one.perKelvin, 0),
      stepForOneDb: {
        temperature: over(own.perKelvin),
        wavelength: over(own.perWavelength),
        stress: over(own.perStress),
      },
      site: siteDrift({ microphone, brief, perKelvin: own.perKelvin, bias, angle: curve.angle, now: air.temperature }),
      crosstalk: light.fiberCrosstalk === null ? null : crosstalkPhase(light.fiberCrosstalk, readout.polarizer.leak),
    },
    choose: makes(quadratureNear(bias, curve.angle)),
    present: makes(bias),
    pathDifference,
    coherence:
      light.linewidth === null
        ? null
        : {
            length: light.linewidth === 0 ? null : coherenceLength(light.linewidth),
            contrast: coherentContrast(light.linewidth, pathDifference),
          },
  };
}

/** Bias at both ends of the site's temperatures, less what a servo takes up, and the least slope between. */
function siteDrift(given: {
  readonly microphone: Microphone;
  readonly brief: Pick<Brief, "site">;
  readonly perKelvin: number;
  readonly bias: number;
  readonly angle: number;
  readonly now: number;
}): LightAnswer["drift"]["site"] {
  const { temperature } = given.brief.site;
  if (temperature === null) return null;
  const range = given.microphone.readout.servo?.range ?? 0;
  const drifts = temperature.map((there) => {
    const free = given.perKelvin * (there - given.now);
    return Math.sign(free) * Math.max(0, Math.abs(free) - range);
  });
  const [low, high] = [Math.min(...drifts), Math.max(...drifts)];
  const slope = (drift: number) => Math.abs(sin(given.bias + given.angle + drift));
  // The sine's null may lie between the ends.
  const steps = 200;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= steps; i++) least = Math.min(least, slope(low + ((high - low) * i) / steps));
  const from = Math.floor((given.bias + given.angle + low) / Math.PI);
  if (from !== Math.floor((given.bias + given.angle + high) / Math.PI)) least = 0;
  const leastSlopeDb = 20 * Math.log10(Math.max(least, 1e-6) / Math.max(slope(0), 1e-6));
  return {
    bias: [given.bias + (drifts[0] ?? 0), given.bias + (drifts[1] ?? 0)],
    leastSlopeDb,
    held: drifts.every((drift) => drift === 0),
  };
}

/** The nearest bias of the largest slope, at the port's own angle. */
const quadratureNear = (bias: number, angle: number): number =>
  Math.PI / 2 - angle + Math.PI * Math.round((bias + angle - Math.PI / 2) / Math.PI);
