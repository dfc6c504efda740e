/** Options of `glassdrum fit` as a person writes them, to what the fit takes. */
import {
  answer,
  type BesideName,
  besideNames,
  type FitKind,
  type FitOptions,
  fitKinds,
  type Outcome,
  type Problem,
  type Recipe,
  readBudgetLine,
  readColumns,
  readQuantity,
  readSensitivityText,
  readStart,
  refuse,
} from "../core/index.ts";

export interface FitCommandOptions {
  readonly kind?: string;
  readonly record?: string;
  readonly project?: string;
  readonly columns?: string;
  readonly sampling?: string;
  readonly decimal?: string;
  readonly separator?: string;
  readonly skipLines?: string;
  readonly dataset?: string;
  readonly channel?: string;
  readonly use?: string;
  readonly during?: string;
  readonly modes?: string;
  readonly near?: string;
  readonly width?: string;
  readonly gate?: string;
  readonly curve?: string;
  readonly at?: string;
  readonly turn?: string;
  readonly reference?: string;
  readonly level?: string;
  readonly excitation?: string;
  readonly coupler?: string;
  readonly ambient?: string;
  readonly line?: readonly string[];
  readonly repeats?: string;
  readonly lightShare?: string;
  readonly beside?: readonly string[];
  readonly degree?: string;
  readonly throughZero?: boolean;
  readonly formula?: string;
  readonly start?: string;
  readonly into?: string;
  readonly specimen?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

export interface AskedFit {
  readonly recipe: Partial<Recipe>;
  readonly options: FitOptions;
  /** Files that the fit takes beside its own. */
  readonly beside: readonly (readonly [BesideName, string])[];
  /** Sound pressure of the tone before a ring-down, root mean square [Pa]; null: not said. */
  readonly excitation: number | null;
  /** As typed: "1 ms". */
  readonly use: { readonly from: string; readonly to: string } | null;
}

/** Static pressure of a calibrator's certificate [Pa]. Source: [iec-60942]. */
const certificatePressure = 101_325;

/** Problems: `wrong-option` for each that can't be read. */
export function readFitOptions(given: FitCommandOptions): Outcome<AskedFit> {
  const problems: Problem[] = [];
  const wrong = (option: string, found: string, needed: string) => {
    problems.push({ code: "wrong-option", path: [option], message: `Found "${found}"; needed: ${needed}.` });
  };
  const taken = <T>(option: string, outcome: Outcome<T>): T | undefined => {
    if (outcome.ok) return outcome.value;
    for (const { message } of outcome.problems) problems.push({ code: "wrong-option", path: [option], message });
    return undefined;
  };
  const read = <T>(option: string, text: string | undefined, reader: (text: string, option: string) => Outcome<T>) =>
    text === undefined ? undefined : taken(option, reader(text, option));
  const quantity = (kind: Parameters<typeof readQuantity>[1]) => (text: string, option: string) =>
    readQuantity(text, kind, [option]);
  const whole = (option: string, text: string | undefined) => {
    if (text === undefined) return undefined;
    if (!/^\d{1,6}$/.test(text)) wrong(option, text, "a whole number");
    return Number(text);
  };
  const kind = given.kind as FitKind | undefined;
  if (kind !== undefined && !fitKinds.includes(kind)) wrong("--kind", kind, fitKinds.join(", "));
  if (given.decimal !== undefined && given.decimal !== "." && given.decimal !== ",")
    wrong("--decimal", given.decimal, '"." or ","');
  const columns = read("--columns", given.columns, readColumns);
  read("--sampling", given.sampling, quantity("frequency"));
  const part = given.use === undefined ? null : readPart(given.use, "--use", wrong);
  const during = given.during === undefined ? null : readPart(given.during, "--during", wrong);
  const curve = given.curve === undefined || given.curve === "free" ? given.curve : readEnds(given.curve, taken, wrong);
  const channel = whole("--channel", given.channel);
  const ambient = read("--ambient", given.ambient, quantity("pressure"));
  const coupler = given.coupler === undefined ? undefined : readCoupler(given.coupler, taken, wrong);
  const lines = (given.line ?? []).map((text) => taken("--line", readBudgetLine(text, "--line")));
  const beside = (given.beside ?? []).flatMap((text): (readonly [BesideName, string])[] => {
    const [name = "", ...file] = text.split("=");
    const is = besideNames.find((one) => one === name.trim());
    if (is !== undefined && file.length > 0) return [[is, file.join("=")]];
    wrong("--beside", text, `what it is and its file, such as "minus=bias-90.wav"; one of ${besideNames.join(", ")}`);
    return [];
  });
  const excitation = read("--excitation", given.excitation, quantity("soundLevel")) ?? null;
  const options = {
    kind,
    channel: channel === undefined ? undefined : channel - 1,
    modes: whole("--modes", given.modes),
    near: read("--near", given.near, quantity("frequency")),
    width: read("--width", given.width, quantity("frequency")),
    gate: read("--gate", given.gate, quantity("time")),
    calibration: curve,
    at: given.at === undefined ? undefined : readSetting(given.at, wrong),
    turn: read("--turn", given.turn, readTurn),
    referenceSensitivity: read("--reference", given.reference, readSensitivityText),
    pressure: read("--level", given.level, quantity("soundLevel")),
    ambient: ambient === undefined ? undefined : ambient / certificatePressure,
    coupler,
    lines: lines.length === 0 ? undefined : Object.assign({}, ...lines),
    repeats: whole("--repeats", given.repeats),
    lightShare: read("--light-share", given.lightShare, quantity("fraction")),
    degree: whole("--degree", given.degree),
    throughZero: given.throughZero,
    formula: given.formula,
    start: read("--start", given.start, readStart),
    from: part?.ends[0],
    to: part?.ends[1],
    since: during?.ends[0],
    until: during?.ends[1],
  };
  const recipe = {
    columns,
    decimal: given.decimal as "." | "," | undefined,
    separator: given.separator,
    sampling: given.sampling,
    skipLines: whole("--skip-lines", given.skipLines),
    dataset: given.dataset,
  };
  if (problems.length > 0) return refuse(...problems);
  return answer({
    recipe: said(recipe) as Partial<Recipe>,
    options: said(options) as FitOptions,
    beside,
    excitation,
    use: part?.typed ?? null,
  });
}

const said = (values: object) => Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));

