import { expect, test } from "vitest";
import { answerOf, change, field, numbers, sharedBench, shownField } from "./bench.ts";

const shared = sharedBench({ putBack: true });

const wrong = [
  ["microphone.film.gap", "38", "unit"],
  ["microphone.film.gap", "38 kg", "length"],
  ["microphone.diaphragm.thickness", "-30 um", "greater than 0"],
  ["microphone.diaphragm.across", "NaN mm", "Found"],
  ["microphone.light.wavelength", "", "Found"],
] as const;

test.each(wrong)(
  "%s = %j is said beside the field, and the old answer stays, marked as old",
  async (path, value, part) => {
    const { page } = shared;
    const answer = await answerOf(page);
    const before = await numbers(page);
    await (await shownField(page, path)).fill(value);
    await field(page, path).blur();
    await page.waitForSelector('main[data-freshness="old"]');
    const problem = page.locator(`[data-path="${path}"] .problem`);
    expect(await problem.textContent()).toContain(part);
    expect(await field(page, path).inputValue()).toBe(value);
    expect(await field(page, path).getAttribute("aria-invalid")).toBe("true");
    expect(await field(page, path).getAttribute("aria-describedby")).toBe(await problem.getAttribute("id"));
    expect(await page.locator(".state").textContent()).toContain("Old numbers");
    expect(await answerOf(page)).toBe(answer);
    expect(await numbers(page)).toEqual(before);
  },
);

test("a value that only the whole microphone refuses is said beside its field too", async () => {
  const { page } = shared;
  await (await shownField(page, "microphone.guide.at")).fill("4 mm");
  await field(page, "microphone.guide.at").blur();
  await page.waitForSelector('main[data-freshness="old"]');
  expect(await page.locator('[data-path="microphone.guide.at"] .problem').textContent()).toMatch(/guide|side/i);
  await change(page, "microphone.guide.at", "2 mm");
  expect(await page.locator(".problem").count()).toBe(0);
});

test("a half-typed value is not scolded, and a mended one takes its mark away", async () => {
  const { page } = shared;
  await (await shownField(page, "microphone.film.gap")).fill("4");
  expect(await page.locator(".problem").count()).toBe(0);
  await field(page, "microphone.film.gap").blur();
  await page.waitForSelector('main[data-freshness="old"]');
  await change(page, "microphone.film.gap", "40 um");
  expect(await page.locator(".problem").count()).toBe(0);
  expect(await page.locator(".state").textContent()).toBe("");
});
