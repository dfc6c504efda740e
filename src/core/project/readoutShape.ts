/** The shape of light and readout in a project file. */
import {
  absentOr,
  flag,
  group,
  length,
  notNegative,
  number,
  positive,
  quantity,
  ratio,
  share,
  word,
} from "./fields.ts";

export const light = group("Light", {
  wavelength: length("Vacuum wavelength"),
  launched: quantity("power", "Launched power", positive).optional(),
  loss: quantity("decibel", "Loss from launch to detector", notNegative).optional(),
  relativeIntensity: quantity("intensityNoise", "Relative intensity noise").optional(),
  noiseCorner: quantity("frequency", "Corner of the intensity noise", notNegative).optional(),
  linewidth: quantity("frequency", "Linewidth", notNegative).optional(),
  fiber: group("Fiber", {
    mode: length("Mode-field diameter of the fiber"),
    crosstalk: quantity(
      "decibel",
      "Power in the wrong axis of the fiber below that in the right one",
      notNegative,
    ).optional(),
  }).optional(),
});

const polarizer = (label: string) =>
  group(label, {
    angle: quantity("angle", `${label} angle`).optional(),
    extinction: quantity("decibel", `${label} extinction`, notNegative).optional(),
  }).optional();

export const readout = group("Readout", {
  kind: word("Kind of readout", "polarimetric", "interferometric").optional(),
  outputs: word("Outputs", "one", "both").optional(),
  rejection: quantity("decibel", "Common-mode rejection, 20 log of amplitudes", notNegative).optional(),
  normalized: flag("Whether the output is divided by the power").optional(),
  bias: absentOr(quantity("angle", "Bias")),
  visibility: ratio("Visibility", share).optional(),
  polarizer: polarizer("Polarizer"),
  analyzer: polarizer("Analyzer"),
  imbalance: quantity("decibel", "Imbalance: power of TM over TE, or of the guide over the reference arm").optional(),
  wavePlate: absentOr(
    group("Wave plate or compensator between guide and analyzer", {
      retardation: quantity("angle", "Retardation of the wave plate").optional(),
      angle: quantity("angle", "Angle of its slow axis").optional(),
    }),
  ),
  arm: word("Mode that an interferometer reads", "TE", "TM").optional(),
  pathDifference: quantity("length", "Optical path of the guide's arm less that of the reference").optional(),
  servo: absentOr(
    group("Servo of the bias", {
      range: quantity("angle", "Phase that the servo can add, plus or minus", notNegative).optional(),
      corner: quantity("frequency", "Frequency up to which the servo follows", notNegative).optional(),
    }),
  ),
  receiver: group("Receiver", {
    responsivity: quantity("responsivity", "Responsivity", positive).optional(),
    resistor: quantity("resistance", "Load resistor", positive).optional(),
    voltageNoise: quantity("voltageNoise", "Voltage noise", notNegative).optional(),
    currentNoise: quantity("currentNoise", "Current noise", notNegative).optional(),
    bandwidth: quantity("frequency", "Receiver bandwidth", positive).optional(),
    bits: number("Bits of the converter", positive).optional(),
    fullScale: quantity("voltage", "Full scale of the converter", positive).optional(),
    sampling: quantity("frequency", "Sampling rate", positive).optional(),
  }).optional(),
});
