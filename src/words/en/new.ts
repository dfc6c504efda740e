/** The answer of `new` in words. */
export interface NewText {
  readonly file: string;
  /** What the file holds: path, value as written, label of a number. */
  readonly values: readonly { readonly path: string; readonly value: string; readonly label: string | null }[];
}

/** Labels of values that are words, lists, or groups that are absent. */
const labels: Readonly<Record<string, string>> = {
  "microphone.diaphragm.material": "A built-in name, or one from materials",
  "microphone.diaphragm.layers": "Layers on the diaphragm",
  "microphone.diaphragm.edges": "How all edges are held",
  "microphone.diaphragm.edges.sides": "How the edges beside the guide are held",
  "microphone.diaphragm.edges.ends": "How the edges that the guide crosses are held",
  "microphone.guide.face": "Face that the guide lies in; the front meets the sound",
  "microphone.guide.profile": "Index profile of the guide; null: depth is given",
  "microphone.guide.process": "How the guide is made; null: depth is given",
  "microphone.film": "Air film behind the diaphragm; null: nothing behind it",
  "microphone.film.edges": "Whether air can leave the film at its edges",
  "microphone.film.backPlate": "Holes of the back plate; null: none",
  "microphone.front": "Holes and cavity before the diaphragm; null: sound meets it",
  "microphone.back": "Cavity and vent behind the film; null: ambient pressure",
  "microphone.body": "What the sound goes round; null: the pressure is prescribed",
  "microphone.frame.material": "What the diaphragm is bonded to",
  "microphone.frame.outer": "Outer size of the frame",
  "microphone.readout.kind": "How phase becomes intensity",
  "microphone.readout.outputs": "One port of the analyzer, or both",
  "microphone.readout.normalized": "Whether the output is divided by the power",
  "microphone.readout.wavePlate": "Wave plate or compensator between guide and analyzer; null: none",
};

export function newLines({ file, values }: NewText): string[] {
  const paths = Math.max(0, ...values.map(({ path }) => path.length));
  const texts = Math.max(0, ...values.map(({ value }) => value.length));
  return [
    `Wrote ${file}. What stands in it:`,
    ...values.map(({ path, value, label }) =>
      `  ${path.padEnd(paths)}  ${value.padEnd(texts)}  ${label ?? labels[path] ?? ""}`.trimEnd(),
    ),
    `Next: glassdrum predict ${file}`,
  ];
}
