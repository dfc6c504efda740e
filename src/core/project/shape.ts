/** The shape of a project file: the one definition that validates, that paths follow, and that the JSON Schema is made from. */
import { isUnit } from "../quantity/read.ts";
import {
  anyQuantity,
  constant,
  flag,
  group,
  list,
  notNegative,
  number,
  pair,
  positive,
  type QuantityText,
  quantity,
  ratio,
  share,
  shown,
  text,
  word,
} from "./fields.ts";
import { airShape, materialShape } from "./materialShape.ts";
import { measured } from "./measured.ts";
import { filmShape, microphoneShape } from "./microphoneShape.ts";
import { Anything, Dictionary, type Of } from "./schema.ts";

export const formatName = "glassdrum-project";
/** The version that this program writes; newer ones are refused. */
export const formatVersion = 1;

const must = flag("Whether the requirement may not be traded").optional();
const frequency = (label: string) => quantity("frequency", label, positive).optional();
const level = (label: string) => quantity("soundLevel", label, positive).optional();

const briefShape = group("Brief", {
  band: group("Band", {
    from: frequency("Lower end of the band"),
    to: frequency("Upper end of the band"),
    within: quantity("decibel", "Flatness, plus or minus", positive).optional(),
    must,
  }).optional(),
  sensitivity: group("Sensitivity", {
    atLeast: quantity("phaseSensitivity", "Least sensitivity", positive).optional(),
    at: frequency("Frequency of the sensitivity"),
    must,
  }).optional(),
  damping: group("Damping", {
    atLeast: ratio("Least damping ratio", notNegative).optional(),
    atMost: ratio("Largest damping ratio", positive).optional(),
    must,
  }).optional(),
  noise: group("Noise", { atMost: level("Largest A-weighted noise level"), must }).optional(),
  loudest: group("Loudest sound", {
    atLeast: level("Loudest sound to be told"),
    distortion: ratio("Distortion at the loudest sound", { above: 0, atMost: 1 }, "fraction").optional(),
    at: frequency("Frequency of the loudest sound"),
    must,
  }).optional(),
  vibration: group("Vibration", { atMost: level("Largest level that reads as 1 m/s2"), must }).optional(),
  strength: group("Strength", { atLeast: number("Least safety factor", positive).optional(), must }).optional(),
  site: group("Site", {
    temperature: pair("Temperature on site", quantity("temperature", "Temperature on site", positive)).optional(),
    pressure: pair("Pressure on site", quantity("pressure", "Pressure on site", positive)).optional(),
    humidity: pair("Humidity on site", ratio("Humidity on site", share, "fraction")).optional(),
    staticOverpressure: quantity("pressure", "Static overpressure").optional(),
    rise: quantity("time", "Rise time of the static overpressure", positive).optional(),
    precautions: list("Precautions", text("Precaution")).optional(),
  }).optional(),
});

const prior = group("Prior", {
  kind: text("Kind of prior").optional(),
  between: pair("Ends of the prior", anyQuantity("End of the prior")).optional(),
  mean: anyQuantity("Mean of the prior").optional(),
  standard: anyQuantity("Standard deviation of the prior").optional(),
});

const tolerance = group("Tolerance", {
  path: text("Path of the value").optional(),
  kind: word("Kind of tolerance", "normal", "uniform", "triangular").optional(),
  standard: anyQuantity("Standard deviation").optional(),
  half: anyQuantity("Half width").optional(),
  costOfHalving: number("Cost of halving the tolerance", notNegative).optional(),
  together: list("Paths that vary together", text("Path of a value")).optional(),
  correlation: number("Correlation", { atLeast: -1, atMost: 1 }).optional(),
});

const choice = group("Choice", {
  path: text("Path of the value").optional(),
  from: list("Values to choose from", new Anything()).optional(),
  between: pair("Ends of the choice", anyQuantity("End of the choice")).optional(),
});

const unitText = text("Unit", (unit) =>
  unit === "" || isUnit(unit) ? null : `Found ${shown(unit)}, which is not a unit known here.`,
);

