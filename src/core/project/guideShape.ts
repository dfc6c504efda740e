/** The shape of a guide in a project file: where it lies, its index, how it is made. */
import { absentOr, flag, group, length, list, notNegative, number, positive, quantity, word } from "./fields.ts";
import { material } from "./materialShape.ts";
import type { Of } from "./schema.ts";

/** Index over the cross-section of a guide: what its light sees. */
const profile = group("Index profile of the guide", {
  kind: word("Kind of profile", "step", "erfc", "gaussian", "exponential", "layered").optional(),
  indexChange: number("Index change at the face, field along it (TE)", positive).optional(),
  birefringence: number("How much more the index changes for TM than for TE").optional(),
  depth: length("Depth of the profile: height of a step, distance to 1/e or erfc(1)"),
  below: quantity("length", "Depth at which the core begins", notNegative).optional(),
  width: length("Width of the core, or of the window in the mask"),
  edge: quantity("length", "Spread of the edges across; 0 is sharp", notNegative).optional(),
  cover: number("Index of what covers the face", { atLeast: 1 }).optional(),
  layers: list(
    "Layers of the guide, from the face inward",
    group("Layer of the guide", {
      thickness: length("Thickness of the layer"),
      index: number("Index of the layer", { atLeast: 1 }).optional(),
      width: absentOr(quantity("length", "Width of the strip; null: everywhere", positive)),
      beside: number("Index beside the strip", { atLeast: 1 }).optional(),
    }),
  ).optional(),
});

/** How a guide is made. */
const process = group("How the guide is made", {
  kind: word("Kind of process", "ion-exchange", "deposition").optional(),
  salt: word("Molten salt", "potassium", "silver").optional(),
  temperature: quantity("temperature", "Temperature of the bath", positive).optional(),
  time: quantity("time", "Time in the bath", positive).optional(),
  window: length("Width of the window in the mask"),
  indexChange: number("Index change at the face, field along it (TE)", positive).optional(),
  birefringence: number("How much more the index changes for TM than for TE").optional(),
  diffusion: quantity("diffusion", "Diffusion coefficient", positive).optional(),
  diffusionAt: quantity("temperature", "Temperature of the diffusion coefficient", positive).optional(),
  activation: quantity("energy", "Activation energy of the diffusion", notNegative).optional(),
  stress: quantity("modulus", "Compressive stress of the exchanged face", notNegative).optional(),
  everywhere: flag("Whether the whole diaphragm is exchanged, without a mask").optional(),
  layers: profile.members.layers,
});

export const guide = group(
  "Guide",
  {
    at: quantity("length", "Guide position").optional(),
    face: word("Face that the guide lies in", "front", "back").optional(),
    depth: quantity("length", "Mean depth of the mode", notNegative).optional(),
    width: absentOr(quantity("length", "Width of the mode", positive)),
    length: length("Length between the polarizers"),
    weight: number("Weight of the output").optional(),
    birefringence: number("Birefringence of the guide").optional(),
    birefringencePerKelvin: quantity("perKelvin", "Birefringence change with temperature").optional(),
    material: material.optional(),
    profile: absentOr(profile),
    process: absentOr(process),
  },
  "guide",
);

export type GuideFile = Of<typeof guide>;