type Wrong = (option: string, found: string, needed: string) => void;
type Taken = <T>(option: string, outcome: Outcome<T>) => T | undefined;

/** "1 ms to 9 ms", "500 Hz to 2 kHz". */
function readPart(text: string, option: "--use" | "--during", wrong: Wrong) {
  const [from = "", to = "", ...more] = text.split(/\s*(?:\bto\b|\.\.|;)\s*/);
  const ends = [from, to].map((end) => {
    const kinds = option === "--use" ? (["time", "frequency", "length", "number"] as const) : (["time"] as const);
    const read = kinds.map((kind) => readQuantity(end, kind, [option]));
    const good = read.find(({ ok }) => ok);
    return good?.ok ? good.value : undefined;
  });
  if (more.length > 0 || ends.some((end) => end === undefined))
    wrong(option, text, 'a part of the axis, such as "1 ms to 9 ms" or, of --use, "15 kHz to 22 kHz"');
  return { ends, typed: { from, to } };
}

function readEnds(text: string, taken: Taken, wrong: Wrong) {
  const ends = text.split(/\s*(?:\bto\b|;)\s*/);
  const [low, high] = ends.map((end) => taken("--curve", readQuantity(end, "voltage", ["--curve"])));
  if (ends.length !== 2) wrong("--curve", text, 'the lowest and highest output, such as "0.12 V to 1.94 V", or "free"');
  return low === undefined || high === undefined ? undefined : { low, high };
}

/** "2 cm^3 + 0.1 cm^3": the coupler and what the microphone adds. */
function readCoupler(text: string, taken: Taken, wrong: Wrong) {
  const parts = text.split(/\s*\+\s*/);
  const [volume, added] = parts.map((part) => taken("--coupler", readQuantity(part, "volume", ["--coupler"])));
  if (parts.length !== 2 || (volume !== undefined && !(volume > 0)))
    wrong("--coupler", text, 'the coupler\'s volume and what the microphone adds, such as "2 cm^3 + 0.1 cm^3"');
  return volume === undefined || added === undefined ? undefined : { volume, added };
}

/** A setting of a sweep: "23 degC", "633 nm", "90 deg", or a plain number of a compensator. */
function readSetting(text: string, wrong: Wrong): number | undefined {
  for (const kind of ["angle", "temperature", "length", "number"] as const) {
    const read = readQuantity(text, kind, ["--at"]);
    if (read.ok) return read.value;
  }
  wrong("--at", text, 'a setting of the sweep, such as "90 deg", "23 degC" or "633 nm"');
  return undefined;
}

/** "2" or "0.83 1/K": radians per unit of the axis, in SI. */
function readTurn(text: string, option: string): Outcome<number> {
  for (const kind of ["number", "perKelvin"] as const) {
    const read = readQuantity(text, kind, [option]);
    if (read.ok) return read;
  }
  return refuse({
    code: "wrong-option",
    path: [option],
    message: `Found "${text}"; needed: radians per unit of the sweep in SI, such as 2 for an analyzer or "0.83 1/K".`,
  });
}
