/**
 * HDF5 containers: one data set with its columns by the last axis, or the one-column sets of a group side by side. The reader
 * is loaded when a container is opened, and a file is looked at before it is handed over: a broken one does not announce itself.
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type ContainerSet, setsOf } from "./containerSets.ts";
import { isContainer } from "./fileKind.ts";
import { meaningOfHeading, meaningOfUnit } from "./headings.ts";
import { questionsOf } from "./questions.ts";
import type { ColumnMeaning, Recipe, RecipeColumn } from "./recipe.ts";
import { samplingOf } from "./sampling.ts";
import { clippingOf } from "./signalChecks.ts";
import type { RecordColumn, RecordTable } from "./table.ts";
import { mostColumns } from "./textTable.ts";
import { timeBaseOf } from "./timeBase.ts";
import { inSi } from "./units.ts";

const no = (code: string, message: string, path: Problem["path"] = []): Outcome<never> =>
  refuse({ code, path, message });

/** Reads a container's bytes; the reader behind it is there already. Problems: as `readContainer`. */
export type ContainerReader = (bytes: Uint8Array, recipe?: Recipe) => Outcome<RecordTable>;

/**
 * Reads a data set of numbers: the one that the recipe names, or the largest. Sets of one column and equal length in one group
 * are read side by side, as the group's name. Attributes `unit` (or `units`), `sampling` or `step` (hertz, seconds) are taken
 * at their word; names of sets and units say what they hold.
 *
 * Problems: `not-a-container`, `container-broken`, `no-numbers`, `unknown-dataset`, `too-many-columns`, `unknown-column`.
 * Remarks: `clipped`, `samples-dropped`.
 */
export async function readContainer(bytes: Uint8Array, recipe?: Recipe): Promise<Outcome<RecordTable>> {
  return isContainer(bytes) ? (await openContainers())(bytes, recipe) : notOne;
}

const notOne = no("not-a-container", "The file does not start with HDF5's signature; needed: an HDF5 container.");

/** Loads the reader, which is large. */
export async function openContainers(): Promise<ContainerReader> {
  const hdf5 = await import("h5wasm");
  const { FS, activate_throwing_error_handler: throwErrors } = await hdf5.ready;
  // Otherwise the library writes its own stack to standard error and goes on.
  throwErrors();
  return (bytes, recipe) => {
    if (!isContainer(bytes)) return notOne;
    const name = "record.h5";
    FS.writeFile(name, bytes);
    let file: InstanceType<typeof hdf5.File> | null = null;
    try {
      file = new hdf5.File(name, "r");
      return chosenFrom(setsOf(file, "", hdf5), recipe);
    } catch (error) {
      return no(
        "container-broken",
        `The container can't be read (${reasonOf(error)}): it was cut or damaged. Copy it again.`,
      );
    } finally {
      file?.close();
      FS.unlink(name);
    }
  };
}

/** The library's first line, without its stack. */
const reasonOf = (error: unknown) =>
  (error instanceof Error ? error.message : String(error)).split("\n", 1)[0]!.trim().slice(0, 120);

function chosenFrom(sets: readonly ContainerSet[], recipe: Recipe | undefined): Outcome<RecordTable> {
  if (sets.length === 0)
    return no("no-numbers", "The container holds no data set of numbers; needed: one with the record.");
  const asked = recipe?.dataset;
  const names = sets.map(({ path }) => path);
  const chosen =
    asked === undefined
      ? sets.reduce((a, b) => (b.rows * b.columns.length > a.rows * a.columns.length ? b : a))
      : sets.find(({ path }) => path === asked);
  if (chosen === undefined)
    return no("unknown-dataset", `The container holds ${names.join(", ")}; needed: one of them.`, ["dataset"]);
  const width = chosen.columns.length;
  const told = recipe?.columns ?? [];
  const beyond = told.filter(({ index }) => index >= width);
  if (beyond.length > 0)
    return no("unknown-column", `The recipe names column ${beyond[0]!.index} (from 0), ${chosen.path} has ${width}.`, [
      "columns",
      beyond[0]!.index,
    ]);
  if (told.length === 0 && width > mostColumns)
    return no(
      "too-many-columns",
      `${chosen.path} has ${width} columns; needed: at most ${mostColumns} at once. Name those to read in the recipe.`,
      ["columns"],
    );
  return tableOf(chosen, names, recipe);
}

function tableOf(
  { path, rows, columns: all, sampling: said }: ContainerSet,
  datasets: readonly string[],
  recipe: Recipe | undefined,
): Outcome<RecordTable> {
  const told = recipe?.columns ?? [];
  const asked: readonly (Omit<RecipeColumn, "unit"> & { readonly unit: string | null })[] =
    told.length > 0 ? told : settled(all);
  const columns = asked.map(({ index, is, unit }): RecordColumn => {
    const { heading, values } = all[index]!;
    const missing = values.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0);
    const clipping = is === "output" || is === "reference" ? clippingOf(values) : null;
    return { index, heading, is, unit, values, missing, clipping };
  });
  const sampling = recipe?.sampling ?? said;
  const times = columns.find(({ is }) => is === "time");
  const { base, problems } =
    times === undefined ? { base: samplingOf(sampling), problems: [] } : timeBaseOf(inSi(times), (row) => row + 1);
  const table: RecordTable = {
    kind: "container",
    columns,
    rows,
    time: base,
    recipe: {
      columns: columns.map(({ index, is, unit }) => ({ index, is, unit: unit ?? "" })),
      dataset: path,
      ...(times === undefined && sampling !== null && { sampling }),
      ...(recipe?.use && { use: recipe.use }),
    },
    questions: [],
    faults: problems.map(({ message, ...rest }) => ({ ...rest, message: message.replace(/^Line/, "Row") })),
    lines: null,
    head: [`${path}: ${rows} rows, ${all.length} columns`],
    datasets,
  };
  const questions = questionsOf(table, { unclear: null, told: told.length > 0 });
  return answer({ ...table, questions }, remarksOf(table));
}

/** What names and units say of the columns; of what they leave open the first is the output, the others references. */
function settled(all: ContainerSet["columns"]): (Omit<RecipeColumn, "unit"> & { readonly unit: string | null })[] {
  const seen = new Set<ColumnMeaning>();
  return all.map(({ name, unit }, index) => {
    const guess = meaningOfHeading(name) ?? (unit === null ? null : meaningOfUnit(unit)) ?? "output";
    const again = (guess === "time" || guess === "frequency") && seen.has(guess);
    const is = again ? "skip" : guess === "output" && seen.has("output") ? "reference" : guess;
    seen.add(is);
    return { index, is, unit };
  });
}

function remarksOf({ columns, time }: RecordTable): Problem[] {
  const remarks = columns.flatMap(({ index, clipping }): Problem[] =>
    clipping === null
      ? []
      : [
          {
            code: "clipped",
            path: ["columns", index],
            message: `Column ${index + 1} is clipped: ${clipping.upper + clipping.lower} samples at its stops, first in row ${clipping.first + 1}. A fit must start after it; better lower the gain and record again.`,
          },
        ],
  );
  const [gap] = time?.gaps ?? [];
  if (gap !== undefined)
    remarks.push({
      code: "samples-dropped",
      path: ["columns"],
      message: `${time!.gaps.reduce((sum, { missing }) => sum + missing, 0)} samples are missing in ${time!.gaps.length} gaps, the first after row ${gap.after + 1}. Fits use the times as they stand.`,
    });
  return remarks;
}
