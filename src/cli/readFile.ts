/** A project's bytes from a file or from standard input, never more than a project can have. */
import { createReadStream, promises, type Stats } from "node:fs";
import type { Readable } from "node:stream";
import { answer, largestFile, type Outcome, refuse } from "../core/index.ts";
import { reasonOf, systemCode } from "../words/en/fileErrors.ts";

const megabytes = (bytes: number) => `${Math.round(bytes / 1e5) / 10} MB`;

const tooLarge = (file: string, found: string) =>
  refuse({
    code: "too-large",
    path: [],
    message: `${file} has ${found}; a project has at most ${megabytes(largestFile)}. Is it a record? Records are imported, not opened as projects.`,
  });

/**
 * The bytes of a file; "-" is standard input.
 *
 * Problems: `file-missing`, `file-is-folder`, `file-not-readable`, `too-large`. The size is asked for before anything is read.
 */
export async function readBytes(file: string): Promise<Outcome<Uint8Array>> {
  if (file === "-") return readLimited(process.stdin, "Standard input");
  let found: Stats;
  try {
    found = await promises.stat(file);
  } catch (error) {
    return unreadable(file, error);
  }
  if (found.isDirectory())
    return refuse({
      code: "file-is-folder",
      path: [],
      message: `${file} is a folder; name the project file in it (*.glassdrum.json).`,
    });
  if (found.size > largestFile) return tooLarge(file, megabytes(found.size));
  return readLimited(createReadStream(file), file);
}

async function readLimited(stream: Readable, name: string): Promise<Outcome<Uint8Array>> {
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of stream as AsyncIterable<Buffer>) {
      length += chunk.length;
      // A pipe or a device does not say its size beforehand.
      if (length > largestFile) {
        stream.destroy();
        return tooLarge(name, `more than ${megabytes(largestFile)}`);
      }
      chunks.push(chunk);
    }
  } catch (error) {
    return unreadable(name, error);
  }
  return answer(Buffer.concat(chunks));
}

function unreadable(file: string, error: unknown): Outcome<never> {
  const code = systemCode(error);
  if (code === "ENOENT" || code === "ENOTDIR")
    return refuse({
      code: "file-missing",
      path: [],
      message: `There is no file ${file}. "glassdrum new ${file}" writes a starter project; the word "demo" stands for the built-in one.`,
    });
  return refuse({
    code: "file-not-readable",
    path: [],
    message: `${file} can't be read: ${reasonOf(error)}.`,
  });
}
