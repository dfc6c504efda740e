import { expect, test } from "vitest";
import { type ChartPlane, changeValue, demoText, loadProject, type Outcome, projectText } from "../core/index.ts";
import type { Step } from "./protocol.ts";
import { type ChartQuestion, chartAhead, continuedChart } from "./startedChart.ts";

const good = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const bare = ["front", "back", "frame", "film"].reduce(
  (project, part) => good(changeValue(project, `microphone.${part}`, "null")),
  good(loadProject(demoText)),
);
const question: ChartQuestion = {
  text: projectText(bare),
  x: { path: "microphone.diaphragm.across", from: 3e-3, to: 9e-3 },
  y: { path: "microphone.diaphragm.thickness", from: 60e-6, to: 120e-6 },
  count: 8,
};

function run<Value>(work: Generator<Step<Value>, Outcome<Value>>) {
  const steps: Step<Value>[] = [];
  for (;;) {
    const next = work.next();
    if (next.done) return { steps, outcome: next.value };
    steps.push(next.value);
  }
}
const size = (step: Step<ChartPlane> | undefined) => step?.soFar?.x.values.length;

test("a plane that was begun ahead, and one that was left in the middle, goes on where it was and shows first what is there", () => {
  expect(run(chartAhead(question)).outcome).toEqual({ ok: true, value: null, remarks: [] });
  const left = continuedChart(question);
  // Both pictures that were made ahead come before anything is computed.
  expect([left.next().value, left.next().value].map((step) => size(step as Step<ChartPlane>))).toEqual([3, 5]);
  left.next();
  left.return({ ok: false, problems: [] });
  const { steps, outcome } = run(continuedChart(question));
  expect(size(steps[0])).toBe(3);
  // Another one takes its place; begun anew, it is the same plane.
  run(continuedChart({ ...question, count: 2 }));
  const fresh = good(run(continuedChart(question)).outcome);
  expect(good(outcome).measures).toEqual(fresh.measures);
  expect(good(outcome).state.every((state) => state === 1)).toBe(true);
});

test("what can't be a plane is refused ahead as it is later", () => {
  const wrong = { ...question, count: 1 };
  const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));
  expect(codes(run(chartAhead(wrong)).outcome)).toEqual(["bad-count"]);
  expect(codes(run(continuedChart(wrong)).outcome)).toEqual(["bad-count"]);
  expect(codes(run(chartAhead({ ...question, text: "{" })).outcome)).toEqual(["not-json"]);
});
