import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { demoText } from "../core/index.ts";
import { hashOf } from "../store/hash.ts";
import { tokenHeader } from "./doors.ts";
import { readOpened } from "./openedProject.ts";
import { type Served, serve } from "./serve.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-app-"));
const text = '{ "format": "glassdrum-project",  "version": 1 }\n';
let served: Served;

beforeAll(async () => {
  const web = join(folder, "web");
  mkdirSync(join(web, "assets"), { recursive: true });
  writeFileSync(join(web, "index.html"), '<meta name="token" content="{{token}}"><p>app</p>');
  writeFileSync(join(web, "assets", "index-abc.js"), "export {};");
  writeFileSync(join(folder, "secret.txt"), "secret");
  writeFileSync(join(folder, "mine.glassdrum.json"), text);
  served = await serve({
    file: join(folder, "mine.glassdrum.json"),
    port: 0,
    webFolder: web,
    data: join(folder, "data"),
  });
});

afterAll(async () => {
  await served.close();
  rmSync(folder, { recursive: true });
});

interface Reply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** As sent: fetch would tidy the path and refuse to set Host. */
function knock(
  path: string,
  options: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        host: "127.0.0.1",
        port: served.port,
        path,
        method: options.method ?? "GET",
        headers: options.headers ?? {},
        agent: false,
      },
      (response) => {
        let body = "";
        response.setEncoding("utf8");
        response.on("data", (piece) => {
          body += piece;
        });
        response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
      },
    );
    asked.on("error", reject);
    asked.end(options.body);
  });
}

const codeOf = (reply: Reply): string => JSON.parse(reply.body).problems[0].code;
const tokenOf = async (): Promise<string> => /content="([^"]+)"/.exec((await knock("/")).body)?.[1] ?? "";
const own = () => `http://127.0.0.1:${served.port}`;

describe("what it serves", () => {
  test("the app, with this session's token in its document", async () => {
    const page = await knock("/");
    expect(page.status).toBe(200);
    expect(page.headers["content-type"]).toContain("text/html");
    expect(page.headers["cache-control"]).toBe("no-store");
    expect(await tokenOf()).toMatch(/^[\w-]{32}$/);
  });

  test("the project byte for byte, with the name of its file", async () => {
    expect(JSON.parse((await knock("/api/project")).body)).toEqual({
      name: "mine.glassdrum.json",
      text,
      inLibrary: null,
      beside: null,
      fileHash: hashOf(text),
    });
  });

  test("the demo where nothing else is asked for, and a text in place of a file", async () => {
    expect(await readOpened({}, null)).toMatchObject({ ok: true, value: { name: null, text: demoText } });
    expect(await readOpened({ text }, null)).toMatchObject({ ok: true, value: { name: null, text } });
  });

  test("a reason where the file has gone, or is no text", async () => {
    expect(await readOpened({ file: join(folder, "gone.json") }, null)).toMatchObject({
      problems: [{ code: "file-not-readable" }],
    });
    writeFileSync(join(folder, "latin.json"), Buffer.from([0x22, 0xe4, 0x22]));
    expect(await readOpened({ file: join(folder, "latin.json") }, null)).toMatchObject({
      problems: [{ code: "not-utf8" }],
    });
  });

  test("a file whose name changes with its content, to be kept", async () => {
    const script = await knock("/assets/index-abc.js");
    expect(script).toMatchObject({ status: 200, body: "export {};" });
    expect(script.headers["cache-control"]).toContain("immutable");
  });

  test("a plain 404 for what is not there, with a reason under /api", async () => {
    expect((await knock("/nothing.js")).status).toBe(404);
    const reply = await knock("/api/nothing");
    expect([reply.status, codeOf(reply)]).toEqual([404, "unknown-route"]);
  });
});

