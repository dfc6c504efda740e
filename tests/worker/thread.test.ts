import { afterEach, expect, test } from "vitest";
import { type Asker, asker } from "../../src/worker/asker.ts";
import { startNodeThread } from "../../src/worker/nodePort.ts";

type Fake = {
  count: { input: { steps: number; each: number }; value: number };
  no: { input: null; value: never };
  breaks: { input: null; value: never };
  dies: { input: null; value: never };
};

let open: Asker<Fake> | null = null;
afterEach(() => open?.close());

function start(): Asker<Fake> {
  open = asker<Fake>(() => startNodeThread(new URL("./fakeThread.mjs", import.meta.url)));
  return open;
}

test("a question is answered from another thread, with its steps before and its remarks", async () => {
  const steps: number[] = [];
  const reply = await start().ask("a", "count", { steps: 3, each: 0 }, { onStep: ({ done }) => steps.push(done) });
  expect(reply).toMatchObject({ kind: "answer", value: 3, remarks: [{ code: "counted" }] });
  expect(steps).toEqual([1, 2, 3]);
});

test("a later question of the channel takes the place of one that would never end", async () => {
  const { ask } = start();
  let begun = () => {};
  const beginning = new Promise<void>((resolve) => {
    begun = resolve;
  });
  const endless = ask("a", "count", { steps: 1e9, each: 1 }, { onStep: () => begun() });
  await beginning;
  const latest = ask("a", "count", { steps: 2, each: 0 });
  expect(await endless).toMatchObject({ kind: "superseded" });
  expect(await latest).toMatchObject({ kind: "answer", value: 2 });
});

test("of a hundred questions of one channel the last is answered, and every other one ends as superseded", async () => {
  const { ask } = start();
  const replies = await Promise.all(
    Array.from({ length: 100 }, (_, i) => ask("drag", "count", { steps: i + 1, each: 0 }, { urgency: "drag" })),
  );
  expect(replies.slice(0, 99).every(({ kind }) => kind === "superseded")).toBe(true);
  expect(replies[99]).toMatchObject({ kind: "answer", value: 100 });
});

test("what a hand waits for overtakes a batch that has begun, and the batch still ends", async () => {
  const { ask } = start();
  const order: string[] = [];
  let begun = () => {};
  const beginning = new Promise<void>((resolve) => {
    begun = resolve;
  });
  const batch = ask("spread", "count", { steps: 60, each: 2 }, { urgency: "batch", onStep: () => begun() });
  void batch.then(() => order.push("batch"));
  await beginning;
  const refine = ask("fine", "count", { steps: 12, each: 2 }).then(() => order.push("refine"));
  const drag = ask("now", "count", { steps: 1, each: 0 }, { urgency: "drag" }).then(() => order.push("drag"));
  await Promise.all([batch, refine, drag]);
  expect(order).toEqual(["drag", "refine", "batch"]);
});

test("a stop ends a question at its next step, and the channel can be used again", async () => {
  const worker = start();
  let steps = 0;
  const endless = worker.ask(
    "a",
    "count",
    { steps: 1e9, each: 1 },
    {
      onStep: () => {
        steps += 1;
        if (steps === 3) worker.stop("a");
      },
    },
  );
  expect(await endless).toMatchObject({ kind: "stopped" });
  expect(steps).toBe(3);
  expect(await worker.ask("a", "count", { steps: 1, each: 0 })).toMatchObject({ kind: "answer", value: 1 });
});

test("a refusal comes back with its problems, a thrown error as a fault of the program", async () => {
  const { ask } = start();
  expect(await ask("a", "no", null)).toMatchObject({
    kind: "refused",
    problems: [{ code: "no", path: ["microphone"] }],
  });
  const broken = await ask("a", "breaks", null);
  expect(broken).toMatchObject({ kind: "refused", problems: [{ code: "fault" }] });
  expect(JSON.stringify(broken)).toContain("a promise was broken");
});

test("a thread that dies answers what was asked of it, and the next question starts another", async () => {
  const { ask } = start();
  const other = ask("b", "count", { steps: 1e9, each: 1 }, { urgency: "batch" });
  expect(await ask("a", "dies", null)).toMatchObject({ kind: "refused", problems: [{ code: "worker-died" }] });
  expect(await other).toMatchObject({ kind: "refused", problems: [{ code: "worker-died" }] });
  expect(await ask("a", "count", { steps: 1, each: 0 })).toMatchObject({ kind: "answer", value: 1 });
});
