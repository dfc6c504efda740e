import { expect, test } from "vitest";
import {
  answer,
  type ChartFrame,
  type ChartPlane,
  type ChartPoint,
  demoText,
  type JudgeBatch,
  planeOf,
} from "../core/index.ts";
import { passesOf } from "../core/tasks/chart/plane.ts";
import { type Asker, asker, type Thread } from "./asker.ts";
import { type ChartQuestion, chartInCrew, createChartRun, stopChart } from "./chartCrew.ts";
import type { FromWorker } from "./protocol.ts";
import { runner, type Task } from "./run.ts";
import { tasks, type WorkerQuestions } from "./tasks.ts";

const question: ChartQuestion = {
  text: demoText,
  x: { path: "microphone.diaphragm.across", from: 3e-3, to: 9e-3 },
  y: { path: "microphone.diaphragm.thickness", from: 20e-6, to: 60e-6 },
  count: 25,
};
const values = Array.from({ length: 25 }, (_, i) => i);
const frame: ChartFrame = {
  x: { ...question.x, label: "across", kind: "length", values },
  y: { ...question.y, label: "thickness", kind: "length", values },
  tied: [],
  here: { x: null, y: null },
  passes: passesOf(25, 4, (i, j) => (i < 12 ? 0 : 1) + (j < 12 ? 0 : 2)),
};
/** A point that tells what it was made with: its place, and the batch of its tile. */
const pointAt = (place: number, batch: string): ChartPoint => ({
  measures: null,
  reserves: { [batch]: place },
  least: place,
  estimate: 0,
  route: "alone",
});

/** A thread that is none, with pieces that cost nothing; every message travels as a copy. `told`: batches that it was given. */
function crewOf(count: number, told: string[] = []): readonly Asker<WorkerQuestions>[] {
  const pieces = (): Readonly<Record<string, Task>> => {
    const kept = new Map<number, string>();
    return {
      // biome-ignore lint/correctness/useYield: it is one step
      *chartFrame() {
        return answer(frame);
      },
      *chartReady(input) {
        const { tile } = input as WorkerQuestions["chartReady"]["input"];
        yield null;
        kept.set(tile, `tile ${tile}`);
        return answer(kept.get(tile));
      },
      *chartPoints(input) {
        const { tile, places, batch } = input as WorkerQuestions["chartPoints"]["input"];
        yield null;
        if (tile !== null && batch !== undefined) {
          told.push(String(batch));
          kept.set(tile, String(batch));
        }
        return answer(places.map((place) => pointAt(place, tile === null ? "none" : (kept.get(tile) ?? "missing"))));
      },
    };
  };
  return Array.from({ length: count }, () => asker<WorkerQuestions>(() => threadOf(pieces())));
}

function threadOf(known: Readonly<Record<string, Task>>): Thread {
  const listeners: ((message: FromWorker) => void)[] = [];
  const hear = runner({
    tasks: known,
    post: (message) =>
      setImmediate(() => {
        for (const listener of listeners) listener(structuredClone(message));
      }),
    later: (work) => setImmediate(work),
    now: () => performance.now(),
  });
  return {
    post: (message) => hear(structuredClone(message)),
    listen: (listener) => void listeners.push(listener),
    end: () => {},
  };
}

/** What the plane must be: the first picture alone, every other point with its own tile. */
const whole = planeOf(
  frame,
  frame.passes
    .flatMap(({ points }, pass) =>
      points.flatMap((places, tile) =>
        places.map((place) => ({ place, point: pointAt(place, pass === 0 ? "none" : `tile ${tile}`) })),
      ),
    )
    .sort((a, b) => a.place - b.place)
    .map(({ point }) => point),
);

test("a chart has every point with its own tile's batch, whatever the number of threads, and each is given a batch once", async () => {
  for (const count of [1, 2, 5]) {
    const told: string[] = [];
    const reply = await chartInCrew(crewOf(count, told), createChartRun(question));
    expect(reply.kind === "answer" && reply.value.reserves).toEqual(whole.reserves);
    expect(told.length).toBeLessThanOrEqual(4 * (count - 1));
  }
});

