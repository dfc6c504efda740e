/** `glassdrum fit`: a record to values with uncertainty; a bare file, or a record of a project's specimen. */
import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { readFile, rename, stat, writeFile } from "node:fs/promises";
import { dirname, relative, resolve, sep } from "node:path";
import {
  againstKept,
  answer,
  type BesideName,
  type ExplainedFit,
  type FitOptions,
  finished,
  fitRecord,
  intoProject,
  isContainer,
  type Outcome,
  type Problem,
  projectBytes,
  type Recipe,
  type RecordTable,
  readContainer,
  readRecord,
  recordOf,
  refuse,
  remarksOfTable,
} from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";
import { fitLines, intoLine } from "../words/en/fit.ts";
import { type AskedFit, type FitCommandOptions, readFitOptions } from "./fitOptions.ts";
import { answerJson, answerLine, answerProblems, named } from "./print.ts";
import { obtainProject } from "./project.ts";
import { type Status, status } from "./status.ts";

/** Problems that lie in how the command was called. */
const wrongUse = new Set(["file-missing", "file-is-folder", "file-not-readable", "wrong-option", "record-unknown"]);

export async function fit(file: string, options: FitCommandOptions): Promise<Status> {
  const no = (problems: readonly Problem[]) => {
    answerProblems("fit", file, problems, options.json);
    return problems.some(({ code }) => wrongUse.has(code)) ? status.wrongUse : status.no;
  };
  const asked = readFitOptions(options);
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
  const table = await readTable(path, merged(record.value?.recipe, asked.value.recipe));
  if (!table.ok) return no(table.problems);
  const beside = await readBeside(asked.value.beside);
  if (!beside.ok) return no(beside.problems);
  const fitted = fitRecord({
    table: table.value,
    options: { ...record.value?.options, ...asked.value.options, beside: beside.value },
    project,
    excitation: record.value?.excitation ?? null,
    conditions: record.value?.conditions ?? null,
  });
  if (!fitted.ok) return no(fitted.problems);
  const kept = record.value === null ? [] : againstKept(record.value.readings, fitted.value.reading, record.value.path);
  const remarks = [
    ...remarksOfTable(table.remarks, fitted.value.reading.kind),
    ...record.remarks,
    ...beside.remarks,
    ...fitted.remarks,
    ...kept,
  ];
  const written = await writeInto(path, options, asked.value, table.value.recipe, fitted.value);
  if (!written.ok) return no(written.problems);
  if (options.json) answerJson({ ...asJson(fitted.value, table.value.recipe, remarks), into: written.value });
  else {
    answerLine(fitLines(named(path), fitted.value, remarks).join("\n"));
    if (written.value !== null) answerLine(intoLine(written.value));
  }
  return status.done;
}

async function readTable(path: string, recipe: Recipe | undefined): Promise<Outcome<RecordTable>> {
  const bytes = await readWhole(path);
  if (!bytes.ok) return bytes;
  return isContainer(bytes.value) ? readContainer(bytes.value, recipe) : finished(readRecord(bytes.value, recipe));
}

async function readBeside(files: AskedFit["beside"]): Promise<Outcome<NonNullable<FitOptions["beside"]>>> {
  const tables: [BesideName, RecordTable][] = [];
  const problems: Problem[] = [];
  const remarks: Problem[] = [];
  for (const [name, file] of files) {
    const table = await readTable(file, undefined);
    const says = (found: readonly Problem[]) => found.map((one) => ({ ...one, message: `${file}: ${one.message}` }));
    if (table.ok) tables.push([name, table.value]);
    (table.ok ? remarks : problems).push(...says(table.ok ? table.remarks : table.problems));
  }
  return problems.length > 0 ? refuse(...problems) : answer(Object.fromEntries(tables), remarks);
}

/** The fit as a record of a specimen in a project file; null where that was not asked for. */
async function writeInto(
  path: string,
  { into, specimen }: FitCommandOptions,
  asked: AskedFit,
  recipe: Recipe,
  { reading }: ExplainedFit,
): Promise<Outcome<{ readonly project: string; readonly specimen: string } | null>> {
  if (into === undefined) return answer(null);
  const no = (code: string, message: string) => refuse({ code, path: ["--into"], message });
  if (path === "-") return no("wrong-option", "A record from standard input has no file that a project could name.");
  if (into === "demo" || into === "-" || into.startsWith("shelf:"))
    return no("wrong-option", `Found "${into}"; needed: a project file (*.glassdrum.json) to write into.`);
  const obtained = await obtainProject(into, []);
  if (!obtained.ok) return refuse(...obtained.problems);
  const sha256 = createHash("sha256")
    .update(await readFile(path))
    .digest("hex");
  const file = relative(dirname(resolve(into)), resolve(path))
    .split(sep)
    .join("/");
  const changed = intoProject(obtained.project, {
    specimen: specimen ?? "",
    file,
    sha256,
    kind: reading.kind,
    recipe,
    ...(asked.use && { use: asked.use }),
    reading,
  });
  if (!changed.ok) return changed;
  try {
    // Whole or not at all: beside it first, then in its place.
    const beside = `${into}.${process.pid}.new`;
    await writeFile(beside, projectBytes(changed.value));
    await rename(beside, into);
  } catch (error) {
    return no("file-not-written", `${into} can't be written: ${reasonOf(error)}.`);
  }
  return answer({ project: into, specimen: specimen ?? "" });
}

/** The result without the curves: plain values only. */
function asJson(
  { reading, questions, explanation, response }: ExplainedFit,
  recipe: Recipe,
  remarks: readonly Problem[],
) {
  const { model: _, ...plain } = { model: null, ...reading };
  const list = (values: Float64Array) => Array.from(values);
  const found = response && {
    frequency: list(response.frequency),
    re: list(response.re),
    im: list(response.im),
    coherence: list(response.coherence),
    standard: list(response.standard),
    averages: response.averages,
  };
  return { ...plain, ...(found && { response: found }), recipe, explanation, questions, remarks };
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

/** What the command says wins over the project's recipe; nothing said at all leaves the file to speak for itself. */
function merged(kept: Recipe | undefined, said: Partial<Recipe>): Recipe | undefined {
  if (kept === undefined && Object.keys(said).length === 0) return undefined;
  return { columns: [], ...kept, ...said };
}