describe("the doors", () => {
  test("a foreign Host is refused: another name that leads to this machine", async () => {
    for (const host of ["evil.example", `evil.example:${served.port}`, "127.0.0.1", "127.0.0.1:1"]) {
      const reply = await knock("/api/project", { headers: { host } });
      expect([host, reply.status, codeOf(reply)]).toEqual([host, 403, "wrong-host"]);
    }
    expect((await knock("/", { headers: { host: `localhost:${served.port}` } })).status).toBe(200);
  });

  test("a foreign Origin is refused, for reading and for writing", async () => {
    for (const origin of ["https://evil.example", "null", "http://127.0.0.1:1"])
      for (const method of ["GET", "POST"]) {
        const reply = await knock("/api/project", { method, headers: { origin } });
        expect([origin, method, reply.status, codeOf(reply)]).toEqual([origin, method, 403, "wrong-origin"]);
      }
  });

  test("a change without Origin is refused, and so is one without the token", async () => {
    const token = await tokenOf();
    const noOrigin = await knock("/api/project", { method: "POST", headers: { [tokenHeader]: token } });
    expect([noOrigin.status, codeOf(noOrigin)]).toEqual([403, "wrong-origin"]);
    for (const wrong of ["", "x", `${token.slice(1)}x`]) {
      const reply = await knock("/api/project", { method: "PUT", headers: { origin: own(), [tokenHeader]: wrong } });
      expect([reply.status, codeOf(reply)]).toEqual([403, "wrong-token"]);
    }
  });

  test("its own page with the token comes through the doors", async () => {
    const headers = { origin: own(), [tokenHeader]: await tokenOf() };
    const reply = await knock("/api/project", { method: "POST", headers, body: "{}" });
    expect([reply.status, codeOf(reply)]).toEqual([404, "unknown-route"]);
  });

  test("a body beyond 40 MB is refused before it is read", async () => {
    const headers = { origin: own(), [tokenHeader]: await tokenOf(), "content-length": String(41e6) };
    const reply = await knock("/api/project", { method: "POST", headers, body: "x" });
    expect([reply.status, codeOf(reply)]).toEqual([413, "too-large"]);
  });

  test("no address leads out of the app's folder", async () => {
    for (const path of [
      "/../secret.txt",
      "/assets/../../secret.txt",
      "/%2e%2e/secret.txt",
      "/..%2fsecret.txt",
      "/assets/..%5c..%5csecret.txt",
      "//secret.txt",
    ]) {
      const reply = await knock(path);
      expect([path, reply.status]).toEqual([path, 404]);
      expect(reply.body).not.toContain("secret\n");
    }
  });

  test("scripts come from the server alone, and every answer says so", async () => {
    for (const path of ["/", "/api/project", "/nothing.js"]) {
      const { headers } = await knock(path);
      const policy = String(headers["content-security-policy"]);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("worker-src 'self'");
      expect(policy).not.toContain("unsafe-inline");
      expect(headers["cross-origin-opener-policy"]).toBe("same-origin");
      expect(headers["cross-origin-embedder-policy"]).toBe("require-corp");
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["access-control-allow-origin"]).toBeUndefined();
    }
  });

  test("it listens on loopback only", () => {
    expect(served.url).toBe(`http://127.0.0.1:${served.port}/`);
  });
});

describe("ports", () => {
  test("a taken port is said, and the next one used", async () => {
    const blocker = createServer();
    const taken = await new Promise<number>((resolve) => {
      blocker.listen(0, "127.0.0.1", () => {
        const address = blocker.address();
        resolve(typeof address === "object" && address !== null ? address.port : 0);
      });
    });
    const second = await serve({ text, port: taken, webFolder: folder, data: join(folder, "second") });
    expect(second.port).toBeGreaterThan(taken);
    expect(second.remarks.map(({ code }) => code)).toEqual(["port-taken", "no-app"]);
    await second.close();
    await new Promise((resolve) => blocker.close(resolve));
  });

  test("port 0 takes any free one, without a remark about it", () => {
    expect(served.port).toBeGreaterThan(0);
    expect(served.remarks).toEqual([]);
  });
});
