import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { demoText } from "../core/index.ts";
import { libraryFile } from "../store/folder.ts";
import { hashOf } from "../store/hash.ts";
import { addProject } from "../store/library.ts";
import { openLibrary } from "../store/open.ts";
import { saveState } from "../store/states.ts";
import type { Change, History, Library, OpenedProject, Refused, Saved, StoredProject } from "./api.ts";
import { tokenHeader } from "./doors.ts";
import { type Served, serve } from "./serve.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-library-app-"));
const file = join(folder, "mine.glassdrum.json");
const data = join(folder, "data");
const withGap = (gap: string) => demoText.replace("38 um", gap);
let served: Served;

beforeAll(async () => {
  const web = join(folder, "web");
  mkdirSync(web, { recursive: true });
  writeFileSync(join(web, "index.html"), '<meta name="token" content="{{token}}">');
  writeFileSync(file, demoText);
  served = await serve({ file, port: 0, webFolder: web, data });
});
afterAll(async () => {
  await served.close();
  rmSync(folder, { recursive: true });
});

/** A page of the server: it has the token and the right origin. */
async function page({ url }: Served) {
  const origin = url.slice(0, -1);
  const token = /content="([^"]+)"/.exec(await (await fetch(url)).text())?.[1] ?? "";
  const headers = { origin, [tokenHeader]: token };
  async function read<T>(response: Response): Promise<{ status: number; body: T }> {
    return { status: response.status, body: (await response.json()) as T };
  }
  return {
    get: async <T>(path: string) => read<T>(await fetch(`${origin}/api${path}`)),
    bytes: async (path: string) => new Uint8Array(await (await fetch(`${origin}/api${path}`)).arrayBuffer()),
    post: async <T>(path: string, body: unknown) =>
      read<T>(
        await fetch(`${origin}/api${path}`, {
          method: "POST",
          headers,
          body: body instanceof Uint8Array ? (body as Uint8Array<ArrayBuffer>) : JSON.stringify(body),
        }),
      ),
    /** Every change from now on; `next` waits for one that fits. */
    listen: async () => {
      const stop = new AbortController();
      const response = await fetch(`${origin}/api/changes`, { signal: stop.signal });
      const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
      let text = "";
      const seen: Change[] = [];
      const more = async () => {
        const { value } = (await reader?.read()) ?? {};
        text += value ?? "";
        const events = text.split("\n\n");
        text = events.pop() ?? "";
        for (const event of events) {
          const line = /^data: (\{.*)$/m.exec(event)?.[1];
          if (line !== undefined) seen.push(JSON.parse(line) as Change);
        }
      };
      await more();
      const next = async (fits: (change: Change) => boolean): Promise<Change> => {
        for (;;) {
          const at = seen.findIndex(fits);
          if (at >= 0) return seen.splice(at, 1)[0] as Change;
          await more();
        }
      };
      return { next, stop: () => stop.abort() };
    },
  };
}

