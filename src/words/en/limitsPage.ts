/** Words of the Limits page and of its figures. */

export const changeWords = {
  air: "air",
  material: "index of the glass",
  stress: "stress from the frame",
  bias: "bias of the readout",
  trapped: "air shut in behind",
} as const;

export const perWords = {
  perKelvin: "per kelvin",
  perKilopascal: "per kPa",
  perTenPercent: "per 10 % RH",
} as const;

/** What stands in and under the pictures. */
export const limitFigureWords = {
  now: "now",
  total: "all",
  none: "none",
  phaseNoise: "Phase noise (nrad/√Hz)",
  noiseDescription: "Phase noise over frequency, all sources together and the strongest alone.",
  octaves: "Noise in the band (dB)",
  octaveDescription: "Noise as sound level in third octaves, from 20 Hz to 20 kHz.",
  level: "Sound level (dB)",
  rangeDescription:
    "Sound level over frequency: the noise in third octaves below, the loudest sound above, and what the brief asks for between them.",
  asked: "asked for",
  ceiling: (percent: string) => `${percent} distortion`,
  floor: "noise in third octaves",
  shortFloor: "⅓ octaves",
  sum: "noise, A-weighted",
  shortSum: "noise",
  frequencyColumn: "Frequency",
  bandColumn: "Third octave",
  floorColumn: "Noise (dB)",
  ceilingColumn: (percent: string) => `Loudest, ${percent} (dB)`,
  balancedColumn: "the same, balanced (dB)",
} as const;

/** The page's own words. */
export const limitsWords = {
  layKept: "lay kept designs over it",
  thisAlone: "this design alone",
  what: "the limits",
  noise: "Noise",
  noiseAside: "where it comes from",
  spectrum: "Noise by source",
  octaves: "Noise in third octaves",
  range: "Dynamic range",
  boxSays:
    "The box holds the band asked for, from the noise to the loudest sound asked for. Its foot is an A-weighted sum over 20 Hz to 20 kHz: hold the line of that sum against it, not the third octaves.",
  read: "Read",
  dynamic: (decibel: string) => `${decibel} from A-weighted noise to loudest sound`,
  source: "Source",
  level: "Level, A-weighted",
  share: "Share",
  heat: "Heat of the device, by part",
  loudest: "Loudest sound",
  cause: "Cause",
  alone: "Level by it alone",
  contact: "the diaphragm meets the wall behind the film",
  converter: "a port's voltage fills the converter (not counted)",
  jet: "air in a hole moves as far as its radius (jet loss is not computed)",
  strength: "Strength",
  load: "Load",
  pressure: "Pressure",
  stress: "Stress",
  factor: "Factor",
  failure: "Chance of failure",
  notCounted: "shown, not counted",
  averaged: (widths: string) =>
    `The diaphragm's loss factor is heard through the light's width: averaged over ${widths}, never less than the thickness.`,
  detected: (power: string, current: string) =>
    `${power} and ${current} at the detectors of a guide, both ports together.`,
  map: "Bending stress on the face that meets the sound, a quarter of the diaphragm",
  mapSays: (per: string) => `Stretched where warm, pressed where cool; ${per} at most.`,
  center: "center",
  side: "side",
  end: "end",
  touches: (pressure: string) =>
    `From about ${pressure} across it, the stretch counted, the diaphragm lies on the wall behind the film.`,
  straight: (pressure: string) =>
    `By the straight line of a plate that bends little; from about ${pressure} on it stretches and bears more than said.`,
  assumes: (figures: string) =>
    `Assumes: ${figures}; cracks grow with the 16th power of stress; flaws of the surface only, not the cut edge, the bond or a scratch. It is a figure to compare designs by, not a promise.`,
  figures: (scale: string, modulus: string, source: string) =>
    `63 % break at ${scale}, Weibull modulus ${modulus} (${source})`,
  site: "Site",
  siteAside: "what the surroundings change",
  per: "For",
  by: "by",
  sensitivity: "Sensitivity",
  bandFrom: "Lower band edge",
  bandTo: "Upper band edge",
  drift: (value: string) => `The bias drifts by ${value} a kelvin.`,
  dew: (point: string, coldest: string, wet: boolean) =>
    wet
      ? `The most humid air of the site has its dew point at ${point}; at ${coldest} water condenses in it: droplets close a vent and wet a film. Keep the inside dry or the device warm.`
      : `The most humid air of the site has its dew point at ${point}, below its coldest ${coldest}.`,
  passages: (text: string) =>
    `Narrow passages: ${text}. Dust of that size and water close them; a vent that is closed leaves every change of the barometer on the diaphragm.`,
  passage: { gap: "film", hole: "front hole", vent: "vent", leak: "leak" },
  noSite: "Surroundings can't be varied here.",
  precautions: "Precautions",
  precautionsAside: "which limit was compared",
  brought: "not named in the brief; the design brings it",
  more: {
    "strong-magnet":
      "In a test near a magnet the loudspeaker is a projectile: bring the sound through a tube from outside. Check every part against the list below. A mark (MR Safe, MR Conditional) needs tests of its own; nothing here is a medical claim.",
    "loud-sound": "Make such a sound in a closed coupler, with nobody in the room, and raise the level in steps.",
    laser:
      "The power compared is what leaves a fiber that is pulled or cut, not what reaches the detector; with optical instruments other limits hold (1M, 2M).",
    "pressurized-glass": "Pump down or fill more slowly than the vent follows.",
    outdoors:
      "What passes the dust of a test closes sooner or later; what is narrower than a drop holds water by its own surface.",
  } as Readonly<Record<string, string>>,
} as const;
