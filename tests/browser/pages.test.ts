/** Every page of the app at every size: one load, pages switched as a click on their word does. */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { pageKeys, pageWords } from "../../src/words/en/pages.ts";
import { sharedBench } from "./bench.ts";
import { clipped, drawn, faint, overlapping, scrollsSideways, serious } from "./looks.ts";

const shared = sharedBench();

const sizes = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
] as const;

/** Opens a page and waits until all that it asked for is answered. */
async function show(page: Page, key: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to;
  }, key);
  await page.waitForSelector(`main[data-page="${key}"] #page-title`);
  await page.waitForFunction(() =>
    [...document.querySelectorAll<HTMLElement>(".task-state")].every(({ dataset }) =>
      ["current", "refused", "waiting"].includes(dataset["state"] ?? ""),
    ),
  );
}

async function looksGood(page: Page, where: string): Promise<void> {
  await drawn(page);
  expect(await scrollsSideways(page), `${where}: scrolls sideways`).toBe(false);
  expect(await clipped(page), `${where}: cut off`).toEqual([]);
  expect(await overlapping(page), `${where}: on each other`).toEqual([]);
}

describe.each(pageKeys)("the page %s", (key) => {
  test("fits at every size, on light and dark paper and in print, and axe finds nothing serious", async () => {
    const { page } = shared;
    await page.emulateMedia({ media: "screen", colorScheme: "light" });
    await show(page, key);
    expect(await page.title()).toContain(pageWords[key].name);
    for (const size of sizes) {
      await page.setViewportSize(size);
      await looksGood(page, `${key} at ${size.width}`);
    }
    // Colors do not move anything: each paper is judged once.
    await page.setViewportSize(sizes[0]);
    expect(await serious(page), key).toEqual([]);
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await faint(page), `${key}, ${colorScheme}`).toEqual([]);
    }
    await page.setViewportSize({ width: 794, height: 1123 });
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    await looksGood(page, `${key} in print`);
    await page.emulateMedia({ media: "screen", colorScheme: "light" });
    await page.setViewportSize(sizes[0]);
  });

  test("every chart has a name and a table", async () => {
    const { page } = shared;
    await show(page, key);
    const lacking = await page.evaluate(() => {
      const unnamed = [...document.querySelectorAll(".plot, canvas, svg[role=img], [role=img]")]
        .filter((one) => !(one.getAttribute("aria-label") ?? one.querySelector("title")?.textContent))
        .map((one) => `no name: ${one.outerHTML.slice(0, 120)}`);
      const untold = [...document.querySelectorAll(".plot")]
        .filter((plot) => plot.closest(".panel")?.querySelector("details.table") === null)
        .map((plot) => `no table: ${plot.getAttribute("aria-label")}`);
      return [...unnamed, ...untold];
    });
    expect(lacking).toEqual([]);
  });
});
