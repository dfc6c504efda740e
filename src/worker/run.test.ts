import { describe, expect, test } from "vitest";
import { answer, refuse } from "../core/problem.ts";
import type { FromWorker, Urgency } from "./protocol.ts";
import { runner, type Task } from "./run.ts";

/** A runner whose slices are taken by hand; each reading of its clock is 5 ms after the last. */
function byHand(tasks: Readonly<Record<string, Task>>) {
  const posted: FromWorker[] = [];
  const waiting: (() => void)[] = [];
  let time = 0;
  const hear = runner({
    tasks,
    post: (message) => posted.push(message),
    later: (work) => waiting.push(work),
    now: () => {
      time += 5;
      return time;
    },
  });
  let id = 0;
  return {
    posted,
    ask: (channel: string, task: string, input: unknown = null, urgency: Urgency = "refine") => {
      id += 1;
      hear({ kind: "ask", id, channel, urgency, task, input });
      return id;
    },
    stop: (channel: string) => hear({ kind: "stop", channel }),
    slice: () => waiting.shift()?.(),
    idle: () => waiting.length === 0,
    finish: () => {
      for (let work = waiting.shift(); work !== undefined; work = waiting.shift()) work();
    },
  };
}

const seen: string[] = [];
function* steps(input: unknown): ReturnType<Task> {
  const { name, count } = input as { name: string; count: number };
  try {
    for (let done = 1; done <= count; done++) {
      seen.push(`${name}${done}`);
      yield { done, of: count };
    }
    return answer(name);
  } finally {
    seen.push(`${name} closed`);
  }
}
const tasks: Readonly<Record<string, Task>> = {
  steps,
  *waits(input) {
    yield input as Promise<unknown>;
    return answer("came");
  },
  *refuses() {
    yield { done: 0, of: 1 };
    return refuse({ code: "too-thin", path: ["film"], message: "Too thin." });
  },
  *breaks() {
    yield { done: 0, of: 1 };
    throw new RangeError("negative");
  },
};

describe("the runner", () => {
  test("begins nothing before the messages that wait have been received", () => {
    const worker = byHand(tasks);
    worker.ask("a", "steps", { name: "early", count: 1 });
    expect(worker.posted).toEqual([]);
    worker.ask("a", "steps", { name: "late", count: 1 });
    worker.finish();
    expect(worker.posted.map(({ kind, id }) => [kind, id])).toEqual([
      ["superseded", 1],
      ["step", 2],
      ["answer", 2],
    ]);
  });

  test("stops a begun task at its yield, lets it clean up, and says so once", () => {
    const worker = byHand(tasks);
    seen.length = 0;
    worker.ask("a", "steps", { name: "x", count: 100 });
    worker.slice();
    worker.stop("a");
    worker.finish();
    expect(seen).toEqual(["x1", "x2", "x closed"]);
    expect(worker.posted.at(-1)).toEqual({ kind: "stopped", id: 1, channel: "a" });
    expect(worker.idle()).toBe(true);
  });

  test("takes turns by urgency, then by age, and goes on where it was", () => {
    const worker = byHand(tasks);
    seen.length = 0;
    worker.ask("d", "steps", { name: "ahead", count: 1 }, "ahead");
    worker.ask("c", "steps", { name: "batch", count: 3 }, "batch");
    worker.slice();
    worker.ask("b", "steps", { name: "refine", count: 1 });
    worker.ask("a", "steps", { name: "drag", count: 1 }, "drag");
    worker.finish();
    expect(seen.filter((entry) => !entry.includes("closed"))).toEqual([
      "batch1",
      "batch2",
      "drag1",
      "refine1",
      "batch3",
      "ahead1",
    ]);
  });

  test("turns refusals, thrown errors and unknown tasks into problems", () => {
    const worker = byHand(tasks);
    worker.ask("a", "refuses");
    worker.finish();
    worker.ask("a", "breaks");
    worker.finish();
    worker.ask("a", "toString");
    worker.finish();
    const problems = worker.posted.flatMap((message) => (message.kind === "refused" ? message.problems : []));
    expect(problems.map(({ code }) => code)).toEqual(["too-thin", "fault", "unknown-task"]);
    expect(problems[1]?.message).toContain("negative");
  });

  test("a stop of a silent channel is nothing", () => {
    const worker = byHand(tasks);
    worker.stop("a");
    worker.finish();
    expect(worker.posted).toEqual([]);
  });

  test("what a task waits for holds up nothing else, and may fail", async () => {
    const worker = byHand(tasks);
    let come = () => {};
    worker.ask("record", "waits", new Promise<void>((resolve) => (come = resolve)));
    worker.slice();
    expect(worker.idle()).toBe(true);
    worker.ask("numbers", "steps", { name: "a", count: 1 });
    worker.finish();
    expect(worker.posted.at(-1)).toMatchObject({ kind: "answer", channel: "numbers" });
    come();
    await Promise.resolve();
    await Promise.resolve();
    worker.finish();
    expect(worker.posted.at(-1)).toMatchObject({ kind: "answer", channel: "record", value: "came" });
    worker.ask("record", "waits", Promise.reject(new Error("not there")));
    worker.slice();
    await Promise.resolve();
    await Promise.resolve();
    worker.finish();
    expect(worker.posted.at(-1)).toMatchObject({ kind: "answer", value: "came" });
  });
});
