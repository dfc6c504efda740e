/** The files of a fit: bare ones, standard input, and records that the library keeps with a project on its shelf. */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import {
  answer,
  type BesideName,
  type FitOptions,
  finished,
  isContainer,
  type Outcome,
  type Problem,
  type Recipe,
  type RecordTable,
  readContainer,
  readRecord,
  refuse,
} from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";
import { namesShelf, readShelfRecord } from "./library.ts";

/** Where the bytes of a record lie. */
export type RecordPlace =
  | { readonly is: "file"; readonly path: string }
  | { readonly is: "shelf"; readonly project: string; readonly name: string };

/** Of a file that a project names: beside it, or in the library with it. */
export const placeBeside = (project: string, name: string): RecordPlace =>
  namesShelf(project)
    ? { is: "shelf", project, name }
    : { is: "file", path: resolve(dirname(project === "-" || project === "demo" ? "." : project), name) };

export async function bytesAt(place: RecordPlace): Promise<Outcome<Uint8Array>> {
  return place.is === "shelf" ? readShelfRecord(place.project, place.name) : readWhole(place.path);
}

export async function readTable(bytes: Uint8Array, recipe: Recipe | undefined): Promise<Outcome<RecordTable>> {
  return isContainer(bytes) ? readContainer(bytes, recipe) : finished(readRecord(bytes, recipe));
}

/** Further records of a fit, each read as it says itself. */
export async function readBeside(
  files: readonly (readonly [BesideName, RecordPlace])[],
): Promise<Outcome<NonNullable<FitOptions["beside"]>>> {
  const tables: [BesideName, RecordTable][] = [];
  const problems: Problem[] = [];
  const remarks: Problem[] = [];
  for (const [name, place] of files) {
    const bytes = await bytesAt(place);
    const table = bytes.ok ? await readTable(bytes.value, undefined) : bytes;
    const file = place.is === "file" ? place.path : place.name;
    const says = (found: readonly Problem[]) => found.map((one) => ({ ...one, message: `${file}: ${one.message}` }));
    if (table.ok) tables.push([name, table.value]);
    (table.ok ? remarks : problems).push(...says(table.ok ? table.remarks : table.problems));
  }
  return problems.length > 0 ? refuse(...problems) : answer(Object.fromEntries(tables), remarks);
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
