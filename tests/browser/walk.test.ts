/** The story as far as the pages go, once by mouse and once by keyboard alone. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { keyMap } from "../../src/words/en/keys.ts";
import { field, openBench } from "./bench.ts";
import { serious } from "./looks.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
});

const bandEnd = '[data-requirement="brief.band.to"]';
const met = (page: Page) => page.waitForSelector(`${bandEnd}.met`, { state: "attached" });
const missed = (page: Page) => page.waitForSelector(`${bandEnd}.missed`, { state: "attached" });
const onPage = (page: Page, key: string) => page.waitForSelector(`main[data-page="${key}"] #page-title`);

test("by mouse: the walk leads through the story, mends the band, and can be left at any step", async () => {
  const { page, close } = await openBench(browser);
  await missed(page);
  await page.getByRole("button", { name: "Walk", exact: true }).click();
  await onPage(page, "brief");
  const strip = page.locator(".walk");
  await strip.getByRole("button", { name: "next" }).click();
  await onPage(page, "bench");
  await strip.getByRole("button", { name: "next" }).click();
  await strip.getByRole("button", { name: "set the gap to 40 µm" }).click();
  await met(page);
  expect(await field(page, "microphone.film.gap").inputValue()).toBe("40 um");
  expect(await serious(page)).toEqual([]);
  await strip.getByRole("button", { name: "leave the walk" }).click();
  expect(await strip.count()).toBe(0);
  // A word beside a label leads to what it means.
  await page.locator('[data-part="film"]').click();
  await page.locator('[data-path="microphone.film.gap"] .ask').click();
  await page.locator('dialog[open] [data-term="air film"].wanted').waitFor();
  await page.keyboard.press("Escape");
  for (const word of ["Shelf", "Brief", "Chart", "Report"]) {
    await page.locator(".page-words").getByText(word, { exact: true }).click();
    await onPage(page, word.toLowerCase());
  }
  await close();
});

test("by keyboard alone: the map of keys, the pages, a value, the whole walk", async () => {
  const { page, close } = await openBench(browser);
  await page.keyboard.press("?");
  await page.getByText(keyMap[0]?.keys[0]?.does ?? "", { exact: true }).waitFor();
  expect(await serious(page)).toEqual([]);
  await page.keyboard.press("Escape");
  await page.keyboard.press("2");
  await onPage(page, "brief");
  await page.keyboard.press("[");
  await onPage(page, "shelf");
  await page.keyboard.press("3");
  await onPage(page, "bench");
  // From the top to the word that begins the walk.
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? "");
  for (let i = 0; i < 30 && (await focused()) !== "Walk"; i++) await page.keyboard.press("Shift+Tab");
  expect(await focused()).toBe("Walk");
  await page.keyboard.press("Enter");
  await onPage(page, "brief");
  const next = async () => {
    const stays = await page.waitForFunction(() => {
      const walk = document.querySelector(".walk");
      const words = [...(walk?.querySelectorAll("button") ?? [])].map(({ textContent }) => textContent?.trim() ?? "");
      return walk === null ? "over" : words.some((word) => ["next", "end"].includes(word)) && "on";
    });
    if ((await stays.jsonValue()) === "over") return;
    // A page that opens late may take the focus to its title: the way on is by Tab then.
    for (let i = 0; i < 80 && !["next", "end"].includes(await focused()); i++) await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
  };
  await next();
  await onPage(page, "bench");
  await next();
  await page.locator(".walk").getByText("set the gap to 40 µm").waitFor();
  for (let i = 0; i < 2; i++) await page.keyboard.press("Shift+Tab");
  expect(await focused()).toBe("set the gap to 40 µm");
  await page.keyboard.press("Enter");
  await met(page);
  for (let i = 0; i < 2; i++) await page.keyboard.press("Tab");
  for (let i = 0; i < 20 && (await page.locator(".walk").count()) > 0; i++) await next();
  await onPage(page, "shelf");
  await page.waitForSelector('[data-keeping="kept"]');
  // Undone and done again by key.
  await page.keyboard.press("Control+z");
  await missed(page);
  await page.keyboard.press("Control+Shift+Z");
  await met(page);
  // F1 in a field explains it.
  await page.keyboard.press("2");
  await onPage(page, "brief");
  await field(page, "brief.noise.atMost").focus();
  await page.keyboard.press("F1");
  await page.locator('dialog[open] [data-term="noise"].wanted').waitFor();
  await page.keyboard.press("Escape");
  await close();
});
