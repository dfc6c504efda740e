/** What a project means where it says nothing: the one place of every default, in the words of a project file. */
import type { ProjectFile } from "./shape.ts";

/** A missing `diaphragm`, `guide`, `light`, `air`, `readout`, and each missing key inside one, takes these. */
export const defaults = {
  air: { temperature: "23 degC", pressure: "101.325 kPa", humidity: "50 %" },
  microphone: {
    diaphragm: {
      material: "thin-borosilicate",
      across: "5 mm",
      along: "5 mm",
      thickness: "30 um",
      layers: [],
      edges: "clamped",
      lossFactor: 0,
    },
    guide: {
      at: "0 mm",
      face: "front",
      depth: "3 um",
      width: null,
      length: "20 mm",
      weight: 1,
      birefringence: 0.001,
    },
    light: { wavelength: "633 nm", loss: "0 dB" },
    readout: {
      kind: "polarimetric",
      outputs: "both",
      normalized: false,
      bias: "90 deg",
      visibility: 1,
      polarizer: { angle: "45 deg" },
      analyzer: { angle: "-45 deg" },
      imbalance: "0 dB",
      wavePlate: null,
    },
  },
} as const;

/** Of a pair of edges of which only one is given, the other one. */
export const defaultEdge = "clamped";
export const defaultFilmEdge = "open";

type Group = { readonly [key: string]: unknown };

/** Keys that are there win, null too; a key that is undefined counts as missing. */
function filled<T extends Group>(given: T | undefined, missing: Group): T {
  const there = Object.entries(given ?? {}).filter(([, value]) => value !== undefined);
  return { ...missing, ...Object.fromEntries(there) } as T;
}

/** The same project with every default filled in. */
export function completed(file: ProjectFile): ProjectFile {
  const { microphone = {} } = file;
  const { guide } = microphone;
  const guides = Array.isArray(guide)
    ? guide.map((one) => filled(one, guideDefaults(one)))
    : filled(guide, guideDefaults(guide));
  return {
    ...file,
    air: filled(file.air, defaults.air),
    microphone: {
      ...microphone,
      diaphragm: filled(microphone.diaphragm, defaults.microphone.diaphragm),
      guide: guides,
      light: filled(microphone.light, defaults.microphone.light),
      readout: filledReadout(microphone.readout),
    },
  } as ProjectFile;
}

/** Polarizer and analyzer keep their own default angles beside a given extinction. */
function filledReadout(readout: Group | undefined): Group {
  const { polarizer, analyzer, ...others } = defaults.microphone.readout;
  return {
    ...filled(readout, others),
    polarizer: filled(readout?.["polarizer"] as Group | undefined, polarizer),
    analyzer: filled(readout?.["analyzer"] as Group | undefined, analyzer),
  };
}

/** A guide with a profile or a process gets its depth, width and birefringence from there, never the default ones. */
function guideDefaults(guide: Group | undefined): Group {
  const { depth, width, birefringence, ...others } = defaults.microphone.guide;
  const made = guide?.["profile"] ?? guide?.["process"] ?? null;
  const isSolved = made !== null && guide?.["depth"] === undefined;
  return isSolved ? others : { ...others, depth, width, birefringence };
}

/** A value that `completed` has filled in, by its place under microphone. One that is missing is a fault of this program, never of a file. */
export function needed(value: number | undefined, place: string): number {
  if (value === undefined) throw new Error(`The defaults of a project hold no microphone.${place}.`);
  return value;
}
