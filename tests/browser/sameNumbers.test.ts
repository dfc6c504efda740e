import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import {
  changeValue,
  choose,
  demoText,
  loadProject,
  type Outcome,
  type Project,
  projectText,
} from "../../src/core/index.ts";
import { drain } from "../../src/core/numerics/progress.ts";
import { tasks, type WorkerQuestions } from "../../src/worker/tasks.ts";
import { sameFunctions } from "../engineMath.ts";
import { openBench } from "./bench.ts";

declare global {
  interface Window {
    askThread: (task: string, input: unknown) => Promise<{ readonly kind: string; readonly value: unknown }>;
  }
}

let browser: Browser;
let shared: Awaited<ReturnType<typeof openBench>>;
let page: Page;
beforeAll(async () => {
  browser = await openBrowser();
  shared = await openBench(browser);
  page = shared.page;
  // A further thread of the app's own program, spoken to as the page speaks to its own.
  await page.evaluate((address) => {
    const thread = new Worker(address, { type: "module" });
    const waiting = new Map<number, (reply: { kind: string; value: unknown }) => void>();
    thread.onmessage = ({ data }) => {
      if (data.kind !== "step") waiting.get(data.id)?.(data);
    };
    window.askThread = (task, input) =>
      new Promise((resolve) => {
        const id = waiting.size + 1;
        waiting.set(id, resolve);
        thread.postMessage({ kind: "ask", id, channel: "same numbers", urgency: "refine", task, input });
      });
  }, page.workers()[0]!.url());
});
afterAll(async () => {
  await page.close();
  await browser.close();
});

async function inBrowser<Name extends keyof WorkerQuestions & string>(
  task: Name,
  input: WorkerQuestions[Name]["input"],
): Promise<WorkerQuestions[Name]["value"]> {
  const reply = await page.evaluate(([name, asked]) => window.askThread(name, asked), [task, input] as const);
  expect(reply.kind).toBe("answer");
  // What the task of that name gives.
  return reply.value as WorkerQuestions[Name]["value"];
}

function inNode<Name extends keyof WorkerQuestions & string>(task: Name, input: WorkerQuestions[Name]["input"]) {
  const answered = drain(tasks[task](input)) as Outcome<WorkerQuestions[Name]["value"]>;
  if (!answered.ok) throw new Error(JSON.stringify(answered.problems));
  return answered.value;
}

/** Every digit: a number is written as the shortest text that reads back as it. */
const text = (value: unknown) => JSON.stringify(value);

test("what core takes from the engine's mathematics rounds the same in Node and in the browser", async () => {
  /** A sum over the bits of so many values of each function, at arguments of many sizes and both signs. */
  function sums(names: readonly string[]): readonly number[] {
    const count = 20_000;
    let seed = 7;
    const next = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 4294967296;
    };
    const values = new Float64Array(count);
    const bits = new Int32Array(values.buffer);
    return names.map((name) => {
      const f = Reflect.get(Math, name) as (x: number, y: number) => number;
      const reach = /^(exp|expm1|cosh|sinh|tan|tanh)$/.test(name) ? 20 : /^(asin|acos)$/.test(name) ? 1 : 1e6;
      const least = /^log/.test(name) ? 0 : -1;
      for (let i = 0; i < count; i++) {
        const size = reach * next() * next() * next();
        values[i] = f(size * (least + (1 - least) * next()), reach * (next() - 0.5));
      }
      let sum = 0;
      for (const one of bits) sum = (Math.imul(sum, 31) + one) | 0;
      return sum;
    });
  }
  expect(await page.evaluate(sums, sameFunctions)).toEqual(sums(sameFunctions));
  // Otherwise this test would say nothing.
  expect(await page.evaluate(sums, ["sin"])).not.toEqual(sums(["sin"]));
});

test("a chart has the same numbers in Node and in the browser, to the bit", async () => {
  const plane = {
    text: demoText,
    x: { path: "microphone.diaphragm.across", from: 4e-3, to: 8e-3 },
    y: { path: "microphone.diaphragm.thickness", from: 20e-6, to: 80e-6 },
    count: 4,
  };
  expect(text(await inBrowser("chart", plane))).toBe(text(inNode("chart", plane)));
});

test("a search gives the same designs in Node and in the browser, to the bit", async () => {
  // Plain film and plate: less work for each of its microphones.
  const project = ["microphone.front", "microphone.back"].reduce<Outcome<Project>>(
    (one, path) => (one.ok ? changeValue(one.value, path, "null") : one),
    loadProject(demoText),
  );
  if (!project.ok) throw new Error(text(project.problems));
  const search = { text: projectText(project.value), run: 1, seed: 2, evaluations: 60 };
  let next = await inBrowser("chooseNext", { ...search, results: null });
  while (next.jobs !== null) {
    const results: string[] = [];
    // So few are answered one by one: nothing is shared.
    for (const job of next.jobs) results.push(await inBrowser("chooseJob", { ...search, job, shared: null }));
    next = await inBrowser("chooseNext", { ...search, results });
  }
  const found = drain(choose(project.value, search));
  expect(found.ok && text(found.value)).toBe(text(next.found));
});
