import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type NewReading, type Outcome, recordOf } from "../core/index.ts";
import { bytesAt, placeBeside } from "./fitFiles.ts";
import { writeInto } from "./fitInto.ts";
import { addToShelf, useDataFolder } from "./library.ts";
import { obtainProject } from "./project.ts";

let folder: string;
const text = '{ "format": "glassdrum-project", "version": 1, "title": "Bench" }';
const reading: Omit<NewReading, "file" | "sha256" | "beside"> = {
  specimen: "A 3",
  kind: "null",
  recipe: { columns: [] },
  told: { lightShare: "48 %" },
  reading: {
    kind: "statistics",
    values: { mean: { value: 2, standardUncertainty: 0.1, low: 1.8, high: 2.2 } },
    correlation: null,
    residuals: { rms: 1, whiteness: null },
    residualStandardDeviation: 1,
    sumOfSquares: 1,
    coverage: 0.95,
    degreesOfFreedom: 1,
    stopped: "converged",
    steps: 1,
    minima: null,
    model: new Float64Array(0),
  },
};
const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "glassdrum-into-"));
  useDataFolder(join(folder, "library"));
  await writeFile(join(folder, "plus.csv"), "1\n2\n3\n");
  await writeFile(join(folder, "minus.csv"), "3\n2\n1\n");
  await writeFile(join(folder, "own.glassdrum.json"), text);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test.each(["shelf:Bench", "own.glassdrum.json"])(
  "%s keeps a reading with its further files and what it was told",
  async (name) => {
    const shelved = name.startsWith("shelf:");
    const into = shelved ? name : join(folder, name);
    if (shelved) await addToShelf(name, text);
    const plus = join(folder, "plus.csv");
    const bytes = await bytesAt({ is: "file", path: plus });
    expect(bytes.ok).toBe(true);
    const beside = [["minus", join(folder, "minus.csv")]] as const;
    const place = { is: "file", path: plus } as const;
    const written = await writeInto(into, place, bytes.ok ? bytes.value : new Uint8Array(), { ...reading, beside });
    expect(written).toMatchObject({ ok: true, value: { project: into, specimen: "A 3" } });
    const project = await obtainProject(into, []);
    const record = project.ok ? recordOf(project.project, "a-3/r1") : project;
    expect(record).toMatchObject({
      value: { file: "plus.csv", beside: [["minus", "minus.csv"]], told: { lightShare: "48 %" } },
    });
    const other = await bytesAt(placeBeside(into, "minus.csv"));
    expect(other.ok && new TextDecoder().decode(other.value)).toBe("3\n2\n1\n");
  },
);

test("a project file that can't be written is named with the reason, and stays as it was", async () => {
  // A name that is as long as the disk takes leaves no room for that of the new one beside it.
  const into = join(folder, `${"n".repeat(236)}.glassdrum.json`);
  await writeFile(into, text);
  const place = { is: "file", path: join(folder, "plus.csv") } as const;
  expect(await writeInto(into, place, new Uint8Array([1]), { ...reading, beside: [] })).toMatchObject({
    problems: [
      {
        code: "file-not-written",
        path: ["--into"],
        message: expect.stringMatching(/n\.glassdrum\.json can't be written: .+\.$/),
      },
    ],
  });
  expect(await readFile(into, "utf8")).toBe(text);
});

test("what can't be written into, or was never kept, is refused", async () => {
  const bytes = new Uint8Array([1]);
  const of = (path: string) => ({ is: "file", path }) as const;
  expect(codes(await writeInto("demo", of("plus.csv"), bytes, { ...reading, beside: [] }))).toEqual(["wrong-option"]);
  expect(codes(await writeInto("shelf:Bench", of("-"), bytes, { ...reading, beside: [] }))).toEqual(["wrong-option"]);
  expect(codes(await bytesAt(placeBeside("shelf:Bench", "nothing.csv")))).toEqual(["no-such-record"]);
});
