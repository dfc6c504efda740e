/** `glassdrum fit`: a record to values with uncertainty; a bare file, or a record of a project's specimen. */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import {
  answer,
  type ExplainedFit,
  type FitKind,
  type FitOptions,
  finished,
  fitKinds,
  fitRecord,
  isContainer,
  type Outcome,
  type Problem,
  type Recipe,
  readColumns,
  readContainer,
  readQuantity,
  readRecord,
  recordOf,
  refuse,
} from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";
import { fitLines } from "../words/en/fit.ts";
import { answerJson, answerLine, answerProblems, named } from "./print.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";

export interface FitCommandOptions {
  readonly kind?: string;
  readonly record?: string;
  readonly project?: string;
  readonly columns?: string;
  readonly sampling?: string;
  readonly decimal?: string;
  readonly separator?: string;
  readonly skipLines?: string;
  readonly channel?: string;
  readonly use?: string;
  readonly modes?: string;
  readonly near?: string;
  readonly curve?: string;
  readonly json: boolean;
  readonly set: readonly string[];
}

/** Problems that lie in how the command was called. */
const wrongUse = new Set(["file-missing", "file-is-folder", "file-not-readable", "wrong-option", "record-unknown"]);

export async function fit(file: string, options: FitCommandOptions): Promise<Status> {
  const no = (problems: readonly Problem[]) => {
    answerProblems("fit", file, problems, options.json);
    return problems.some(({ code }) => wrongUse.has(code)) ? status.wrongUse : status.no;
  };
  const asked = readOptions(options);
  if (!asked.ok) return no(asked.problems);
  const ofProject = /\.glassdrum\.json$/.test(file) || file === "demo" || options.record !== undefined;
  const projectFile = ofProject ? file : options.project;
  const obtained = projectFile === undefined ? null : await obtainProject(projectFile, options.set);
  if (obtained !== null && !obtained.ok) {
    answerProblems("fit", file, obtained.problems, options.json);
    return obtained.status;
  }
  const project = obtained === null ? null : obtained.project;
  const record = ofProject && project !== null ? recordOf(project, options.record ?? null) : answer(null);
  if (!record.ok) return no(record.problems);
  const path =
    record.value === null ? file : resolve(dirname(file === "-" || file === "demo" ? "." : file), record.value.file);
  const bytes = await readWhole(path);
  if (!bytes.ok) return no(bytes.problems);
  const recipe = merged(record.value?.recipe, asked.value.recipe);
  const table = isContainer(bytes.value)
    ? await readContainer(bytes.value, recipe)
    : finished(readRecord(bytes.value, recipe));
  if (!table.ok) return no(table.problems);
  const fitted = fitRecord({
    table: table.value,
    options: { ...record.value?.options, ...asked.value.options },
    project,
    excitation: record.value?.excitation ?? null,
    conditions: record.value?.conditions ?? null,
  });
  if (!fitted.ok) return no(fitted.problems);
  const remarks = [...table.remarks, ...record.remarks, ...fitted.remarks];
  if (options.json) answerJson(asJson(fitted.value, table.value.recipe, remarks));
  else answerLine(fitLines(named(path), table.value, fitted.value, remarks).join("\n"));
  return status.done;
}

/** The result without the curves: plain values only. */
function asJson({ reading, questions, explanation }: ExplainedFit, recipe: Recipe, remarks: readonly Problem[]) {
  const { model: _, ...plain } = reading;
  return { ...plain, recipe, explanation, questions, remarks };
}

async function readWhole(file: string): Promise<Outcome<Uint8Array>> {
  const no = (code: string, message: string) => refuse({ code, path: [], message });
  if (file !== "-") {
    try {
      if ((await stat(file)).isDirectory()) return no("file-is-folder", `${file} is a folder; name the record in it.`);
    } catch (error) {
      const code = systemCode(error);
      return code === "ENOENT" || code === "ENOTDIR"
        ? no("file-missing", `There is no file ${file}.`)
        : no("file-not-readable", `${file} can't be read: ${reasonOf(error)}.`);
    }
  }
  const chunks: Buffer[] = [];
  try {
    for await (const chunk of (file === "-" ? process.stdin : createReadStream(file)) as AsyncIterable<Buffer>)
      chunks.push(chunk);
  } catch (error) {
    return no("file-not-readable", `${file} can't be read: ${reasonOf(error)}.`);
  }
  return answer(Buffer.concat(chunks));
}

