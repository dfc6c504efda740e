/** A polarimeter without flaws, at quadrature: both ports, ideal polarizers at 45 degrees; nothing said of light and receiver. */
import type { Light, Readout } from "./readout.ts";

export const idealLight = (wavelength: number): Light => ({
  wavelength,
  launched: null,
  transmission: 1,
  relativeIntensity: null,
  noiseCorner: null,
  linewidth: null,
  fiberMode: null,
  fiberCrosstalk: null,
});

export const idealReadout: Readout = {
  kind: "polarimetric",
  outputs: "both",
  normalized: false,
  rejection: 0,
  bias: Math.PI / 2,
  visibility: 1,
  polarizer: { angle: Math.PI / 4, leak: 0 },
  analyzer: { angle: -Math.PI / 4, leak: 0 },
  powerRatio: 1,
  wavePlate: null,
  pathDifference: 0,
  servo: null,
  receiver: {
    responsivity: null,
    resistor: null,
    voltageNoise: null,
    currentNoise: null,
    bandwidth: null,
    bits: null,
    fullScale: null,
    sampling: null,
  },
};
