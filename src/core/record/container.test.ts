import { expect, test } from "vitest";
import { readContainer } from "./container.ts";

/** A container written by the library that defines the format. */
async function container(): Promise<Uint8Array> {
  const hdf5 = await import("h5wasm");
  const { FS } = await hdf5.ready;
  const file = new hdf5.File("written.h5", "w");
  const run = file.create_group("run1");
  const data = Float64Array.from({ length: 600 }, (_, i) => Math.sin(i / 7) + (i % 2));
  const set = run.create_dataset({ name: "phase", data, shape: [300, 2] });
  set.create_attribute("unit", "mrad");
  set.create_attribute("sampling", "96 kHz");
  file.create_dataset({ name: "note", data: "nothing" });
  file.flush();
  file.close();
  return FS.readFile("written.h5");
}

test("the largest data set of numbers, with its unit and sampling", async () => {
  const bytes = await container();
  const table = await readContainer(bytes);
  if (!table.ok) throw new Error(table.problems[0]?.message);
  const { rows, columns, time, recipe, questions } = table.value;
  expect([rows, columns.length, time?.sampling, columns[0]?.unit, recipe.dataset]).toEqual([
    300,
    2,
    96000,
    "mrad",
    "/run1/phase",
  ]);
  expect(columns[1]?.values[3]).toBeCloseTo(Math.sin(1) + 1, 12);
  expect(questions).toEqual([]);
});

test("what is no container, a damaged one and an unknown data set are refused", async () => {
  const bytes = await container();
  const codes = async (file: Uint8Array, dataset?: string) => {
    const read = await readContainer(file, dataset === undefined ? undefined : { columns: [], dataset });
    return read.ok ? [] : read.problems.map(({ code }) => code);
  };
  expect(await codes(new Uint8Array(100))).toEqual(["not-a-container"]);
  expect(await codes(bytes, "/run9")).toEqual(["unknown-dataset"]);
  expect((await codes(bytes.slice(0, 200)))[0]).toMatch(/container-broken|no-numbers/);
});

test("sets of one column lie side by side, and their names and units say what they hold", async () => {
  const hdf5 = await import("h5wasm");
  const { FS } = await hdf5.ready;
  const file = new hdf5.File("beside.h5", "w");
  const run = file.create_group("run2");
  const column = (name: string, unit: string, value: (i: number) => number) => {
    const data = Float64Array.from({ length: 500 }, (_, i) => value(i));
    run.create_dataset({ name, data, shape: [500] }).create_attribute("unit", unit);
  };
  column("time", "ms", (i) => i / 100);
  column("ch1", "V", (i) => Math.sin(i / 9));
  column("ch2", "V", (i) => Math.cos(i / 9));
  run.create_dataset({ name: "wide", data: new Float64Array(1200), shape: [2, 600] });
  file.flush();
  file.close();
  const bytes = FS.readFile("beside.h5");
  const table = await readContainer(bytes, { columns: [], dataset: "/run2" });
  if (!table.ok) throw new Error(table.problems[0]?.message);
  const { columns, time, datasets, recipe } = table.value;
  // The order of the names is the container's.
  expect(columns.map(({ heading, is, unit }) => [heading, is, unit]).sort()).toEqual([
    ["/run2/ch1", "output", "V"],
    ["/run2/ch2", "reference", "V"],
    ["/run2/time", "time", "ms"],
  ]);
  expect(time?.sampling).toBeCloseTo(1e5, 6);
  expect([...datasets].sort()).toEqual(["/run2", "/run2/wide"]);
  expect(await readContainer(bytes, recipe)).toMatchObject({ ok: true, value: { rows: 500 } });
  const beyond = await readContainer(bytes, { dataset: "/run2", columns: [{ index: 7, is: "output", unit: "V" }] });
  expect(beyond.ok ? [] : beyond.problems.map(({ code }) => code)).toEqual(["unknown-column"]);
});
