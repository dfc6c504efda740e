/** `glassdrum fit`: a record to values with uncertainty; a bare file, or a record of a project's specimen. */
import {
  againstKept,
  answer,
  type ExplainedFit,
  fitRecord,
  type Problem,
  type Recipe,
  recordOf,
  remarksOfTable,
  type ToldOptions,
  toldKeys,
} from "../core/index.ts";
import { fitLines, intoLine } from "../words/en/fit.ts";
import { bytesAt, placeBeside, type RecordPlace, readBeside, readTable } from "./fitFiles.ts";
import { writeInto } from "./fitInto.ts";
import { type FitCommandOptions, readFitOptions } from "./fitOptions.ts";
import { namesShelf } from "./library.ts";
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
  const ofProject =
    /\.glassdrum\.json$/.test(file) || file === "demo" || namesShelf(file) || options.record !== undefined;
  const projectFile = ofProject ? file : options.project;
  const obtained = projectFile === undefined ? null : await obtainProject(projectFile, options.set);
  if (obtained !== null && !obtained.ok) {
    answerProblems("fit", file, obtained.problems, options.json);
    return obtained.status;
  }
  const project = obtained === null ? null : obtained.project;
  const record = ofProject && project !== null ? recordOf(project, options.record ?? null) : answer(null);
  if (!record.ok) return no(record.problems);
  // What the project says of its record, unless the command says otherwise.
  const asked = readFitOptions({ ...record.value?.told, ...options });
  if (!asked.ok) return no(asked.problems);
  const place: RecordPlace = record.value === null ? { is: "file", path: file } : placeBeside(file, record.value.file);
  const bytes = await bytesAt(place);
  if (!bytes.ok) return no(bytes.problems);
  const table = await readTable(bytes.value, merged(record.value?.recipe, asked.value.recipe));
  if (!table.ok) return no(table.problems);
  const places = new Map([
    ...(record.value?.beside ?? []).map(([name, one]) => [name, placeBeside(file, one)] as const),
    ...asked.value.beside.map(([name, path]) => [name, { is: "file", path } as const] as const),
  ]);
  const beside = await readBeside([...places]);
  if (!beside.ok) return no(beside.problems);
  const fitted = fitRecord({
    table: table.value,
    options: { ...record.value?.options, ...asked.value.options, beside: beside.value },
    project,
    excitation: asked.value.excitation ?? record.value?.excitation ?? null,
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
  const { reading } = fitted.value;
  const { use } = asked.value;
  const written =
    options.into === undefined
      ? answer(null)
      : await writeInto(options.into, place, bytes.value, {
          specimen: options.specimen ?? "",
          kind: options.kind ?? reading.kind,
          recipe: table.value.recipe,
          ...(use && { use }),
          ...(options.excitation !== undefined && { excitation: options.excitation }),
          told: toldOf(options),
          beside: asked.value.beside,
          reading,
        });
  if (!written.ok) return no(written.problems);
  if (options.json) answerJson({ ...asJson(fitted.value, table.value.recipe, remarks), into: written.value });
  else {
    answerLine(fitLines(named(place.is === "file" ? place.path : place.name), fitted.value, remarks).join("\n"));
    if (written.value !== null) answerLine(intoLine(written.value));
  }
  return status.done;
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

/** What a project can keep of what the command says. */
function toldOf(options: FitCommandOptions): ToldOptions {
  const typed = toldKeys.flatMap((key) => (options[key] === undefined ? [] : [[key, options[key]] as const]));
  return { ...Object.fromEntries(typed), ...(options.line && { line: options.line }) };
}

/** What the command says wins over the project's recipe; nothing said at all leaves the file to speak for itself. */
function merged(kept: Recipe | undefined, said: Partial<Recipe>): Recipe | undefined {
  if (kept === undefined && Object.keys(said).length === 0) return undefined;
  return { columns: [], ...kept, ...said };
}
