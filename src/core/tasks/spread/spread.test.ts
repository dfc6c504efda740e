import { expect, test } from "vitest";
import { changed, demo } from "../../../../tests/demoProject.ts";
import { codesOf, good } from "../../../../tests/outcomes.ts";
import { drain } from "../../numerics/progress.ts";
import { readSpreads } from "../../project/tolerances.ts";
import { joinSpread, spread, spreadPart } from "./spread.ts";

const small = changed(demo, {
  "microphone.front": "null",
  "microphone.back": "null",
  tolerances: '[{ "path": "microphone.film.gap", "kind": "uniform", "half": "2 um", "costOfHalving": 1 }]',
  brief: '{ "damping": { "atLeast": 0.4 } }',
});
// Nothing is to be bought: that is asked for by itself.
const question = { seed: 5, count: 24, influence: 8, wanted: 0 };

test("parts put together in any order equal the whole run to the bit", () => {
  const whole = good(drain(spread(small, question)));
  const parts = [2, 0, 1].map((part) => good(drain(spreadPart(small, { ...question, part, parts: 3 }))));
  expect(JSON.stringify(good(joinSpread(small, parts, question)))).toBe(JSON.stringify(whole));
});

test("more values than the points are even in are refused", () => {
  const paths = ["across", "along", "thickness", "lossFactor"].map((key) => `microphone.diaphragm.${key}`);
  const more = ["film.gap", "guide.at", "guide.depth", "light.wavelength", "back.vent.diameter", "back.vent.length"];
  const list = [...paths, ...more.map((key) => `microphone.${key}`), "microphone.front.holes[0].diameter"];
  const unit = (path: string) => (path.endsWith("lossFactor") ? "0.0001" : "1 nm");
  const tolerances = JSON.stringify(list.map((path) => ({ path, standard: unit(path) })));
  const many = changed(demo, { tolerances, "brief.site": "{}" });
  expect(codesOf(drain(spread(many, { count: 1, influence: 0 })))).toEqual(["too-many-tolerances"]);
});

test("with one tolerance all the variance is its own", () => {
  const [only] = good(drain(spread(small, { ...question, influence: 24 }))).influence;
  expect(only?.path).toBe("microphone.film.gap");
  expect(Math.abs((only?.total ?? 0) - 1)).toBeLessThan(4 * (only?.totalStandard ?? 0) + 1e-6);
});

test("parts that do not fit together are told apart", () => {
  const part = good(drain(spreadPart(small, { ...question, part: 0, parts: 2 })));
  expect(codesOf(joinSpread(small, []))).toEqual(["no-parts"]);
  expect(codesOf(joinSpread(small, [part]))).toEqual(["parts-missing"]);
  expect(codesOf(joinSpread(small, [part, { ...part, seed: 6 }]))).toEqual(["parts-differ"]);
  expect(codesOf(drain(spreadPart(small, { ...question, part: 2, parts: 2 })))).toEqual(["bad-part"]);
});

test("a run that was stopped tells what its first specimens say", () => {
  const part = good(drain(spreadPart(small, { ...question, part: 0, parts: 4 })));
  const told = joinSpread(small, [part], { partial: true });
  expect(good(told).count).toBe(part.rows.length);
  expect(told.ok && told.remarks.map(({ code }) => code)).toContain("stopped");
});

test("tolerances that say nothing, or contradict each other, are named", () => {
  const read = (tolerances: string) => readSpreads(changed(small, { tolerances }));
  expect(codesOf(read('[{ "path": "microphone.film.gap" }]'))).toEqual(["no-width"]);
  const gap = '{ "path": "microphone.film.gap", "standard": "1 um" }';
  expect(codesOf(read(`[${gap}, ${gap}]`))).toEqual(["twice"]);
  const others =
    '{ "path": "microphone.diaphragm.across", "standard": "1 um" }, { "path": "microphone.diaphragm.along", "standard": "1 um" }';
  const pair = (a: string, b: string, r: number) =>
    `{ "together": ["microphone.${a}", "microphone.${b}"], "correlation": ${r} }`;
  const impossible = [
    pair("film.gap", "diaphragm.across", 0.95),
    pair("diaphragm.across", "diaphragm.along", 0.95),
    pair("film.gap", "diaphragm.along", -0.95),
  ];
  expect(codesOf(read(`[${gap}, ${others}, ${impossible.join(", ")}]`))).toEqual(["impossible-correlation"]);
  const alone = read(`[${gap}, ${pair("film.gap", "diaphragm.across", 0.5)}]`);
  expect(alone.ok && alone.remarks.map(({ code }) => code)).toEqual(["alone"]);
  expect(codesOf(drain(spread(changed(small, { tolerances: "[]" }), question)))).toEqual(["no-tolerances"]);
  expect(codesOf(drain(spread(small, { ...question, count: 0 })))).toEqual(["bad-count"]);
});

test("correlated values move together as asked", () => {
  const spreads = good(
    readSpreads(
      changed(small, {
        tolerances: `[{ "path": "microphone.diaphragm.across", "standard": "10 um" }, { "path": "microphone.diaphragm.along", "standard": "10 um" },
          { "together": ["microphone.diaphragm.across", "microphone.diaphragm.along"], "correlation": 0.8 }]`,
      }),
    ),
  );
  // On a grid of the unit square: correlation of normal scores, exact up to the grid.
  let [xy, xx, yy] = [0, 0, 0];
  for (let i = 0; i < 60; i++)
    for (let j = 0; j < 60; j++) {
      const [x = 0, y = 0] = spreads.scores([(i + 0.5) / 60, (j + 0.5) / 60]);
      xy += x * y;
      xx += x * x;
      yy += y * y;
    }
  expect(xy / Math.sqrt(xx * yy)).toBeCloseTo(0.8, 2);
});
