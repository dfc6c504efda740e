import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { firstLoad } from "../../scripts/firstLoad.ts";
import { openBench } from "./bench.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

test("the Bench loads 350 kB or less until its first answer is painted, and no letters before that", async () => {
  const { page, close } = await openBench(browser);
  const { programs, styles, fonts } = await firstLoad(page);
  // Both threads, the page and its charts: less would mean that something was not seen.
  expect(programs).toBeGreaterThan(100e3);
  expect(programs + styles).toBeLessThanOrEqual(350e3);
  expect(fonts.before).toBe(0);
  expect(fonts.after).toBeGreaterThan(10e3);
  expect(await page.evaluate(() => document.fonts.check("600 14px Inter"))).toBe(true);
  await close();
});