test("a chart that was begun ahead, and left in the middle, goes on where it was and shows first what is there", async () => {
  const run = createChartRun(question);
  const [one, three] = [crewOf(1), crewOf(3)];
  expect((await chartInCrew(one, run, { urgency: "ahead", passes: 2 })).kind).toBe("answer");
  expect(run.pictures.map((plane) => plane.x.values.length)).toEqual([4, 7]);
  const left = chartInCrew(one, run, { onStep: ({ done }) => done > 100 && stopChart(one) });
  expect((await left).kind).toBe("stopped");
  const done = run.points.filter((point) => point !== null).length;
  expect(done).toBeGreaterThan(100);
  const steps: { readonly done: number; readonly soFar?: ChartPlane }[] = [];
  const reply = await chartInCrew(three, run, { onStep: (step) => steps.push(step) });
  expect(steps[0]?.done).toBe(done);
  expect(steps[0]?.soFar?.x.values.length).toBe(7);
  expect(reply.kind === "answer" && reply.value).toEqual(whole);
});

test("another number of points of the same plane takes over the tiles that are ready, another plane none", async () => {
  const before = createChartRun({ ...question, count: 41 });
  for (const tile of [0, 1, 2, 3]) before.batches.set(tile, `tile ${tile}` as unknown as JudgeBatch);
  for (const { of, missing } of [
    { of: question, missing: 0 },
    { of: { ...question, text: "{}" }, missing: 4 },
    { of: { ...question, x: { ...question.x, to: 8e-3 } }, missing: 4 },
  ]) {
    const run = createChartRun(of, before);
    await chartInCrew(crewOf(2), run, { passes: 1 });
    expect(run.waiting.filter(({ kind }) => kind === "ready")).toHaveLength(missing);
  }
  const reply = await chartInCrew(crewOf(2), createChartRun(question, before));
  expect(reply.kind === "answer" && reply.value).toEqual(whole);
});

test("who asks for a chart that is being computed takes it over at once", async () => {
  const run = createChartRun(question);
  const crew = crewOf(2);
  let again: ReturnType<typeof chartInCrew> | null = null;
  const before = chartInCrew(crew, run, {
    urgency: "ahead",
    onStep: ({ done }) => {
      if (done > 0) again ??= chartInCrew(crew, run);
    },
  });
  expect((await before).kind).toBe("superseded");
  const reply = await again!;
  expect(reply.kind === "answer" && reply.value).toEqual(whole);
});

test("what can't be a chart is refused with its problems", async () => {
  const codes = async (of: ChartQuestion) => {
    const crew = [asker<WorkerQuestions>(() => threadOf(tasks))];
    const reply = await chartInCrew(crew, createChartRun(of));
    return reply.kind === "refused" ? reply.problems.map(({ code }) => code) : [];
  };
  expect(await codes({ ...question, count: 1 })).toEqual(["bad-count"]);
  expect(await codes({ ...question, text: "{" })).toEqual(["not-json"]);
});

test("a point from a thread that was given its tile is the one from the thread that made it ready, to the bit", async () => {
  const bare = JSON.parse(demoText);
  for (const part of ["front", "back", "frame", "film"]) bare.microphone[part] = null;
  const asked = { ...question, text: JSON.stringify(bare), count: 20 };
  const [home] = [asker<WorkerQuestions>(() => threadOf(tasks))];
  const made = await home.ask("chart", "chartReady", { question: asked, tile: 3 });
  if (made.kind !== "answer" || made.value === null) throw new Error("No batch.");
  const places = [399, 250];
  const points = async () => {
    const reply = await home.ask("chart", "chartPoints", { question: asked, tile: 3, places, batch: made.value });
    return reply.kind === "answer" ? reply.value : [];
  };
  const here = await home.ask("chart", "chartPoints", { question: asked, tile: 3, places });
  expect(here.kind === "answer" && here.value.map(({ route }) => route)).toEqual(["spanned", "spanned"]);
  expect(await points()).toEqual(here.kind === "answer" && here.value);
});