describe("a project on the shelf", () => {
  test("the opened file is tied to the library at its first save, and comes back as it was left", async () => {
    const one = await page(served);
    const opened = (await one.get<OpenedProject>("/project")).body;
    expect(opened).toEqual({
      name: "mine.glassdrum.json",
      text: demoText,
      inLibrary: null,
      beside: null,
      fileHash: hashOf(demoText),
    });
    const { body } = await one.post<Saved>("/projects", { text: demoText, says: "Opened", opened: true });
    await one.post<Saved>(`/projects/${body.id}/states`, { base: 1, text: withGap("40 um"), says: "Air gap 40 um" });
    const again = (await one.get<OpenedProject>("/project")).body;
    expect(again).toMatchObject({ text: withGap("40 um"), inLibrary: { id: body.id, state: 2 }, beside: null });
    expect(readFileSync(file, "utf8")).toBe(demoText);
  });

  test("the second page learns of a save at once, and its own late save is kept beside", async () => {
    const [one, two] = [await page(served), await page(served)];
    const { id } = (await one.post<Saved>("/projects", { text: demoText, says: "Opened" })).body;
    const heard = await two.listen();
    await one.post(`/projects/${id}/states`, { base: 1, text: withGap("41 um"), says: "" });
    expect(
      await heard.next((change) => change.kind === "project" && change.id === id && change.head === 2),
    ).toMatchObject({ states: 2 });
    const late = (await two.post<Saved>(`/projects/${id}/states`, { base: 1, text: withGap("43 um"), says: "" })).body;
    expect(late).toEqual({ id, state: 3, head: 2, conflict: true });
    const chosen = (await two.post<Saved>(`/projects/${id}/head`, { number: 3, base: 2 })).body;
    expect(chosen.conflict).toBe(false);
    const line = (await one.get<History>(`/projects/${id}/states`)).body;
    expect(line.states.map(({ number, parent }) => [number, parent])).toEqual([
      [1, null],
      [2, 1],
      [3, 1],
    ]);
    expect((await one.get<StoredProject>(`/projects/${id}/states/2`)).body.text).toBe(withGap("41 um"));
    heard.stop();
  });

  test("a save by another program at the same library is heard as well", async () => {
    const one = await page(served);
    const { id } = (await one.post<Saved>("/projects", { text: demoText, says: "Opened" })).body;
    const heard = await one.listen();
    const other = await openLibrary(data);
    if (!other.ok) throw new Error("the library did not open twice");
    await saveState(other.value, id, { base: 1, text: withGap("44 um"), says: "by the command" });
    await other.value.close();
    expect(
      await heard.next((change) => change.kind === "project" && change.id === id && change.head === 2),
    ).toBeTruthy();
    heard.stop();
  });

  test("the file is written back whole, and not over what another program wrote", async () => {
    const one = await page(served);
    const opened = (await one.get<OpenedProject>("/project")).body;
    const written = await one.post<{ fileHash: string }>("/file", { text: withGap("45 um"), over: opened.fileHash });
    expect(written).toEqual({ status: 200, body: { fileHash: hashOf(withGap("45 um")) } });
    expect(readFileSync(file, "utf8")).toBe(withGap("45 um"));
    const heard = await one.listen();
    writeFileSync(file, withGap("46 um"));
    expect(await heard.next(({ kind }) => kind === "file")).toMatchObject({ fileHash: hashOf(withGap("46 um")) });
    heard.stop();
    const late = await one.post<Refused>("/file", { text: demoText, over: written.body.fileHash });
    expect([late.status, late.body.problems[0]?.code]).toEqual([409, "file-changed"]);
    expect(readFileSync(file, "utf8")).toBe(withGap("46 um"));
  });

  test("records and archives go in and come out byte for byte", async () => {
    const one = await page(served);
    const { id } = (await one.post<Saved>("/projects", { text: demoText, says: "Opened" })).body;
    const bytes = Uint8Array.from({ length: 4000 }, (_, i) => i % 251);
    const record = (await one.post<{ id: string; sha256: string }>(`/projects/${id}/records?name=a%C3%A4.wav`, bytes))
      .body;
    expect(record.sha256).toBe(hashOf(bytes));
    expect(await one.bytes(`/records/${record.id}`)).toEqual(bytes);
    const zip = await one.bytes(`/projects/${id}/archive`);
    expect((await one.post("/archive", zip)).body).toMatchObject([{ id, as: "known" }]);
    expect((await one.post<Refused>("/archive", new Uint8Array([1, 2]))).body.problems[0]?.code).toBe("not-a-zip");
  });

  test("what is asked wrongly is answered with a reason and the right status", async () => {
    const one = await page(served);
    const { id } = (await one.post<Saved>("/projects", { text: demoText, says: "Opened" })).body;
    const ask = async (path: string, body: unknown) => {
      const reply = await one.post<Refused>(path, body);
      return [reply.status, reply.body.problems[0]?.code];
    };
    expect(await ask("/projects", { text: 5 })).toEqual([422, "bad-body"]);
    expect(await ask("/projects", new TextEncoder().encode("{"))).toEqual([422, "bad-body"]);
    expect(await ask("/projects/nobody/states", { base: 1, text: demoText, says: "" })).toEqual([
      404,
      "no-such-project",
    ]);
    expect(await ask(`/projects/${id}/states`, { base: 9, text: demoText, says: "" })).toEqual([404, "no-such-state"]);
    expect(await ask(`/projects/${id}/states`, { base: 1, text: "{}", says: "" })).toEqual([422, "wrong-format"]);
    expect((await one.get<Refused>(`/projects/${id}/states/none`)).status).toBe(404);
  });
});

test("without a library the app is served all the same, and every route of it says why", async () => {
  const bad = join(folder, "bad");
  mkdirSync(bad);
  writeFileSync(join(bad, libraryFile), "no database ".repeat(100));
  const alone = await serve({ port: 0, webFolder: join(folder, "web"), data: bad });
  try {
    expect(alone.remarks.map(({ code }) => code)).toContain("library-damaged");
    const one = await page(alone);
    expect((await one.get<OpenedProject>("/project")).body.text).toBe(demoText);
    for (const path of ["/library", "/projects/x", "/archive"]) {
      const reply = await one.get<Refused>(path);
      expect([path, reply.status, reply.body.problems[0]?.code]).toEqual([path, 503, "library-damaged"]);
    }
    expect((await one.post<Refused>("/projects", { text: demoText, says: "" })).status).toBe(503);
  } finally {
    await alone.close();
  }
});

test("a shelf of 500 projects is listed with all it holds", async () => {
  const many = join(folder, "many");
  const library = await openLibrary(many);
  if (!library.ok) throw new Error("no library");
  const text = demoText;
  await library.value.db.transaction().execute(async (db) => {
    for (let i = 0; i < 500; i++) await db.insertInto("project").values(row(i)).execute();
    for (let i = 0; i < 500; i++)
      await db
        .insertInto("state")
        .values({
          project: `p${i}`,
          number: 1,
          parent: null,
          text,
          sha256: hashOf(text),
          saved: i,
          says: "",
          name: null,
        })
        .execute();
  });
  await library.value.close();
  const full = await serve({ port: 0, webFolder: join(folder, "web"), data: many });
  try {
    const { body } = await (await page(full)).get<Library>("/library");
    expect(body.projects).toHaveLength(500);
    expect(body.projects[0]).toMatchObject({ id: "p499", states: 1 });
  } finally {
    await full.close();
  }
  function row(i: number) {
    return {
      id: `p${i}`,
      title: `Project ${i}`,
      head: 1,
      created: i,
      saved: i,
      removed: null,
      origin: null,
      origin_state: null,
    };
  }
});

test("adding to the library from the command's side is the same as from a page", async () => {
  const other = await openLibrary(data);
  if (!other.ok) throw new Error("no library");
  const added = await addProject(other.value, { text: demoText, says: "Made by the command" });
  await other.value.close();
  const one = await page(served);
  const lines = (await one.get<Library>("/library")).body.projects;
  expect(added.ok && lines.some(({ id }) => id === added.value.id)).toBe(true);
});
