/** Serves the app and the opened project on loopback. */
import { randomBytes } from "node:crypto";
import type { Server } from "node:http";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { fileURLToPath } from "node:url";
import { getRequestListener } from "@hono/node-server";
import { Hono } from "hono";
import { secureHeaders } from "hono/secure-headers";
import type { Problem } from "../core/problem.ts";
import { dataFolder } from "../store/folder.ts";
import { openLibrary } from "../store/open.ts";
import type { Refused } from "./api.ts";
import { createChanges } from "./changes.ts";
import { guard } from "./doors.ts";
import { type AppFile, readFiles } from "./files.ts";
import type { Source } from "./openedProject.ts";
import { type ApiContext, api } from "./routes.ts";

export interface ServeOptions extends Source {
  /** Wanted port; 0: any. 4747 where absent. A taken port: the next free one of the following ten is used. */
  readonly port?: number | undefined;
  /** Folder of the built app; dist/web where absent. */
  readonly webFolder?: string | undefined;
  /** Folder of the library; `dataFolder()` where absent. */
  readonly data?: string | undefined;
}

export interface Served {
  /** "http://127.0.0.1:4747/" */
  readonly url: string;
  readonly port: number;
  /** "port-taken", where another port than the wanted one is used; "no-app", where the app has not been built. */
  readonly remarks: readonly Problem[];
  close(): Promise<void>;
}

const defaultPort = 4747;
const triedPorts = 11;
/** Starts the server. A library that can't be opened is a remark: the app runs without it and says so. Throws where no port is free or the system forbids to listen. */
export async function serve(options: ServeOptions): Promise<Served> {
  const files = readFiles(options.webFolder ?? fileURLToPath(new URL("../web/", import.meta.url)));
  const wanted = options.port ?? defaultPort;
  let port = 0;
  const library = await openLibrary(options.data ?? dataFolder());
  const changes = createChanges(library.ok ? library.value : null, options);
  const app = application({ source: options, library, changes }, files, () => port);
  const server = createServer(getRequestListener(app.fetch));
  port = await listen(server, wanted);
  const remarks: Problem[] = [];
  if (wanted !== 0 && port !== wanted) remarks.push(portTaken(wanted, port));
  if (!files.has("/index.html")) remarks.push(noApp);
  if (!library.ok) remarks.push(...library.problems);
  const closeAll = async () => {
    changes.stop();
    await close(server);
    if (library.ok) await library.value.close();
  };
  return { url: `http://127.0.0.1:${port}/`, port, remarks, close: closeAll };
}

function application(context: ApiContext, files: ReadonlyMap<string, AppFile>, port: () => number): Hono {
  const token = randomBytes(24).toString("base64url");
  const app = new Hono();
  app.use(secureHeaders(headers));
  app.use(guard({ port, token }));
  app.route("/api", api(context));
  app.get("*", (context) => {
    const path = context.req.path === "/" ? "/index.html" : context.req.path;
    const file = files.get(path);
    if (file === undefined) return context.text(`Nothing at ${path}.`, 404);
    context.header("Content-Type", file.type);
    context.header("Cache-Control", file.hashed ? "public, max-age=31536000, immutable" : "no-store");
    if (path !== "/index.html") return context.body(file.bytes);
    return context.body(new TextDecoder().decode(file.bytes).replace("{{token}}", token));
  });
  app.onError((error, context) => {
    console.error(error);
    return context.json({ problems: [fault] } satisfies Refused, 500);
  });
  return app;
}

/** No inline script, nothing from elsewhere; the two cross-origin headers let the page share memory with its workers. */
const headers: Parameters<typeof secureHeaders>[0] = {
  contentSecurityPolicy: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
    workerSrc: ["'self'"],
    styleSrc: ["'self'"],
    fontSrc: ["'self'"],
    imgSrc: ["'self'", "data:", "blob:"],
    connectSrc: ["'self'"],
    formAction: ["'none'"],
    frameAncestors: ["'none'"],
    baseUri: ["'none'"],
  },
  crossOriginOpenerPolicy: "same-origin",
  crossOriginEmbedderPolicy: "require-corp",
  crossOriginResourcePolicy: "same-origin",
  // Loopback speaks plain HTTP; the header would be ignored there.
  strictTransportSecurity: false,
};

async function listen(server: Server, wanted: number): Promise<number> {
  for (let port = wanted; ; port++) {
    const error = await tryPort(server, port);
    if (error === null) return (server.address() as AddressInfo).port;
    if (error.code !== "EADDRINUSE" || port + 1 >= wanted + triedPorts || port >= 65535) throw error;
  }
}

function tryPort(server: Server, port: number): Promise<NodeJS.ErrnoException | null> {
  return new Promise((resolve) => {
    const failed = (error: NodeJS.ErrnoException) => resolve(error);
    server.once("error", failed);
    server.listen(port, "127.0.0.1", () => {
      server.off("error", failed);
      resolve(null);
    });
  });
}

function close(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.close((error) => (error === undefined ? resolve() : reject(error)));
    server.closeAllConnections();
  });
}

const portTaken = (wanted: number, used: number): Problem => ({
  code: "port-taken",
  path: ["port"],
  message: `Port ${wanted} is taken; port ${used} is used.`,
});

const noApp: Problem = {
  code: "no-app",
  path: [],
  message: "The app has not been built: there is no dist/web/index.html. Run: npm run build.",
};

const fault: Problem = { code: "fault", path: [], message: "A fault of this program, not of your input." };
