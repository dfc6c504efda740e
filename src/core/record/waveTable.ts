/** The channels of a WAV file as a table. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { told } from "./columnMeanings.ts";
import type { Recipe, RecipeColumn } from "./recipe.ts";
import { tooFewRows, unknownColumn } from "./refusals.ts";
import { clippingOf } from "./signalChecks.ts";
import type { RecordColumn, RecordTable } from "./table.ts";
import type { Progress } from "./tableRows.ts";
import type { TimeBase } from "./timeBase.ts";
import { readWave } from "./wave.ts";

export function* waveTable(bytes: Uint8Array, recipe: Recipe | undefined): Generator<Progress, Outcome<RecordTable>> {
  const read = yield* readWave(bytes, true);
  if (!read.ok) return read;
  const { channels, sampling, bits } = read.value;
  const rows = channels[0]?.length ?? 0;
  if (rows < 2) return refuse(tooFewRows(rows, 1));
  const asked =
    (told(recipe) ? recipe!.columns : undefined) ??
    channels.map((_, index): RecipeColumn => ({ index, is: index === 0 ? "output" : "reference", unit: "" }));
  const beyond = asked.filter(({ index }) => index >= channels.length);
  if (beyond.length > 0) return refuse(...beyond.map(({ index }) => unknownColumn(index, channels.length)));
  const columns = asked.map(
    ({ index, is, unit }): RecordColumn => ({
      index,
      heading: `channel ${index + 1}`,
      is,
      unit,
      values: channels[index]!,
      missing: 0,
      clipping: clippingOf(channels[index]!),
    }),
  );
  const time: TimeBase = { start: 0, step: 1 / sampling, sampling, jitter: 0, gaps: [], rounded: false, spacing: 0 };
  const table: RecordTable = {
    kind: "wave",
    columns,
    rows,
    time,
    recipe: { columns: asked, ...(recipe?.use && { use: recipe.use }) },
    questions: [],
    faults: [],
    lines: null,
    head: [`${channels.length} channels, ${bits} bits, ${sampling} Hz`],
    datasets: [],
  };
  const clipped = columns.flatMap(({ index, clipping }): Problem[] =>
    clipping === null
      ? []
      : [
          {
            code: "clipped",
            path: ["columns", index],
            message: `Channel ${index + 1} is clipped: ${clipping.upper + clipping.lower} samples at its stops, first sample ${clipping.first + 1}. A fit must start after it; better lower the gain and record again.`,
          },
        ],
  );
  return answer(table, [...read.remarks, ...clipped]);
}
