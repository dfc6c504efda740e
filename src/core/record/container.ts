/**
 * HDF5 containers: one data set, its columns by the last axis. The reader is loaded when a container is opened, and a file is
 * looked at before it is handed over: a broken one does not announce itself.
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { unitAlone } from "./headings.ts";
import { isContainer } from "./readRecord.ts";
import type { Recipe, RecipeColumn } from "./recipe.ts";
import { samplingOf } from "./sampling.ts";
import { clippingOf } from "./signalChecks.ts";
import type { RecordColumn, RecordTable } from "./table.ts";

const no = (code: string, message: string, path: Problem["path"] = []): Outcome<never> =>
  refuse({ code, path, message });

/**
 * Reads a data set of numbers: the one that the recipe names, or the largest. Attributes `unit` (or `units`), `sampling` or
 * `step` (hertz, seconds) are taken at their word.
 *
 * Problems: `not-a-container`, `container-broken`, `no-numbers`, `unknown-dataset`.
 */
export async function readContainer(bytes: Uint8Array, recipe?: Recipe): Promise<Outcome<RecordTable>> {
  if (!isContainer(bytes))
    return no("not-a-container", "The file does not start with HDF5's signature; needed: an HDF5 container.");
  const hdf5 = await import("h5wasm");
  const { FS } = await hdf5.ready;
  const name = "record.h5";
  FS.writeFile(name, bytes);
  const file = new hdf5.File(name, "r");
  try {
    const sets = numericSets(file, "", hdf5);
    if (sets.length === 0)
      return no("no-numbers", "The container holds no data set of numbers; needed: one with the record.");
    const asked = recipe?.dataset;
    const chosen =
      asked === undefined ? sets.reduce((a, b) => (b.size > a.size ? b : a)) : sets.find(({ path }) => path === asked);
    if (chosen === undefined)
      return no(
        "unknown-dataset",
        `The container holds ${sets.map(({ path }) => path).join(", ")}; needed: one of them.`,
        ["dataset"],
      );
    return answer(
      tableOf(
        chosen,
        sets.map(({ path }) => path),
        recipe,
      ),
    );
  } catch (error) {
    return no(
      "container-broken",
      `The container can't be read (${error instanceof Error ? error.message : String(error)}): it was cut or damaged. Copy it again.`,
    );
  } finally {
    file.close();
    FS.unlink(name);
  }
}

interface NumericSet {
  readonly path: string;
  readonly size: number;
  readonly rows: number;
  readonly columns: number;
  readonly values: ArrayLike<number | bigint>;
  readonly unit: string | null;
  readonly sampling: string | null;
}

type Module = typeof import("h5wasm");

function numericSets(group: InstanceType<Module["Group"]>, path: string, hdf5: Module): NumericSet[] {
  return group.keys().flatMap((key) => {
    const entity = group.get(key);
    const here = `${path}/${key}`;
    if (entity instanceof hdf5.Group) return numericSets(entity, here, hdf5);
    if (!(entity instanceof hdf5.Dataset)) return [];
    const { value, shape } = entity;
    if (
      !ArrayBuffer.isView(value) ||
      value instanceof DataView ||
      shape === null ||
      shape.length === 0 ||
      shape.length > 2
    )
      return [];
    const values = value as unknown as ArrayLike<number | bigint>;
    // Channels by row or by column: the longer axis is the time.
    const [first = 0, second = 1] = shape;
    if (Math.max(first, second) < 2) return [];
    const text = (attribute: string) => {
      const found = entity.attrs[attribute]?.value;
      return typeof found === "string" || typeof found === "number" ? String(found) : null;
    };
    const step = Number(text("step") ?? Number.NaN);
    const rate = text("sampling") ?? (step > 0 ? String(1 / step) : null);
    const set: NumericSet = {
      path: here,
      size: values.length,
      rows: first,
      columns: shape.length === 1 ? 1 : second,
      values,
      unit: unitAlone(text("unit") ?? text("units") ?? ""),
      sampling: rate === null ? null : /[a-z]/i.test(rate.replace(/e/i, "")) ? rate : `${rate} Hz`,
    };
    return [set];
  });
}

function tableOf(set: NumericSet, datasets: readonly string[], recipe: Recipe | undefined): RecordTable {
  const byRow = set.columns > set.rows;
  const [rows, width] = byRow ? [set.columns, set.rows] : [set.rows, set.columns];
  const at = (row: number, column: number) => Number(set.values[byRow ? column * rows + row : row * width + column]);
  const told = recipe?.columns ?? [];
  const asked: readonly RecipeColumn[] =
    told.length > 0
      ? told.filter(({ index }) => index < width)
      : Array.from({ length: Math.min(width, 64) }, (_, index) => ({
          index,
          is: index === 0 ? ("output" as const) : ("reference" as const),
          unit: set.unit ?? "",
        }));
  const columns = asked.map(({ index, is, unit }): RecordColumn => {
    const values = Float64Array.from({ length: rows }, (_, row) => at(row, index));
    const missing = values.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0);
    return { index, heading: `${set.path} ${index + 1}`, is, unit, values, missing, clipping: clippingOf(values) };
  });
  const sampling = recipe?.sampling ?? set.sampling;
  const time = samplingOf(sampling);
  return {
    kind: "container",
    columns,
    rows,
    time,
    recipe: { columns: asked, dataset: set.path, ...(sampling !== null && { sampling }) },
    questions:
      time !== null || asked.some(({ is }) => is === "time" || is === "frequency")
        ? []
        : [
            {
              code: "sampling-unknown",
              path: ["sampling"],
              message: "The container names no sampling. How many samples a second were taken?",
              choices: ["48 kHz", "96 kHz", "192 kHz"],
            },
          ],
    faults: [],
    lines: null,
    head: [`${set.path}: ${set.rows} x ${set.columns}`],
    datasets,
  };
}
