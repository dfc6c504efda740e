/** Limits of a microphone that says nothing about them, for tests of what is shown. */
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

export const silentLimits = { noise, loudest: null };
