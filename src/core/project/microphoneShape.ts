/** The shape of air, materials and microphone in a project file. Every key is optional; what a missing one means stands in defaults.ts. */
import {
  flag,
  group,
  list,
  notNegative,
  number,
  pair,
  positive,
  quantity,
  ratio,
  share,
  text,
  word,
} from "./fields.ts";
import { either, type Of, type Schema } from "./schema.ts";

const length = (label: string) => quantity("length", label, positive).optional();
const absentOr = <T>(schema: Schema<T>) => schema.nullable().optional();

export const airShape = group(
  "Air",
  {
    temperature: quantity("temperature", "Air temperature", positive).optional(),
    pressure: quantity("pressure", "Barometric pressure", positive).optional(),
    humidity: ratio("Relative humidity", share, "fraction").optional(),
    density: quantity("density", "Air density, given", positive).optional(),
    viscosity: quantity("viscosity", "Air viscosity, given", positive).optional(),
    heatRatio: number("Ratio of specific heats, given", { above: 1 }).optional(),
    prandtl: number("Prandtl number, given", positive).optional(),
    meanFreePath: quantity("length", "Mean free path, given; 0 nm is a film without slip", notNegative).optional(),
  },
  "air",
);

const plainStiffness = (label: string, bounds = positive) => quantity("modulus", label, bounds).optional();

const dispersion = group("Index by n^2 - 1 = sum b L^2 / (L^2 - c)", {
  kind: word("Kind of index formula", "sellmeier").optional(),
  b: list("Sellmeier b", number("Sellmeier b"))
    .counting({ exactly: 3, says: "Needed: three coefficients." })
    .optional(),
  c: list("Sellmeier c", quantity("area", "Sellmeier c", notNegative))
    .counting({ exactly: 3, says: "Needed: three coefficients." })
    .optional(),
  from: length("Shortest wavelength of the index formula"),
  to: length("Longest wavelength of the index formula"),
});

export const materialShape = group(
  "Material",
  {
    youngsModulus: quantity("modulus", "Young's modulus", positive).optional(),
    poissonRatio: number("Poisson's ratio", { above: -1, below: 0.5 }).optional(),
    stiffness: group("Plane-stress stiffness, axis 1 across", {
      q11: plainStiffness("Stiffness q11"),
      q12: plainStiffness("Stiffness q12", {}),
      q22: plainStiffness("Stiffness q22"),
      q66: plainStiffness("Stiffness q66"),
    }).optional(),
    density: quantity("density", "Density", positive).optional(),
    index: either(number("Refractive index", { atLeast: 1 }), dispersion).optional(),
    p11: number("Elasto-optic coefficient p11").optional(),
    p12: number("Elasto-optic coefficient p12").optional(),
    p44: number("Elasto-optic coefficient p44 of a cubic crystal, edges along <110>").optional(),
    stressOptic: quantity("perPascal", "Stress-optic constant").optional(),
    expansion: quantity("expansion", "Thermal expansion").optional(),
    indexPerKelvin: quantity("perKelvin", "Index change with temperature").optional(),
    strength: group("Strength of the surface (Weibull)", {
      scale: quantity("modulus", "Strength scale", positive).optional(),
      modulus: number("Weibull modulus", positive).optional(),
      area: quantity("area", "Area of the strength specimens", positive).optional(),
      time: quantity("time", "Load time of the strength specimens", positive).optional(),
    }).optional(),
    source: text("Where the values come from").optional(),
  },
  "material",
);

/** A built-in name, a name from `materials`, or the values themselves. */
const material = either(text("Material"), materialShape);

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

const edges = either(
  word("Edges", "clamped", "supported"),
  group("Edges", {
    rotation: rotation("Stiffness of all edges against rotation"),
    bond: bond("All edges"),
    sides: held("Sides").optional(),
    ends: held("Ends").optional(),
  }),
);

const openOrClosed = (label: string) => word(label, "open", "closed");
const filmEdges = either(
  openOrClosed("Edges of the film"),
  group("Edges of the film", {
    sides: openOrClosed("Sides of the film").optional(),
    ends: openOrClosed("Ends of the film").optional(),
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

const diaphragm = group("Diaphragm", {
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

const guide = group(
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

const light = group("Light", {
  wavelength: length("Vacuum wavelength"),
  launched: quantity("power", "Launched power", positive).optional(),
  loss: quantity("decibel", "Loss from launch to detector", notNegative).optional(),
  relativeIntensity: quantity("intensityNoise", "Relative intensity noise").optional(),
  noiseCorner: quantity("frequency", "Corner of the intensity noise", notNegative).optional(),
  linewidth: quantity("frequency", "Linewidth", notNegative).optional(),
  fiber: group("Fiber", {
    mode: length("Mode-field diameter of the fiber"),
    crosstalk: quantity(
      "decibel",
      "Power in the wrong axis of the fiber below that in the right one",
      notNegative,
    ).optional(),
  }).optional(),
});

const ends = word("Ends of the hole", "piston", "flanged", "free", "none").optional();
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

const film = group(
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

const polarizer = (label: string) =>
  group(label, {
    angle: quantity("angle", `${label} angle`).optional(),
    extinction: quantity("decibel", `${label} extinction`, notNegative).optional(),
  }).optional();

const readout = group("Readout", {
  kind: word("Kind of readout", "polarimetric", "interferometric").optional(),
  outputs: word("Outputs", "one", "both").optional(),
  rejection: quantity("decibel", "Common-mode rejection, 20 log of amplitudes", notNegative).optional(),
  normalized: flag("Whether the output is divided by the power").optional(),
  bias: absentOr(quantity("angle", "Bias")),
  visibility: ratio("Visibility", share).optional(),
  polarizer: polarizer("Polarizer"),
  analyzer: polarizer("Analyzer"),
  imbalance: quantity("decibel", "Imbalance: power of TM over TE, or of the guide over the reference arm").optional(),
  wavePlate: absentOr(
    group("Wave plate or compensator between guide and analyzer", {
      retardation: quantity("angle", "Retardation of the wave plate").optional(),
      angle: quantity("angle", "Angle of its slow axis").optional(),
    }),
  ),
  arm: word("Mode that an interferometer reads", "TE", "TM").optional(),
  pathDifference: quantity("length", "Optical path of the guide's arm less that of the reference").optional(),
  servo: absentOr(
    group("Servo of the bias", {
      range: quantity("angle", "Phase that the servo can add, plus or minus", notNegative).optional(),
      corner: quantity("frequency", "Frequency up to which the servo follows", notNegative).optional(),
    }),
  ),
  receiver: group("Receiver", {
    responsivity: quantity("responsivity", "Responsivity", positive).optional(),
    resistor: quantity("resistance", "Load resistor", positive).optional(),
    voltageNoise: quantity("voltageNoise", "Voltage noise", notNegative).optional(),
    currentNoise: quantity("currentNoise", "Current noise", notNegative).optional(),
    bandwidth: quantity("frequency", "Receiver bandwidth", positive).optional(),
    bits: number("Bits of the converter", positive).optional(),
    fullScale: quantity("voltage", "Full scale of the converter", positive).optional(),
    sampling: quantity("frequency", "Sampling rate", positive).optional(),
  }).optional(),
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
  film: absentOr(film),
  front: absentOr(front),
  back: absentOr(back),
  body: absentOr(body),
  readout: readout.optional(),
});

export { film as filmShape };

export type GuideFile = Of<typeof guide>;
export type MaterialFile = Of<typeof materialShape>;
export type EdgesFile = Of<typeof edges>;
export type FilmEdgesFile = Of<typeof filmEdges>;
