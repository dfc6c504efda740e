import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
// Types of what the page hands over; nothing of it runs here.
import type {} from "./worker/page.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-worker-"));
let browser: Browser;
let server: Server;
let page: Page;

beforeAll(async () => {
  await build({
    configFile: false,
    root: fileURLToPath(new URL("worker/", import.meta.url)),
    base: "./",
    logLevel: "warn",
    worker: { format: "es" },
    build: { outDir: folder, emptyOutDir: true, target: "es2022" },
  });
  const types: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript" };
  server = createServer((request, response) => {
    const name = request.url === "/" ? "/index.html" : (request.url ?? "");
    try {
      const bytes = readFileSync(join(folder, name));
      response.writeHead(200, { "content-type": types[extname(name)] ?? "application/octet-stream" }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  browser = await openBrowser();
  page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  await page.waitForFunction(() => "startAsker" in window);
});
afterAll(async () => {
  await browser.close();
  await new Promise((resolve) => server.close(resolve));
  rmSync(folder, { recursive: true });
});

test("of a hundred questions of one channel the last is answered, and every other one ends as superseded", async () => {
  const replies = await page.evaluate(async () => {
    const { ask, close } = window.startAsker();
    const all = await Promise.all(
      Array.from({ length: 100 }, (_, i) => ask("drag", "count", { steps: i + 1, each: 0 }, { urgency: "drag" })),
    );
    close();
    return all;
  });
  expect(replies.slice(0, 99).every(({ kind }) => kind === "superseded")).toBe(true);
  expect(replies[99]).toMatchObject({ kind: "answer", value: 100 });
});

test("a later question takes the place of one that would never end", async () => {
  const replies = await page.evaluate(async () => {
    const { ask, close } = window.startAsker();
    let begun = () => {};
    const beginning = new Promise<void>((resolve) => {
      begun = resolve;
    });
    const endless = ask("a", "count", { steps: 1e9, each: 1 }, { onStep: () => begun() });
    await beginning;
    const latest = await ask("a", "count", { steps: 2, each: 0 });
    const both = [await endless, latest];
    close();
    return both;
  });
  expect(replies).toMatchObject([{ kind: "superseded" }, { kind: "answer", value: 2 }]);
});

test("what a hand waits for overtakes a batch that has begun, and the batch still ends", async () => {
  const order = await page.evaluate(async () => {
    const { ask, close } = window.startAsker();
    const ended: string[] = [];
    let begun = () => {};
    const beginning = new Promise<void>((resolve) => {
      begun = resolve;
    });
    const batch = ask("b", "count", { steps: 60, each: 2 }, { urgency: "batch", onStep: () => begun() });
    const batchEnds = batch.then(() => ended.push("batch"));
    await beginning;
    const refine = ask("r", "count", { steps: 12, each: 2 }).then(() => ended.push("refine"));
    const drag = ask("d", "count", { steps: 1, each: 0 }, { urgency: "drag" }).then(() => ended.push("drag"));
    await Promise.all([batchEnds, refine, drag]);
    close();
    return ended;
  });
  expect(order).toEqual(["drag", "refine", "batch"]);
});

test("a stop ends a question at its next step, and the channel can be used again", async () => {
  const [stopped, steps, again] = await page.evaluate(async () => {
    const worker = window.startAsker();
    let count = 0;
    const onStep = () => {
      count += 1;
      if (count === 3) worker.stop("a");
    };
    const reply = await worker.ask("a", "count", { steps: 1e9, each: 1 }, { onStep });
    const next = await worker.ask("a", "count", { steps: 1, each: 0 });
    worker.close();
    return [reply, count, next] as const;
  });
  expect(stopped).toMatchObject({ kind: "stopped" });
  expect(steps).toBe(3);
  expect(again).toMatchObject({ kind: "answer", value: 1 });
});

test("a refusal comes back with its problems, a thrown error as a fault of the program", async () => {
  const replies = await page.evaluate(async () => {
    const { ask, close } = window.startAsker();
    const both = [await ask("a", "no", null), await ask("a", "breaks", null)];
    close();
    return both;
  });
  expect(replies[0]).toMatchObject({ kind: "refused", problems: [{ code: "no", path: ["microphone"] }] });
  expect(replies[1]).toMatchObject({ kind: "refused", problems: [{ code: "fault" }] });
  expect(JSON.stringify(replies[1])).toContain("a promise was broken");
});

test("a worker that fails outside any question answers what was asked of it, and the next question starts another", async () => {
  const replies = await page.evaluate(async () => {
    const { ask, close } = window.startAsker();
    const lost = ask("b", "count", { steps: 1e9, each: 1 }, { urgency: "batch" });
    await ask("a", "dies", null);
    const both = [await lost, await ask("a", "count", { steps: 1, each: 0 })];
    close();
    return both;
  });
  expect(replies[0]).toMatchObject({ kind: "refused", problems: [{ code: "worker-died" }] });
  expect(replies[1]).toMatchObject({ kind: "answer", value: 1 });
});

test("a task that is loaded when it is first asked for is answered, the latest question of its channel only", async () => {
  const replies = await page.evaluate(async () => {
    const { ask, stop, close } = window.startAsker();
    const early = [
      ask("a", "late", 1),
      ask("b", "late", 2),
      ask("a", "late", 3),
      ask("c", "count", { steps: 2, each: 0 }),
    ];
    stop("b");
    const all = [...(await Promise.all(early)), await ask("a", "late", 4)];
    close();
    return all;
  });
  expect(replies.map(({ kind }) => kind)).toEqual(["superseded", "stopped", "answer", "answer", "answer"]);
  expect(replies.slice(2)).toMatchObject([{ value: 3 }, { value: 2 }, { value: 4 }]);
});

test("a worker whose program can't be loaded says so", async () => {
  const reply = await page.evaluate(async () => {
    const { ask, close } = window.startAsker("missing");
    const one = await ask("a", "count", { steps: 1, each: 0 });
    close();
    return one;
  });
  expect(reply).toMatchObject({ kind: "refused", problems: [{ code: "worker-died" }] });
});
