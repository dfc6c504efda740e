/** What the Bench says. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { Prediction } from "../../core/tasks/predict/prediction.ts";
import { asGiven } from "../asGiven.ts";
import { dampingRatioText } from "../dampingRatioText.ts";

/** A number of the page: what it is called, where it stands in the prediction, how it is written, and a line about it. */
export interface BenchNumber {
  readonly label: string;
  /** Path in `predict --json`: "resonance.frequency". Two for a range. */
  readonly values: readonly { readonly key: string; readonly value: number | null; readonly text: string }[];
  /** Before and between the values. */
  readonly before?: string;
  readonly joint: string;
  readonly unit: string;
  readonly context: string;
  /** Key of its card. */
  readonly card: string;
}

export const benchWords = {
  save: "Save as file",
  untitled: "A microphone without a title",
  met: "met:",
  notMet: "not met:",
  paper: "Paper",
  papers: { system: "as the system", light: "light", dark: "dark" },
  computing: "Computing…",
  old: "Old numbers: they belong to the last values that could be computed. Mend what is marked and they follow.",
  noAnswer: "No answer yet: the project has problems, named below.",
  problems: "Problems",
  remarks: "Remarks",
  cards: "Where the numbers come from",
  noRemarks: "None: every value lies within what the formulas hold for.",
  values: "Values",
  valuesHint: "touch a part, or choose one",
  response: "Response",
  responseHint: "phase per pressure over frequency",
  responseLevel: "Level of the response over frequency",
  responsePhase: "Phase of the response over frequency",
  time: "In time",
  timeHint: "after a tone at the resonance stops, and after a step of pressure",
  ringDown: "Ring-down",
  step: "Step",
  scan: "Guide position",
  scanHint: "the plate alone, static",
  damping: "Damping against gap",
  dampingHint: "everything else as it is",
  straight: "Phase against pressure",
  straightHint: "slow against the resonance: stretch bends it one way, stiffening both",
  progress: (done: number, of: number) => `${done} of ${of} computed`,
  chartKeys: "Arrow keys read it, plus and minus zoom, zero shows all.",
  wholeChart: "show all",
  section: "Section",
  sectionHint: (
    raised: number,
    cut: boolean,
    pressure: { readonly value: number; readonly from: "load" | "site" } | null,
  ) =>
    [
      raised === 1 ? "heights to scale" : `sheet and film ${raised} times as high`,
      ...(cut ? ["plates and cavities cut short"] : []),
      pressure === null
        ? "deflection as a shape only"
        : `bent as under ${formatQuantity(pressure.value, "pressure", { digits: 2 })}${pressure.from === "site" ? "" : ""}`,
    ].join("; "),
  touches: "Under this pressure the sheet touches the wall behind it, as far as small deflections tell.",
  hole: "hole",
  holes: "holes",
  cavity: "cavity",
  vent: "vent",
  leak: "leak",
  bodyShape: (shape: string) => (shape === "cylinder" ? "cylinder" : "sphere"),
  optionalParts: "Parts of the microphone",
  addPart: "add:",
  takeAway: "take away:",
  noPart: "Not there. Its word under the drawing adds it.",
  partNames: {
    body: "body",
    front: "front plate",
    layer: "layer on the sheet",
    frame: "frame of another glass",
    film: "air film",
    backPlate: "holes in the wall",
    backCavity: "back cavity",
    vent: "vent",
    leak: "leak in the bond",
  },
  wholeBack: "back",
  partAdded: (part: string): string => `${part} added`,
  partTaken: (part: string): string => `${part} taken away`,
  layerMaterial: (number: number) => `Layer ${number}, material`,
  layerThickness: (number: number) => `Layer ${number}, thickness`,
  layerStress: (number: number) => `Layer ${number}, stress`,
  plan: "Plan",
  planHint: (front: boolean) =>
    `from the side of the sound, to scale${front ? "; front plate taken off, its holes dashed" : ""}`,
  thick: "thick",
  gap: "gap",
  across: "across",
  along: "along",
  guideAt: "guide at",
  otherFace: "turn to the other face",
  toggles: "Edges and face",
  sides: "sides",
  ends: "ends",
  filmSides: "film at the sides",
  filmEnds: "film at the ends",
  guideFace: "guide in face",
  makeIt: "make it",
  parts: "Part to look at",
  openCard: "formula, inputs, source",
  close: "close",
  dependsComputing: (step: { readonly done: number; readonly of: number } | null): string =>
    `Computing what it depends on most${step === null ? "" : `: ${step.done} of ${step.of} values`}…`,
  open: "Open file",
  opened: "as opened",
  openedFile: "opened",
  notOpened: "Not opened:",
  undo: "Undo",
  redo: "Redo",
  past: "Earlier",
  table: "As a table",
  brief: "Brief",
  unasked: "Nothing is asked of it yet.",
  toBrief: "to the brief",
  notComputed: "Not computed yet",
  inShort: (met: number, open: number) => `${met} met${open > 0 ? `, ${open} not computed yet` : ""}`,
  unreadable: "This project can't be opened",
  mend: "What is named here has to be mended in the file; then load this page again. `glassdrum open` without a file begins with the demo.",
  noServer: "The project can't be read from Glassdrum's server",
  reload: "Start `glassdrum open` again and load this page anew.",
  none: "none",
  emptyFilm: "no film",
  groups: {
    diaphragm: "Diaphragm",
    guide: "Guide",
    film: "Air film",
    front: "Front",
    back: "Back",
    frame: "Frame",
    body: "Body",
    air: "Air",
    light: "Light",
  },
  words: {
    material: "Material",
    "edges.sides": "Sides",
    "edges.ends": "Ends",
    face: "Face",
    "film.edges.sides": "Film at the sides",
    "film.edges.ends": "Film at the ends",
    ends: "Ends of the hole",
    volume: "Cavity volume",
    surface: "Cavity wall area",
    ventShape: "Shape of the vent",
    exposed: "Sound reaches the vent",
    from: "Leak comes from",
    bodyShape: "Shape of the body",
  },
  oneHole: {
    diameter: "Hole diameter",
    length: "Hole length",
    at: ["Hole, across from the middle", "Hole, along from the middle"],
    ends: "Ends of the hole",
  },
  holeNumber: (number: number) => ({
    diameter: `Hole ${number}: diameter`,
    length: `Hole ${number}: length`,
    at: [`Hole ${number}: across`, `Hole ${number}: along`] as const,
    ends: `Hole ${number}: ends`,
  }),
  frontHoles: (count: number) => `front plate with ${count === 1 ? "one hole" : `${count} holes`}`,
  addHole: "add a hole",
  takeHole: (number: number) => `take away hole ${number}`,
  wall: { label: "Wall behind", none: "without holes", holes: "many holes", hole: "one hole", other: "an admittance" },
  elastic: "elastic",
  glued: "glued",
  edgeStiffness: (of: string) => `${of || "All edges"}: stiffness against rotation`,
  bondThickness: (of: string) => `${of || "All edges"}: thickness of the glue`,
  bondModulus: (of: string) => `${of || "All edges"}: modulus of the glue`,
  bondOverlap: (of: string) => `${of || "All edges"}: overlap on the frame`,
  longOverlap: "long",
  ownMaterial: "values of its own",
} as const;

