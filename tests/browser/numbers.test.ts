import { expect, test } from "vitest";
import type { Prediction } from "../../src/core/index.ts";
import { answerOf, change, current, field, numbers, predicted, seeDamping, sharedBench, shownField } from "./bench.ts";

const shared = sharedBench({ putBack: true });

/** What the page shows, by its key in `predict --json`. */
const keys = [
  "sensitivity.magnitude",
  "resonance.frequency",
  "resonance.dampingRatio",
  "band.from",
  "band.to",
  "sensitivity.best.at",
];

function at(prediction: Prediction, key: string): number | null {
  return key.split(".").reduce<unknown>((value, step) => (value as Record<string, unknown>)[step], prediction) as
    | number
    | null;
}

/** Every digit: core rounds the same in Node and in the browser. */
function agrees(found: number | null | undefined, expected: number | null, key: string): void {
  expect(found ?? null, key).toBe(expected);
}

/** "6.57" or "−2.747": what is written, as a number in the unit beside it. */
const digits = (text: string): string => text.replace("−", "-").replace(/[^\d.-]/g, "");

test("the first page loads, computes and says which answer it shows", async () => {
  const { page } = shared;
  expect(await answerOf(page)).toBeGreaterThan(0);
  expect(await page.locator("h1").textContent()).toContain("(invented)");
  expect([...(await numbers(page)).keys()]).toEqual(keys);
  await seeDamping(page);
  expect(await page.locator('.chart svg[role="img"]').count()).toBe(7);
});

/** Typed; three places each of gap, side and guide are dragged to in drag.test.ts. */
const changes = [
  ["microphone.film.gap", "0,12 mm"],
  ["microphone.diaphragm.across", "6.25 mm"],
  ["microphone.guide.at", "-2.1 mm"],
  ["microphone.guide.at", "0 mm"],
] as const;

test.each(changes)("%s = %s shows the numbers that the command gives", async (path, value) => {
  const answer = predicted(`${path}=${value}`);
  const { page } = shared;
  await change(page, path, value);
  const shown = await numbers(page);
  const asked = await answer;
  for (const key of keys) {
    const expected = at(asked, key);
    const found = shown.get(key);
    agrees(found?.value, expected, key);
    if (expected === null || found === undefined) continue;
    // The digits that are written, whatever the unit's power of ten: half of the last one.
    const written = digits(found.text);
    const power = Math.round(Math.log10(Math.abs(expected / Number(written))));
    const last = 10 ** (power - (written.split(".")[1] ?? "").length);
    expect(Math.abs(Number(written) * 10 ** power - expected), `${key}: ${found.text}`).toBeLessThanOrEqual(
      last / 2 + 1e-12 * Math.abs(expected),
    );
  }
});

test("choosing a word and emptying the film are answered like the command", async () => {
  const answer = predicted("microphone.diaphragm.edges.sides=supported", "microphone.film=null");
  const { page } = shared;
  const before = await answerOf(page);
  await (await shownField(page, "microphone.diaphragm.edges.sides")).selectOption("supported");
  await page.waitForFunction((earlier) => Number(document.querySelector("main")?.dataset["answer"]) > earlier, before);
  await current(page);
  await change(page, "microphone.film.gap", "");
  const asked = await answer;
  const shown = await numbers(page);
  for (const key of keys) agrees(shown.get(key)?.value, at(asked, key), key);
  expect(await field(page, "microphone.film.gap").getAttribute("placeholder")).toBe("no film");
});

test("an opened card says what its numbers depend on most", async () => {
  const { page } = shared;
  await change(page, "microphone.film.gap", "");
  await page.locator(".number", { hasText: "Resonance" }).getByRole("button").click();
  const depends = page.locator(".opened-card [data-depends='Resonance']");
  await depends.waitFor();
  const lines = await depends.locator("div").allTextContents();
  // f as h / a^2, with a little of the stress that the frame leaves in the sheet.
  expect(lines.find((line) => line.startsWith("Thickness"))).toMatch(/\+1\.\d/);
  expect(lines.find((line) => line.startsWith("Side across"))).toMatch(/−1\.\d/);
  await page.locator(".opened-card").getByRole("button").click();
});

test("of many values typed in a row the last one is shown", async () => {
  const answer = predicted("microphone.film.gap=45 um");
  const { page } = shared;
  const gap = await shownField(page, "microphone.film.gap");
  for (let i = 0; i < 20; i++) await gap.fill(`${30 + i} um`);
  await change(page, "microphone.film.gap", "45 um");
  const shown = await numbers(page);
  const { resonance } = await answer;
  agrees(shown.get("resonance.frequency")?.value, resonance.frequency, "resonance.frequency");
});

test("the tables behind the charts hold the response and the scan", async () => {
  const answer = predicted();
  const { page } = shared;
  await page.locator(".response details.table summary").click();
  await page.locator(".response details.table tbody tr").first().waitFor();
  const rows = await page.locator(".response details.table tbody tr").count();
  const { response } = await answer;
  expect(rows).toBe(response.frequency.length);
  const first = await page.locator(".response details.table tbody tr").first().locator("td").allTextContents();
  expect(Number(first[0])).toBeCloseTo(response.frequency[0] ?? 0, 3);
  expect(Number(first[1])).toBeCloseTo(1e3 * Math.hypot(response.re[0] ?? 0, response.im[0] ?? 0), 5);
});
