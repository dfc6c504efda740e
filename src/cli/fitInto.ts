/** `fit --into`: the fit as a record of a specimen, in a project file or in a project on the shelf. */
import { createHash } from "node:crypto";
import { readFile, rename, writeFile } from "node:fs/promises";
import { basename, dirname, relative, resolve, sep } from "node:path";
import {
  answer,
  type BesideName,
  intoProject,
  type NewReading,
  type Outcome,
  projectBytes,
  projectText,
  refuse,
} from "../core/index.ts";
import { reasonOf } from "../words/en/fileErrors.ts";
import type { RecordPlace } from "./fitFiles.ts";
import { changeOnShelf, namesShelf } from "./library.ts";
import { obtainProject } from "./project.ts";

export interface Written {
  readonly project: string;
  readonly specimen: string;
}

const no = (code: string, message: string) => refuse({ code, path: ["--into"], message });

/** Problems: `wrong-option`, `file-not-written`, those of `intoProject`, of the project and of the library. */
export async function writeInto(
  into: string,
  place: RecordPlace,
  bytes: Uint8Array,
  {
    beside,
    ...reading
  }: Omit<NewReading, "file" | "sha256" | "beside"> & {
    readonly beside: readonly (readonly [BesideName, string])[];
  },
): Promise<Outcome<Written>> {
  const from = place.is === "file" ? place.path : place.name;
  if (from === "-") return no("wrong-option", "A record from standard input has no file that a project could name.");
  if (into === "demo" || into === "-")
    return no(
      "wrong-option",
      `Found "${into}"; needed: a project file (*.glassdrum.json) or shelf:TITLE to write into.`,
    );
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  const written = { project: into, specimen: reading.specimen };
  const obtained = await obtainProject(into, []);
  if (!obtained.ok) return refuse(...obtained.problems);
  if (namesShelf(into)) {
    // The library keeps the bytes with the project, under the file's own name.
    const name = basename(from);
    const further = await Promise.all(
      beside.map(async ([is, path]) => ({ is, name: basename(path), bytes: await readFile(path) })),
    );
    const names = Object.fromEntries(further.map((one) => [one.is, one.name]));
    const changed = intoProject(obtained.project, { ...reading, file: name, sha256, beside: names });
    if (!changed.ok) return changed;
    const says = `Reading of ${name} written by the command`;
    const records = [{ name, bytes }, ...further];
    const saved = await changeOnShelf(into, { text: projectText(changed.value), says, records });
    return saved.ok ? answer(written) : saved;
  }
  const besideProject = (path: string) =>
    relative(dirname(resolve(into)), resolve(path))
      .split(sep)
      .join("/");
  const file = besideProject(from);
  const names = Object.fromEntries(beside.map(([is, path]) => [is, besideProject(path)]));
  const changed = intoProject(obtained.project, { ...reading, file, sha256, beside: names });
  if (!changed.ok) return changed;
  try {
    // Whole or not at all: beside it first, then in its place.
    const beside = `${into}.${process.pid}.new`;
    await writeFile(beside, projectBytes(changed.value));
    await rename(beside, into);
  } catch (error) {
    return no("file-not-written", `${into} can't be written: ${reasonOf(error)}.`);
  }
  return answer(written);
}
