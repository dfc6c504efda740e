/** Light from the launch to the photodiode's converter: what a project says of it, in SI. Null: it does not say. */

export interface Light {
  /** Vacuum wavelength [m]. */
  readonly wavelength: number;
  /** Power into the device [W]: what safety sees. */
  readonly launched: number | null;
  /** Share of the power that reaches the detectors, both ports together [-]: what noise sees is `launched` times this. */
  readonly transmission: number;
  /** Relative intensity noise well above its corner, one-sided [1/Hz]. */
  readonly relativeIntensity: number | null;
  /** Below this frequency the intensity noise rises as 1 / f [Hz]. */
  readonly noiseCorner: number | null;
  /** Full width of the laser's line at half its height [Hz]. */
  readonly linewidth: number | null;
  /** Mode-field diameter of the fiber, full width of its intensity at 1/e^2 [m]. */
  readonly fiberMode: number | null;
  /** Power in the wrong axis of a polarization-keeping fiber over that in the right one [-]. */
  readonly fiberCrosstalk: number | null;
}

export interface Polarizer {
  /** Angle of the passed field from the diaphragm's plane (TE, x), toward its normal (TM, z) [rad]. */
  readonly angle: number;
  /** Power passed crossed over power passed along, at most 1 [-]; 0 is an ideal one. */
  readonly leak: number;
}

/** A retarder between guide and analyzer: a wave plate, a compensator. */
export interface WavePlate {
  /** Delay of the slow axis [rad]. */
  readonly retardation: number;
  /** Angle of the slow axis, counted like a polarizer's [rad]; 90 degrees delays TM, as the guide does. */
  readonly angle: number;
}

export interface Receiver {
  /** [A/W] */
  readonly responsivity: number | null;
  /** Load (transimpedance) [ohm]. */
  readonly resistor: number | null;
  /** [V/sqrt(Hz)], [A/sqrt(Hz)] */
  readonly voltageNoise: number | null;
  readonly currentNoise: number | null;
  /** [Hz] */
  readonly bandwidth: number | null;
  /** Bits of the converter [-], its full scale [V] and sampling rate [Hz]. */
  readonly bits: number | null;
  readonly fullScale: number | null;
  readonly sampling: number | null;
}

export interface Readout {
  /** Phase between TM and TE of one guide, or of one mode of it against a reference arm. */
  readonly kind: "polarimetric" | "interferometric";
  /** One port of analyzer or coupler, or the first less the second. */
  readonly outputs: "one" | "both";
  /** Whether the output is divided by the power: by the sum of both ports, or by a monitor of one. */
  readonly normalized: boolean;
  /** Share of a common fluctuation's amplitude that the difference of two outputs keeps [-]; 20 dB are 0.1. */
  readonly rejection: number;
  /** Retardation at rest, TM behind TE (guide behind reference) [rad]; null: follows from birefringence and stress. */
  readonly bias: number | null;
  /** What else lowers the contrast: coherence, crosstalk, overlap of the modes [-]; multiplies what the parts below make. */
  readonly visibility: number;
  readonly polarizer: Polarizer;
  readonly analyzer: Polarizer;
  /** Power of TM over TE (of the guide over the reference arm) that reaches the analyzer, equal at 45 degrees being 1 [-]. */
  readonly powerRatio: number;
  readonly wavePlate: WavePlate | null;
  /** Of an interferometer: optical path of the guide's arm less that of the reference [m]; 0 is balanced. */
  readonly pathDifference: number;
  /** Of a servo that holds the bias: the phase that it can add [rad] and the frequency up to which it follows [Hz]; null: none. */
  readonly servo: { readonly range: number; readonly corner: number } | null;
  readonly receiver: Receiver;
}
