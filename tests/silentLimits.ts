/** Limits of a microphone that says nothing about them, for tests of what is shown. */
import type { Loudest } from "../src/core/microphone/loudest/loudest.ts";
import type { Noise } from "../src/core/microphone/noise/noise.ts";
import type { StrengthAnswer } from "../src/core/microphone/strength.ts";
import { idealReadout } from "../src/core/parts/readout/ideal.ts";
import { transferOf } from "../src/core/parts/readout/transfer.ts";
import type { LightAnswer } from "../src/core/tasks/predict/light.ts";

const noise: Noise = {
  levelA: null,
  levelZ: null,
  thermal: [],
  total: [],
  pressure: [],
  bySource: [],
  byPart: {
    structure: 0,
    filmFriction: 0,
    filmHeat: 0,
    wall: 0,
    frontHoles: 0,
    frontCavity: 0,
    backCavity: 0,
    vent: 0,
    leak: 0,
    radiation: 0,
  },
  thirdOctaves: [],
  spectrum: { frequency: [], total: [], bySource: [], response: [] },
  detected: null,
  withoutLight: "no-launched-power",
  averagedOver: null,
  resolution: { samples: 0, curveError: 0 },
};

const loudest: Loudest = {
  frequency: 1000,
  distortion: 0.03,
  level: null,
  summed: null,
  byCause: { readout: null, diaphragm: null, film: null },
  contact: null,
  first: null,
  converter: null,
  jet: null,
  moved: 1,
};

const strength: StrengthAnswer = {
  factor: null,
  cases: [],
  largest: { stress: 0, face: "front", x: 0, y: 0, axis: "across" },
  membrane: 0,
  bears: null,
  tested: null,
  assumed: false,
  effectiveArea: 0,
  growth: 16,
  fractile: 0.05,
};

/** An ideal polarimeter at quadrature; nothing moves it. */
const light: LightAnswer = {
  guides: [],
  transfer: transferOf(idealReadout),
  bias: Math.PI / 2,
  biasFrom: "given",
  visibility: 1,
  output: 0,
  slope: 1,
  curvature: 0,
  quadrature: 1,
  power: null,
  distortion: [],
  drift: {
    perKelvin: 0,
    stepForOneDb: { temperature: null, wavelength: null, stress: null },
    site: null,
    crosstalk: null,
  },
  choose: { bias: Math.PI / 2, lengthChange: null, temperatureChange: null },
  present: { bias: Math.PI / 2, lengthChange: null, temperatureChange: null },
  pathDifference: 0,
  coherence: null,
};

export const silentLimits = { noise, loudest, strength, light };
