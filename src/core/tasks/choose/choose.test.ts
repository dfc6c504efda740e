import { expect, test } from "vitest";
import { drain } from "../../numerics/progress.ts";
import { better } from "../../numerics/searchBox.ts";
import type { Outcome } from "../../problem.ts";
import { readBrief } from "../../project/brief.ts";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { vary } from "../../project/paths.ts";
import { judge } from "../predict/judge.ts";
import { choose, worthOf } from "./choose.ts";

const good = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
};
const demo = good(loadProject(demoText));
const changed = (project: Project, changes: Readonly<Record<string, string>>) =>
  Object.entries(changes).reduce((one, [path, value]) => good(changeValue(one, path, value)), project);
const codes = (outcome: Outcome<unknown>) => (outcome.ok ? [] : outcome.problems.map(({ code }) => code));

// Plain film and plate: the search is what is tested, and each of its microphones costs less.
const small = changed(demo, {
  "microphone.front": "null",
  "microphone.back": "null",
  choices: '[{ "path": "microphone.film.gap", "between": ["15 um", "200 um"] }]',
  brief: '{ "damping": { "atLeast": 0.4, "atMost": 0.9, "must": true }, "sensitivity": { "atLeast": "0.3 mrad/Pa" } }',
});

test("the design that is chosen meets the brief, and the same seed chooses it again", () => {
  const found = good(drain(choose(small, { seed: 3, evaluations: 60 })));
  expect(found.refused).toEqual([]);
  expect(found.designs[0]?.verdict.every(({ met }) => met)).toBe(true);
  const again = good(drain(choose(small, { seed: 3, evaluations: 60 })));
  expect(JSON.stringify(again)).toBe(JSON.stringify(found));
});

test("no gap of a dense row is better than the one that is chosen", () => {
  const [chosen] = good(drain(choose(small, { seed: 3, evaluations: 150 }))).designs;
  const variation = good(vary(small, ["microphone.film.gap"]));
  const brief = readBrief(small);
  // From the rule of the search itself: 15 um to 200 um in equal ratios.
  for (let i = 0; i < 32; i++) {
    const { verdict } = good(judge(good(variation.at([15e-6 * (200 / 15) ** (i / 31)])), brief));
    expect(better(worthOf(verdict), worthOf(chosen!.verdict)), `gap ${i}`).toBe(false);
  }
});

test("a brief that nothing meets is refused with the law, and is met once it is relaxed as proposed", () => {
  const asked = changed(small, { "brief.sensitivity": '{ "atLeast": "20 mrad/Pa" }' });
  const found = good(drain(choose(asked, { seed: 3, evaluations: 60 })));
  expect(found.refused.map(({ requirement }) => requirement)).toContain("brief.sensitivity.atLeast");
  expect(found.refused[0]?.reason).toContain("S f1^2 a");
  const relaxed = found.refused.reduce(
    (project, { requirement, nearest }) =>
      changed(project, {
        [requirement]: requirement.startsWith("brief.sensitivity") ? `${nearest} rad/Pa` : String(nearest),
      }),
    asked,
  );
  expect(good(drain(choose(relaxed, { seed: 3, evaluations: 60 }))).refused).toEqual([]);
});

test("a choice that is none is named", () => {
  const at = (choices: string) => codes(drain(choose(changed(small, { choices }), { evaluations: 50 })));
  expect(at('[{ "path": "microphone.film.gap" }]')).toEqual(["no-choice"]);
  expect(at('[{ "path": "microphone.film.gap", "between": ["50 um", "20 um"] }]')).toEqual(["empty-range"]);
  expect(
    at('[{ "path": "microphone.film.gap", "from": ["50 um"] }, { "path": "microphone.film.gap", "from": ["20 um"] }]'),
  ).toEqual(["twice"]);
});

test("a brief that asks for nothing is said to ask for nothing", () => {
  expect(codes(drain(choose(changed(small, { brief: "{}" }), { evaluations: 50 })))).toEqual(["nothing-asked"]);
});

test("what can't be built is said, with the last reason", () => {
  const asked = changed(small, {
    choices: '[{ "path": "microphone.guide.at", "between": ["4 mm", "5 mm"] }]',
  });
  expect(codes(drain(choose(asked, { evaluations: 50 })))[0]).toBe("nothing-can-be-built");
});