const thinSpace = /\u202f/;

/** Number and unit apart: ["759", "µrad/Pa"]. */
function split(text: string): [string, string] {
  const [number = "", unit = ""] = text.split(thinSpace);
  return [number, unit];
}

/** The few big numbers, in the order of the page. */
export function benchNumbers({ sensitivity, resonance, decays, band, film }: Prediction): readonly BenchNumber[] {
  const level = split(formatQuantity(sensitivity.magnitude, "phaseSensitivity", { digits: 3 }));
  const at = asGiven(sensitivity.frequency, "frequency");
  const plate = formatQuantity(sensitivity.static, "phaseSensitivity", { digits: 3 });
  const resonating = split(formatQuantity(resonance.frequency, "frequency", { digits: 3 }));
  const slowest = decays[0];
  const best = split(formatQuantity(sensitivity.best.at, "length", { digits: 4 }));
  return [
    {
      label: "Sensitivity",
      card: "response",
      values: [{ key: "sensitivity.magnitude", value: sensitivity.magnitude, text: level[0] }],
      joint: "",
      unit: level[1],
      context: `at ${at}; static ${plate}`,
    },
    {
      label: "Resonance",
      card: "resonance",
      values: [{ key: "resonance.frequency", value: resonance.frequency, text: resonating[0] }],
      joint: "",
      unit: resonating[1],
      context: resonance.overdamped
        ? `does not ring; slowest decay ${formatNumber(slowest?.rate ?? null, { digits: 3 })} 1/s`
        : film === null
          ? "without an air film"
          : "with its air film",
    },
    {
      label: "Damping ratio",
      card: "resonance",
      values: [
        {
          key: "resonance.dampingRatio",
          value: resonance.dampingRatio,
          text: dampingRatioText(resonance.dampingRatio),
        },
      ],
      joint: "",
      unit: "",
      context: dampingContext(resonance),
    },
    bandNumber(band),
    {
      label: "Best guide position",
      card: "bestGuide",
      values: [{ key: "sensitivity.best.at", value: sensitivity.best.at, text: best[0] }],
      joint: "",
      unit: best[1],
      context: `static ${formatQuantity(sensitivity.best.value, "phaseSensitivity", { digits: 3 })}`,
    },
  ];
}

