/** What a part of the microphone begins with when it is added, in the words of a project file: sizes that one can make. */

export interface PartToAdd {
  readonly path: string;
  /** As JSON. */
  readonly value: string;
  /** What stands at the path where the part is absent, as JSON. */
  readonly absent: "null" | "[]";
}

export const partsToAdd = {
  film: { path: "microphone.film", value: '{ "gap": "38 um", "edges": "open" }', absent: "null" },
  backPlate: {
    path: "microphone.film.backPlate",
    value: '{ "holes": { "diameter": "0.2 mm", "pitch": "0.8 mm", "length": "0.5 mm" } }',
    absent: "null",
  },
  front: {
    path: "microphone.front",
    value:
      '{ "holes": [ { "diameter": "1.2 mm", "length": "0.2 mm", "at": ["0 mm", "0 mm"] } ], "cavity": { "volume": "7.2 mm^3", "surface": "76.8 mm^2" } }',
    absent: "null",
  },
  backCavity: {
    path: "microphone.back.cavity",
    value: '{ "volume": "800 mm^3", "surface": "600 mm^2" }',
    absent: "null",
  },
  vent: {
    path: "microphone.back.vent",
    value: '{ "shape": "round", "diameter": "0.1 mm", "length": "3 mm", "exposed": false }',
    absent: "null",
  },
  leak: {
    path: "microphone.back.leak",
    value: '{ "height": "1 um", "width": "1 mm", "length": "1 mm", "from": "outside" }',
    absent: "null",
  },
  layer: {
    path: "microphone.diaphragm.layers",
    value: '[ { "material": "fused-silica", "thickness": "2 um", "stress": "0 MPa", "face": "front" } ]',
    absent: "[]",
  },
  frame: {
    path: "microphone.frame",
    value: '{ "material": "borosilicate-3.3", "thickness": "1.1 mm", "bondedAt": "20 degC" }',
    absent: "null",
  },
  body: { path: "microphone.body", value: '{ "shape": "sphere", "diameter": "20 mm" }', absent: "null" },
} as const satisfies Readonly<Record<string, PartToAdd>>;

export type PartKey = keyof typeof partsToAdd;
