/** A file's bytes to a table of numbers, with what was understood, what is unclear and what stands in the way. */
import { type Outcome, refuse } from "../problem.ts";
import { readText } from "./encoding.ts";
import { hex, isContainer, looksPacked } from "./fileKind.ts";
import type { Recipe } from "./recipe.ts";
import type { RecordTable } from "./table.ts";
import type { Progress } from "./tableRows.ts";
import { textTable } from "./textTable.ts";
import { isWave } from "./wave.ts";
import { waveTable } from "./waveTable.ts";

/**
 * Reads delimited text or WAV. `recipe`: what is already known of the file; it wins over what the file seems to say.
 *
 * Remarks: `cells-missing`, `cells-unreadable`, `rows-ragged`, `last-line-cut`, `clipped`, `samples-dropped`, `time-rounded`, `wave-cut`.
 * Problems: `empty`, `container-elsewhere`, `not-text`, `no-numbers`, `too-many-columns`, `too-few-rows`, `unknown-column`, and those of `readWave`.
 */
export function* readRecord(bytes: Uint8Array, recipe?: Recipe): Generator<Progress, Outcome<RecordTable>> {
  if (bytes.length === 0)
    return refuse({
      code: "empty",
      path: [],
      message: "The file has no bytes; needed: a record. Was it saved before it was closed?",
    });
  if (isContainer(bytes))
    return refuse({
      code: "container-elsewhere",
      path: [],
      message:
        "This is an HDF5 container, and the reader of containers could not be loaded; needed: delimited text or WAV, or the page loaded again.",
    });
  if (isWave(bytes)) return yield* waveTable(bytes, recipe);
  const text = readText(bytes);
  if (text === null || looksPacked(bytes))
    return refuse({
      code: "not-text",
      path: [],
      message: `The file starts with bytes that are no text (${hex(bytes)}); needed: delimited text (CSV, TXT), WAV or HDF5. Export it again from the instrument's own program.`,
    });
  return yield* textTable(text.bytes, text.start, recipe);
}