const record = group("Record", {
  id: text("Short name of the record").optional(),
  kind: text("Kind of record").optional(),
  file: text("File of the record").optional(),
  sha256: text("Hash of the file").optional(),
  taken: text("Day of the record").optional(),
  conditions: group("Conditions", {
    air: airShape.optional(),
    film: filmShape.nullable().optional(),
    excitation: level("Excitation"),
  }).optional(),
  recipe: group("How the file is read", {
    columns: list(
      "Columns",
      group("Column", {
        index: number("Number of the column, from 0", notNegative).optional(),
        is: text("What the column holds").optional(),
        unit: unitText.optional(),
      }),
    ).optional(),
    decimal: word("Decimal sign", ".", ",").optional(),
    skipLines: number("Lines to skip", notNegative).optional(),
    separator: text("What parts the cells").optional(),
    group: text("Mark between groups of three digits").optional(),
    sampling: quantity("frequency", "Samples a second, where no column holds the time").optional(),
    dataset: text("Data set of a container").optional(),
    use: group("Part to use", { from: anyQuantity("Start").optional(), to: anyQuantity("End").optional() }).optional(),
  }).optional(),
  calibration: text("Calibration of the record").optional(),
  beside: group("Further records that the fit takes", {
    reference: text("File of the reference in the microphone's place").optional(),
    calibrator: text("File of the reference in its calibrator").optional(),
    dark: text("File with light blocked").optional(),
    oneMode: text("File with one mode launched").optional(),
    minus: text("File with the bias at -90 degrees").optional(),
    plugged: text("File with the hole plugged").optional(),
    fieldOff: text("File with the site field off").optional(),
    fieldOn: text("File with the site field on").optional(),
  }).optional(),
  fit: group("What the fit is told", {
    level: text("Level in the calibrator").optional(),
    reference: text("Sensitivity of the reference").optional(),
    coupler: text("Volume of the coupler, and what the microphone adds").optional(),
    ambient: text("Static pressure at the measurement").optional(),
    line: list("Lines of the budget", text("Line of the budget")).optional(),
    lightShare: text("Mean output of one mode over that of both").optional(),
    near: text("About where the resonance or the tone lies").optional(),
    gate: text("Time after the arrival that is kept").optional(),
    at: text("Setting of the sweep at which the slope is wanted").optional(),
    formula: text("Formula").optional(),
    start: text("Where the parameters of the formula begin").optional(),
  }).optional(),
  readings: new Dictionary(
    group("Reading", {
      value: anyQuantity("Reading").optional(),
      standard: anyQuantity("Standard uncertainty").optional(),
      by: text("How it was read").optional(),
    }),
  ).optional(),
});

const specimen = group("Specimen", {
  id: text("Short name of the specimen").optional(),
  name: text("Name of the specimen").optional(),
  design: text("Design that it was made to").optional(),
  made: measured(microphoneShape).optional(),
  free: list(
    "Values that may be adjusted",
    group("Free value", { path: text("Path in microphone").optional(), prior: prior.optional() }),
  ).optional(),
  records: list("Records", record).optional(),
});

const calibration = group("Calibration", {
  id: text("Short name of the calibration").optional(),
  kind: text("Kind of calibration").optional(),
  low: quantity("voltage", "Lowest output").optional(),
  high: quantity("voltage", "Highest output").optional(),
  standard: quantity("voltage", "Standard uncertainty of the output", notNegative).optional(),
  level: level("Level of the calibrator"),
  tolerance: quantity("decibel", "Tolerance of the level", notNegative).optional(),
  at: frequency("Frequency of the calibrator"),
});

export const projectShape = group("Glassdrum project", {
  format: constant(formatName),
  version: constant(formatVersion),
  title: text("Title").optional(),
  notes: text("Notes").optional(),
  brief: briefShape.optional(),
  air: airShape.optional(),
  materials: new Dictionary(materialShape).optional(),
  microphone: microphoneShape.optional(),
  tolerances: list("Tolerances", tolerance).optional(),
  choices: list("Choices", choice).optional(),
  kept: list(
    "Kept designs",
    group("Kept design", { name: text("Name").optional(), changes: new Dictionary(new Anything()).optional() }),
  ).optional(),
  specimens: list("Specimens", specimen).optional(),
  calibrations: list("Calibrations", calibration).optional(),
  workshop: group("Workshop", {
    revision: text("Revision").optional(),
    sheet: text("Size of the sheet").optional(),
    general: text("General tolerance").optional(),
  }).optional(),
});

/** A project as its file says it: physical values are text. */
export type ProjectFile = Of<typeof projectShape>;

/** The same with every physical value as a number in SI. */
export type InSi<T> = T extends QuantityText
  ? number
  : T extends string | number | boolean | null | undefined
    ? T
    : T extends object
      ? { readonly [K in keyof T]: InSi<T[K]> }
      : T;
