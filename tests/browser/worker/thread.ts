/** A browser's worker with tasks made for the tests: they count, wait, fail and die as they are told. */
import { answer, refuse } from "../../../src/core/problem.ts";
import { servePage } from "../../../src/worker/browserPort.ts";
import type { Task } from "../../../src/worker/run.ts";

/** Input: how many steps, and how long each takes [ms]. */
function* count(input: unknown): ReturnType<Task> {
  const { steps, each } = input as { steps: number; each: number };
  for (let done = 1; done <= steps; done++) {
    const until = performance.now() + each;
    while (performance.now() < until);
    yield { done, of: steps, soFar: done };
  }
  return answer(steps);
}

// biome-ignore lint/correctness/useYield: a task may be short enough to have no step
function* no(): ReturnType<Task> {
  return refuse({ code: "no", path: ["microphone"], message: "No." });
}

// biome-ignore lint/correctness/useYield: it fails before its first step
function* breaks(): ReturnType<Task> {
  throw new Error("a promise was broken");
}

/** Its thread dies a moment later. */
function* dies(): ReturnType<Task> {
  setTimeout(() => {
    throw new Error("out of nowhere");
  });
  return answer(null);
}

/** Only there once it has been asked for. */
// biome-ignore lint/correctness/useYield: it is one step
function* late(input: unknown): ReturnType<Task> {
  return answer(input);
}

servePage({ count, no, breaks, dies }, async () => {
  await new Promise((resolve) => setTimeout(resolve, 20));
  return { late };
});
