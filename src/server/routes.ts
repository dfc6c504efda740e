/** The routes of /api. */
import { type Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { Outcome, Problem } from "../core/problem.ts";
import { largestFile } from "../core/project/load.ts";
import { archiveOf, importArchive } from "../store/archive.ts";
import { addProject, putAway, readProject, shelf } from "../store/library.ts";
import type { OpenLibrary } from "../store/open.ts";
import { noteFile } from "../store/origin.ts";
import { addRecord, readRecord } from "../store/records.ts";
import { chooseHead, historyOf, nameState, saveState } from "../store/states.ts";
import { type Refused, refused, reply, unknownRoute } from "./api.ts";
import {
  awayShape,
  bodyOf,
  chosenHeadShape,
  fileTextShape,
  newProjectShape,
  newStateShape,
  stateNameShape,
} from "./bodies.ts";
import type { Changes } from "./changes.ts";
import { originOf, readOpened, type Source, writeBack } from "./openedProject.ts";

export interface ApiContext {
  readonly source: Source;
  /** The library, or why there is none. */
  readonly library: Outcome<OpenLibrary>;
  readonly changes: Changes;
}

/** The largest project as JSON within JSON, where quotes and ends of lines take two bytes [bytes]. */
const largestProject = 2 * largestFile;
/** A record of an hour at 96 kHz, or an archive with some of them [bytes]. */
const largestBytes = 512e6;

const tooLarge = (atMost: number): Problem => ({
  code: "too-large",
  path: [],
  message: `More than ${atMost / 1e6} MB were sent; that is the most that is taken here.`,
});

const limited = (atMost: number) =>
  bodyLimit({
    maxSize: atMost,
    onError: (context) => context.json({ problems: [tooLarge(atMost)] } satisfies Refused, 413),
  });

export function api({ source, library, changes }: ApiContext): Hono {
  const routes = new Hono();
  // Bytes have a limit of their own; it stands before the general one.
  const takesBytes = (path: string) => /\/api\/(archive|projects\/[^/]+\/records)$/.test(path);
  routes.use(async (context, next) =>
    (takesBytes(context.req.path) ? limited(largestBytes) : limited(largestProject))(context, next),
  );

  const kept = library.ok ? library.value : null;
  /** Answers with the library, or with the reason why there is none; then tells every page what changed. */
  const withLibrary = async <T>(context: Context, work: (library: OpenLibrary) => Promise<Outcome<T>>) => {
    if (!library.ok) return refused(context, library.problems);
    const outcome = await work(library.value);
    if (context.req.method !== "GET") await changes.look();
    return reply(context, outcome);
  };
  const id = (context: Context) => context.req.param("id") ?? "";

  routes.get("/project", async (context) => reply(context, await readOpened(source, kept)));
  routes.post("/file", async (context) => {
    const body = await bodyOf(context, fileTextShape);
    const written = body.ok ? await writeBack(source, body.value) : body;
    if (written.ok) await changes.look();
    return reply(context, written);
  });
  routes.get("/changes", (context) => changes.stream(context));

  routes.get("/library", (context) =>
    withLibrary(context, async (at) => {
      const lines = await shelf(at);
      return lines.ok ? { ...lines, value: { file: at.file, projects: lines.value } } : lines;
    }),
  );
  routes.post("/projects", (context) =>
    withLibrary(context, async (at) => {
      const body = await bodyOf(context, newProjectShape);
      if (!body.ok) return body;
      const { text, says, opened } = body.value;
      return addProject(at, { text, says, origin: opened ? originOf(source) : null });
    }),
  );
  routes.get("/projects/:id", (context) => withLibrary(context, (at) => readProject(at, id(context))));
  routes.get("/projects/:id/states", (context) => withLibrary(context, (at) => historyOf(at, id(context))));
  routes.get("/projects/:id/states/:number", (context) =>
    withLibrary(context, (at) => readProject(at, id(context), wholeNumber(context.req.param("number")))),
  );
  routes.post("/projects/:id/states", (context) =>
    withLibrary(context, async (at) => {
      const body = await bodyOf(context, newStateShape);
      return body.ok ? saveState(at, id(context), body.value) : body;
    }),
  );
  routes.post("/projects/:id/head", (context) =>
    withLibrary(context, async (at) => {
      const body = await bodyOf(context, chosenHeadShape);
      return body.ok ? chooseHead(at, id(context), body.value) : body;
    }),
  );
  routes.post("/projects/:id/name", (context) =>
    withLibrary(context, async (at) => {
      const body = await bodyOf(context, stateNameShape);
      return body.ok ? nameState(at, id(context), body.value) : body;
    }),
  );
  routes.post("/projects/:id/away", (context) =>
    withLibrary(context, async (at) => {
      const body = await bodyOf(context, awayShape);
      return body.ok ? putAway(at, id(context), body.value.away) : body;
    }),
  );
  routes.post("/projects/:id/written", (context) =>
    withLibrary(context, async (at) => {
      const read = await readProject(at, id(context));
      if (read.ok) await noteFile(at, id(context), read.value.state);
      return read.ok ? { ...read, value: null } : read;
    }),
  );

  routes.post("/projects/:id/records", (context) =>
    withLibrary(context, async (at) => {
      const bytes = new Uint8Array(await context.req.arrayBuffer());
      return addRecord(at, id(context), { name: context.req.query("name") ?? "record", bytes });
    }),
  );
  routes.get("/records/:id", async (context) => {
    if (!library.ok) return refused(context, library.problems);
    const record = await readRecord(library.value, id(context));
    return record.ok ? bytesReply(context, record.value.bytes, record.value.name) : refused(context, record.problems);
  });

  routes.get("/archive", (context) => archive(context, "library.zip"));
  routes.get("/projects/:id/archive", (context) => archive(context, "project.zip", id(context)));
  routes.post("/archive", (context) =>
    withLibrary(context, async (at) => importArchive(at, new Uint8Array(await context.req.arrayBuffer()))),
  );
  unknownRoute(routes);
  return routes;

  async function archive(context: Context, name: string, only?: string): Promise<Response> {
    if (!library.ok) return refused(context, library.problems);
    const zip = await archiveOf(library.value, only);
    return zip.ok ? bytesReply(context, zip.value, name) : refused(context, zip.problems);
  }
}

/** A number that no state has, where it is none. */
const wholeNumber = (text: string): number => (/^\d{1,9}$/.test(text) ? Number(text) : 0);

/** Bytes to be kept as a file: never shown, never guessed at. */
function bytesReply(context: Context, bytes: Uint8Array, name: string): Response {
  context.header("Content-Type", "application/octet-stream");
  context.header("Content-Disposition", `attachment; filename*=UTF-8''${encodeURIComponent(name)}`);
  context.header("Cache-Control", "no-store");
  return context.body(bytes as Uint8Array<ArrayBuffer>);
}