interface Asked {
  readonly recipe: Partial<Recipe>;
  readonly options: FitOptions;
}

function readOptions(given: FitCommandOptions): Outcome<Asked> {
  const problems: Problem[] = [];
  const wrong = (option: string, found: string, needed: string) =>
    problems.push({ code: "wrong-option", path: [option], message: `Found "${found}"; needed: ${needed}.` });
  const taken = <T>(option: string, outcome: Outcome<T>): T | undefined => {
    if (outcome.ok) return outcome.value;
    for (const { message } of outcome.problems) problems.push({ code: "wrong-option", path: [option], message });
    return undefined;
  };
  const whole = (option: string, text: string | undefined) => {
    if (text === undefined) return undefined;
    if (!/^\d{1,6}$/.test(text)) wrong(option, text, "a whole number");
    return Number(text);
  };
  const kind = given.kind as FitKind | undefined;
  if (kind !== undefined && !fitKinds.includes(kind)) wrong("--kind", kind, fitKinds.join(", "));
  if (given.decimal !== undefined && given.decimal !== "." && given.decimal !== ",")
    wrong("--decimal", given.decimal, '"." or ","');
  const columns = given.columns === undefined ? undefined : taken("--columns", readColumns(given.columns));
  if (given.sampling !== undefined) taken("--sampling", readQuantity(given.sampling, "frequency", ["--sampling"]));
  const near =
    given.near === undefined ? undefined : taken("--near", readQuantity(given.near, "frequency", ["--near"]));
  const part = given.use === undefined ? undefined : readPart(given.use, wrong);
  const curve = given.curve === undefined ? undefined : readEnds(given.curve, taken, wrong);
  const [channel, modes, skipLines] = [
    whole("--channel", given.channel),
    whole("--modes", given.modes),
    whole("--skip-lines", given.skipLines),
  ];
  if (problems.length > 0) return refuse(...problems);
  return answer({
    recipe: {
      ...(columns && { columns }),
      ...(given.decimal !== undefined && { decimal: given.decimal as "." | "," }),
      ...(given.separator !== undefined && { separator: given.separator }),
      ...(given.sampling !== undefined && { sampling: given.sampling }),
      ...(skipLines !== undefined && { skipLines }),
    },
    options: {
      ...(kind !== undefined && { kind }),
      ...(channel !== undefined && { channel: channel - 1 }),
      ...(modes !== undefined && { modes }),
      ...(near !== undefined && { near }),
      ...(curve && { calibration: curve }),
      ...part,
    },
  });
}

type Wrong = (option: string, found: string, needed: string) => void;

/** "1 ms to 9 ms", "500 Hz to 2 kHz". */
function readPart(text: string, wrong: Wrong): { readonly from?: number; readonly to?: number } {
  const ends = text.split(/\s*(?:\bto\b|\.\.|;)\s*/);
  const read = ends.map((end) =>
    ["time", "frequency", "length"].map((kind) => readQuantity(end, kind as "time", ["--use"])).find(({ ok }) => ok),
  );
  const values = read.map((one) => (one?.ok ? one.value : undefined));
  if (values.length !== 2 || values.some((value) => value === undefined))
    wrong("--use", text, 'a part of the axis, such as "1 ms to 9 ms" or "15 kHz to 22 kHz"');
  return { ...(values[0] !== undefined && { from: values[0] }), ...(values[1] !== undefined && { to: values[1] }) };
}

function readEnds(text: string, taken: <T>(option: string, outcome: Outcome<T>) => T | undefined, wrong: Wrong) {
  const ends = text.split(/\s*(?:\bto\b|;)\s*/);
  const [low, high] = ends.map((end) => taken("--curve", readQuantity(end, "voltage", ["--curve"])));
  if (ends.length !== 2) wrong("--curve", text, 'the lowest and highest output, such as "0.12 V to 1.94 V"');
  return low === undefined || high === undefined ? undefined : { low, high };
}

/** What the command says wins over the project's recipe; nothing said at all leaves the file to speak for itself. */
function merged(kept: Recipe | undefined, said: Partial<Recipe>): Recipe | undefined {
  if (kept === undefined && Object.keys(said).length === 0) return undefined;
  return { columns: [], ...kept, ...said };
}
