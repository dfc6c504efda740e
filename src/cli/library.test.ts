import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { saveState } from "../store/states.ts";
import { addToShelf, changeOnShelf, useDataFolder } from "./library.ts";

const text = (title: string) => `{ "format": "glassdrum-project", "version": 1, "title": "${title}" }`;

// Somebody else saves between the moment in which the project was read and that in which it is saved: with its record.
vi.mock("../store/records.ts", async (load) => {
  const records = await load<typeof import("../store/records.ts")>();
  const addRecord: typeof records.addRecord = async (context, id, record) => {
    await saveState(context, id, { base: 1, text: text("Theirs"), says: "Theirs" });
    return records.addRecord(context, id, record);
  };
  return { ...records, addRecord };
});

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "glassdrum-beside-"));
  useDataFolder(folder);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test("a reading of a project that somebody else saved meanwhile is kept beside it, and the problem says where", async () => {
  const added = await addToShelf("shelf:Bench", text("Bench"));
  const project = `shelf:${added.ok ? added.value.id : ""}`;
  const records = [{ name: "a.csv", bytes: new Uint8Array([49]) }];
  expect(await changeOnShelf(project, { text: text("Mine"), says: "Mine", records })).toEqual({
    ok: false,
    problems: [
      {
        code: "saved-beside",
        path: [],
        message: `${project} was saved by somebody else meanwhile: this reading is kept beside it as state 3. Choose one of them on the Shelf.`,
      },
    ],
  });
});
