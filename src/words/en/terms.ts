/** Which word of the glossary explains which values, by the ends of their paths. Apart from the texts, which come when they are read. */
const terms: readonly (readonly [term: string, ...ends: string[]])[] = [
  ["air film", "film.gap", "film.edges.sides", "film.edges.ends"],
  ["band", "band.from", "band.to", "band.within"],
  ["bias", "readout.bias"],
  ["birefringence", "guide.birefringence", "guide.birefringencePerKelvin"],
  ["damping ratio", "damping.atLeast", "damping.atMost"],
  ["diaphragm", "diaphragm.across", "diaphragm.along", "diaphragm.thickness", "diaphragm.material"],
  ["edges", "edges.sides", "edges.ends", "edges.sides.rotation", "edges.ends.rotation"],
  ["guide", "guide.at", "guide.face", "guide.depth", "guide.width", "guide.weight", "guide.length"],
  ["loss factor", "diaphragm.lossFactor"],
  ["loudest sound", "loudest.atLeast", "loudest.distortion", "loudest.at"],
  [
    "mode of the guide",
    "profile.indexChange",
    "profile.depth",
    "profile.width",
    "process.temperature",
    "process.time",
    "process.window",
  ],
  ["noise", "noise.atMost"],
  ["sensitivity", "sensitivity.atLeast", "sensitivity.at"],
  ["static overpressure", "site.staticOverpressure", "site.rise", "load.difference"],
  ["strength", "strength.atLeast"],
  ["tension", "tension.across", "tension.along"],
  ["vibration", "vibration.atMost"],
];

export const termWords = {
  open: "Words",
  what: (term: string) => `what is meant by ${term}`,
} as const;

/** The term that explains a value; undefined: none does. */
export function termOf(path: string): string | undefined {
  const plain = path.replace(/\[\d+\]/g, "");
  return terms.find(([, ...ends]) => ends.some((end) => plain === end || plain.endsWith(`.${end}`)))?.[0];
}
