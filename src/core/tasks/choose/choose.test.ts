import { expect, test } from "vitest";
import { changed, demo } from "../../../../tests/demoProject.ts";
import { codesOf, good } from "../../../../tests/outcomes.ts";
import { drain } from "../../numerics/progress.ts";
import { better } from "../../numerics/searchBox.ts";
import { readBrief } from "../../project/brief.ts";
import { describe } from "../../project/describe.ts";
import type { Project } from "../../project/load.ts";
import { vary } from "../../project/paths.ts";
import { type Judged, judge } from "../predict/judge.ts";
import { choose, chooseSteps } from "./choose.ts";
import { type JobDone, runJob } from "./jobs.ts";
import { createTrials } from "./trials.ts";
import { worthOf } from "./worth.ts";

// Plain film and plate: the search is what is tested, and each of its microphones costs less.
const small = changed(demo, {
  "microphone.front": "null",
  "microphone.back": "null",
  choices: '[{ "path": "microphone.film.gap", "between": ["15 um", "200 um"] }]',
  brief: '{ "damping": { "atLeast": 0.4, "atMost": 0.9, "must": true }, "sensitivity": { "atLeast": "0.3 mrad/Pa" } }',
});

/** That design of `small`, judged alone. */
const standing = (set: Readonly<Record<string, string>>, project = small) =>
  good(judge(good(describe(changed(project, set))), readBrief(project)));

test("the design that is chosen meets the brief", () => {
  const found = good(drain(choose(small, { seed: 3, evaluations: 60 })));
  expect(found.refused).toEqual([]);
  expect(found.designs[0]?.verdict.every(({ met }) => met)).toBe(true);
});

test("no gap of a dense row is better than the one that is chosen", () => {
  const [chosen] = good(drain(choose(small, { seed: 3, evaluations: 150 }))).designs;
  const variation = good(vary(small, ["microphone.film.gap"]));
  const brief = readBrief(small);
  // From the rule of the search itself: 15 um to 200 um in equal ratios.
  for (let i = 0; i < 32; i++) {
    const judged = good(judge(good(variation.at([15e-6 * (200 / 15) ** (i / 31)])), brief));
    expect(better(worthOf(judged), worthOf(standing(chosen!.set))), `gap ${i}`).toBe(false);
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

test("the even look judges the search: one that had too few calls is beaten by some of it", () => {
  const wide = changed(small, {
    choices:
      '[{ "path": "microphone.film.gap", "between": ["15 um", "200 um"] }, { "path": "microphone.diaphragm.thickness", "between": ["20 um", "200 um"] }]',
  });
  expect(good(drain(choose(wide, { seed: 1, evaluations: 40 }))).search.scannedBetter).toBeGreaterThan(0);
});

test("a choice that is none is named", () => {
  const at = (choices: string) => codesOf(drain(choose(changed(small, { choices }), { evaluations: 50 })));
  expect(at('[{ "path": "microphone.film.gap" }]')).toEqual(["no-choice"]);
  expect(at('[{ "path": "microphone.film.gap", "between": ["50 um", "20 um"] }]')).toEqual(["empty-range"]);
  expect(
    at('[{ "path": "microphone.film.gap", "from": ["50 um"] }, { "path": "microphone.film.gap", "from": ["20 um"] }]'),
  ).toEqual(["twice"]);
});

test("a brief that asks for nothing is said to ask for nothing", () => {
  expect(codesOf(drain(choose(changed(small, { brief: "{}" }), { evaluations: 50 })))).toEqual(["nothing-asked"]);
});

test("what can't be built is said, with the last reason", () => {
  const asked = changed(small, {
    choices: '[{ "path": "microphone.guide.at", "between": ["4 mm", "5 mm"] }]',
  });
  expect(codesOf(drain(choose(asked, { evaluations: 50 })))[0]).toBe("nothing-can-be-built");
});

/** As two threads would do it: each with trials of its own, the pieces dealt out in turn, the last begun first. */
function chooseInTwo(project: Project, options: { readonly seed: number; readonly evaluations: number }) {
  const threads = [0, 1].map(() => good(createTrials(project, options)));
  const steps = chooseSteps(threads[0]!, options);
  for (let step = steps.next([]); ; ) {
    if (step.done) return step.value;
    const results: JobDone[] = [];
    for (const [i, job] of [...step.value.entries()].reverse())
      results[i] = drain(runJob(threads[i % 2]!, job, { seed: options.seed, stopped: () => false }));
    step = steps.next(results);
  }
}

// The wider the gap the less noise, until the peak at resonance leaves the band's room.
const quiet = changed(small, {
  brief: '{ "band": { "from": "50 Hz", "to": "6 kHz", "within": "2 dB" }, "noise": { "atMost": "46 dB" } }',
});

test("the same seed gives the same answer to the bit, in pieces that are dealt out to threads too", () => {
  const sheets = changed(quiet, {
    choices:
      '[{ "path": "microphone.film.gap", "between": ["15 um", "200 um"] }, { "path": "microphone.diaphragm.thickness", "from": ["30 um", "50 um"] }]',
  });
  const options = { seed: 4, evaluations: 50 };
  expect(JSON.stringify(good(chooseInTwo(sheets, options)))).toBe(JSON.stringify(good(drain(choose(sheets, options)))));
});

test("where something is missed a design with room is better than one whose peak just touches the band's limit", () => {
  const at = (gap: number) => standing({ "microphone.film.gap": `${gap} um` }, quiet);
  const end = ({ verdict }: Judged) => verdict.find(({ requirement }) => requirement === "brief.band.to")!.got!;
  // Between them the band's end falls by kilohertz, as one from which the level falls becomes one where it peaks.
  let [low, high] = [40, 50];
  while (high - low > 0.02) {
    const middle = (low + high) / 2;
    if (end(at(middle)) > 6000) low = middle;
    else high = middle;
  }
  expect(end(at(low)) - end(at(high))).toBeGreaterThan(2000);
  const [roomy, touching] = [at(0.995 * low), at(low)];
  expect(touching.measures.noise!).toBeLessThan(roomy.measures.noise!);
  expect(better(worthOf(roomy), worthOf(touching))).toBe(true);
  expect(better(worthOf(touching), worthOf(at(high)))).toBe(true);
});

test("a brief that is relaxed as proposed is met all around what is then chosen", () => {
  const { designs, refused } = good(drain(choose(quiet, { seed: 4, evaluations: 100 })));
  expect(designs[0]!.verdict.filter(({ met }) => !met)).toHaveLength(1);
  expect(refused.map(({ requirement }) => requirement)).toEqual(["brief.noise.atMost"]);
  const relaxed = changed(quiet, { "brief.noise.atMost": `${refused[0]!.nearest} dB` });
  const again = good(drain(choose(relaxed, { seed: 4, evaluations: 60 })));
  expect(again.refused).toEqual([]);
  expect(again.designs[0]!.reserve).toBeGreaterThan(0.003);
  const gap = Number.parseFloat(again.designs[0]!.set["microphone.film.gap"]!);
  for (const by of [0.998, 1.002]) {
    const near = standing({ "microphone.film.gap": `${by * gap} um` }, relaxed);
    expect(near.verdict.every(({ met }) => met)).toBe(true);
  }
});