function dampingContext({ dampingRatio, overdamped }: Prediction["resonance"]): string {
  if (dampingRatio === null) return "nothing oscillates";
  return overdamped ? "of two real poles" : "of the pole";
}

/** "50.0 Hz to 6.18 kHz"; an edge that was not found has an empty text, and the line below says so. */
function bandNumber({ from, to, within }: Prediction["band"]): BenchNumber {
  const low = from === null ? ["", ""] : split(formatQuantity(from, "frequency", { digits: 3 }));
  const high = to === null ? ["", ""] : split(formatQuantity(to, "frequency", { digits: 3 }));
  const sameUnit = low[1] === high[1];
  const missing = [...(from === null ? ["no lower edge"] : []), ...(to === null ? ["no upper edge"] : [])];
  return {
    label: "Band",
    card: "band",
    before: from === null ? (to === null ? "no edge" : "up to ") : to === null ? "from " : "",
    values: [
      { key: "band.from", value: from, text: sameUnit || from === null ? (low[0] ?? "") : low.join("\u202f") },
      { key: "band.to", value: to, text: high[0] ?? "" },
    ],
    joint: from === null || to === null ? "" : " to ",
    unit: high[1] ?? "",
    context: [`within ±${asGiven(within, "decibel")}`, ...missing].join(", "),
  };
}

/** "viscous, with inertia" and the numbers that say so. */
export function filmWords(film: NonNullable<Prediction["film"]>): { readonly names: string; readonly numbers: string } {
  const number = (value: number) => formatNumber(value, { digits: 2 });
  return {
    names: film.names.join(", "),
    numbers: `at ${formatQuantity(film.frequency, "frequency", { digits: 2 })}: squeeze number ${number(film.squeezeNumber)}, gap ${number(film.gapOverViscousLayer)} viscous layers, Knudsen number ${number(film.knudsen)}`,
  };
}

/** How well the answer is resolved. */
export function resolutionWords({ functions, filmTerms, change }: Prediction["resolution"]): string {
  return `Computed with ${functions} plate functions and ${filmTerms} film terms a direction; refining changes the response by ${formatNumber(change, { digits: 1 })}.`;
}
