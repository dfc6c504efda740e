/** The shape of the diaphragm in a project file: its plate, its layers, how its edges are held. */
import { absentOr, group, length, list, notNegative, positive, quantity, ratio, word } from "./fields.ts";
import { material } from "./materialShape.ts";
import { either, type Of } from "./schema.ts";

const rotation = (label: string) => quantity("rotationStiffness", label, notNegative).optional();

const bond = (label: string) =>
  group(`${label}: adhesive under them`, {
    thickness: length(`${label}: thickness of the adhesive`),
    youngsModulus: quantity("modulus", `${label}: modulus of the adhesive through its thickness`, positive).optional(),
    overlap: length(`${label}: overlap on the frame`),
  }).optional();

const held = (label: string) =>
  either(
    word(label, "clamped", "supported"),
    group(label, { rotation: rotation(`${label}: stiffness against rotation`), bond: bond(label) }),
  );

export const edges = either(
  word("Edges", "clamped", "supported"),
  group("Edges", {
    rotation: rotation("Stiffness of all edges against rotation"),
    bond: bond("All edges"),
    sides: held("Sides").optional(),
    ends: held("Ends").optional(),
  }),
);

const layer = group(
  "Layer",
  {
    material: material.optional(),
    thickness: length("Layer thickness"),
    stress: quantity("modulus", "Stress in the layer").optional(),
    face: word("Face that the layer lies on", "front", "back").optional(),
  },
  "layer",
);

export const diaphragm = group("Diaphragm", {
  material: material.optional(),
  across: length("Side across the guide"),
  along: length("Side along the guide"),
  thickness: length("Thickness"),
  layers: list("Layers", layer).optional(),
  edges: edges.optional(),
  tension: absentOr(
    group("Tension", {
      across: quantity("tension", "Tension across the guide").optional(),
      along: quantity("tension", "Tension along the guide").optional(),
    }),
  ),
  lossFactor: ratio("Structural loss factor", notNegative).optional(),
});

export type EdgesFile = Of<typeof edges>;
