/** ZIP files in and out. Written with fixed times, so that the same content gives the same bytes. */
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from "fflate";
import { answer, type Outcome, refuse } from "../core/problem.ts";

export type Files = ReadonlyMap<string, Uint8Array>;

/** Earliest time that a ZIP can say. */
const noTime = new Date(1980, 0, 1);

export function zipOf(files: Files): Uint8Array {
  const entries: Zippable = {};
  for (const [name, bytes] of files) entries[name] = [bytes, { mtime: noTime }];
  return zipSync(entries, { level: 6 });
}

/**
 * The files of a ZIP.
 *
 * Problems: `not-a-zip`, `zip-too-large` where the files together would be larger than `atMost` bytes: a small file can claim
 * to hold a huge one.
 */
export function filesOf(zip: Uint8Array, { atMost }: { readonly atMost: number }): Outcome<Files> {
  let total = 0;
  const wanted = (file: { readonly originalSize: number }) => {
    total += file.originalSize;
    return total <= atMost;
  };
  try {
    const files = unzipSync(zip, { filter: wanted });
    if (total > atMost)
      return refuse({
        code: "zip-too-large",
        path: [],
        message: `The files in the ZIP have ${Math.ceil(total / 1e6)} MB together; at most ${Math.floor(atMost / 1e6)} MB are read.`,
      });
    return answer(new Map(Object.entries(files)));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return refuse({ code: "not-a-zip", path: [], message: `The file can't be read as a ZIP (${why}).` });
  }
}

export const bytesOfText = (text: string): Uint8Array => strToU8(text);
export const textOfBytes = (bytes: Uint8Array): string => strFromU8(bytes);
