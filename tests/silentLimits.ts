/** Limits of a microphone that says nothing about them, for tests of what is shown. */
import type { Loudest } from "../src/core/microphone/loudest.ts";
import type { Noise } from "../src/core/microphone/noise.ts";

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
  byCause: { readout: null, diaphragm: null, film: null },
  contact: null,
  first: null,
  converter: null,
  jet: null,
};

export const silentLimits = { noise, loudest };
