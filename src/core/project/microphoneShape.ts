/**
 * The shape of a microphone in a project file: its parts, and here the film and what lies around it. Every key is optional;
 * what a missing one means stands in defaults.ts.
 */
import { diaphragm } from "./diaphragmShape.ts";
import { absentOr, flag, group, length, list, notNegative, pair, positive, quantity, word } from "./fields.ts";
import { guide } from "./guideShape.ts";
import { material } from "./materialShape.ts";
import { light, readout } from "./readoutShape.ts";
import { either, type Of } from "./schema.ts";

const openOrClosed = (label: string) => word(label, "open", "closed");

const filmEdges = either(
  openOrClosed("Edges of the film"),
  group("Edges of the film", {
    sides: openOrClosed("Sides of the film").optional(),
    ends: openOrClosed("Ends of the film").optional(),
  }),
);

export const ends = word("Ends of the hole", "piston", "flanged", "free", "none").optional();

const hole = (label: string) =>
  group(label, {
    diameter: length("Hole diameter"),
    length: length("Hole length"),
    at: pair("Place of the hole", quantity("length", "Place of the hole")).optional(),
    ends,
  });

const cavity = absentOr(
  group("Cavity", {
    volume: quantity("volume", "Volume", positive).optional(),
    surface: quantity("area", "Wall area", positive).optional(),
  }),
);

const backPlate = group("Back plate", {
  holes: group("Holes of the back plate", {
    diameter: length("Hole diameter"),
    pitch: length("Hole pitch"),
    length: length("Hole length"),
    ends,
  }).optional(),
  hole: hole("Hole of the back plate").optional(),
  admittance: quantity("admittance", "Velocity per pressure of the back plate", notNegative).optional(),
});

export const filmShape = group(
  "Film",
  {
    gap: length("Air gap"),
    edges: filmEdges.optional(),
    backPlate: absentOr(backPlate),
  },
  "film",
);

const front = group("Front", { holes: list("Holes", hole("Hole")).optional(), cavity });

const back = group("Back", {
  cavity,
  vent: absentOr(
    group("Vent", {
      shape: word("Shape of the vent", "round", "slit").optional(),
      diameter: length("Vent diameter"),
      height: length("Vent height"),
      width: length("Vent width"),
      length: length("Vent length"),
      exposed: flag("Whether sound reaches the vent").optional(),
    }),
  ),
  leak: absentOr(
    group("Leak", {
      height: length("Leak height"),
      width: length("Leak width"),
      length: length("Leak length"),
      from: word("Where the leak comes from", "front", "outside").optional(),
    }),
  ),
});

const body = group("Body", {
  shape: word("Shape of the body", "sphere", "cylinder").optional(),
  diameter: length("Body diameter"),
  length: length("Body length"),
});

export const microphoneShape = group("Microphone", {
  diaphragm: diaphragm.optional(),
  frame: absentOr(
    group("Frame", {
      material: material.optional(),
      thickness: length("Frame thickness"),
      outer: pair("Outer size of the frame", quantity("length", "Outer size of the frame", positive)).optional(),
      bondedAt: quantity("temperature", "Bonding temperature", positive).optional(),
    }),
  ),
  load: absentOr(group("Static load", { difference: quantity("pressure", "Static pressure difference").optional() })),
  guide: either(
    guide,
    list("Guides", guide).counting({ atLeast: 1, says: "Found an empty list; needed: one guide or more." }),
  ).optional(),
  light: light.optional(),
  film: absentOr(filmShape),
  front: absentOr(front),
  back: absentOr(back),
  body: absentOr(body),
  readout: readout.optional(),
});

export type FilmEdgesFile = Of<typeof filmEdges>;
