import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { openBench } from "./bench.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Notes what gets the focus, by the name of its value or chart, and whether that is seen. */
const watchFocus = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const names = new Map<string, boolean>();
    Object.assign(window, { reached: names });
    document.addEventListener("focusin", ({ target }) => {
      const active = target as HTMLElement;
      const { path, grip } = active.closest<HTMLElement>("[data-path], [data-grip]")?.dataset ?? {};
      const name = path ?? grip ?? active.closest(".plot")?.getAttribute("aria-label");
      const ring = active.querySelector(".reach");
      const seen =
        getComputedStyle(active).outlineStyle === "solid" ||
        (ring !== null && getComputedStyle(ring).stroke !== "none");
      if (name) names.set(name, seen);
    });
  });

/** Sent in a row: each press is still a key of its own. */
async function tabs(page: Page, count: number): Promise<void> {
  await Promise.all(Array.from({ length: count }, () => page.keyboard.press("Tab")));
}

/** Every name that `watchFocus` noted, and those of them that could not be seen. */
async function focused(page: Page): Promise<{ reached: readonly string[]; unseen: readonly string[] }> {
  const all = await page.evaluate(() => [...(window as unknown as { reached: Map<string, boolean> }).reached]);
  return { reached: all.map(([name]) => name), unseen: all.filter(([, seen]) => !seen).map(([name]) => name) };
}

test("every ring and chart can be reached by key alone, and the focus is seen", async () => {
  // A small window: each step scrolls to what it reaches, and paints it.
  const { page, close } = await openBench(browser, { width: 1024, height: 300, paper: "light" });
  await watchFocus(page);
  await page.locator(".past summary").focus();
  await tabs(page, 90);
  const { reached, unseen } = await focused(page);
  expect(unseen).toEqual([]);
  const wanted = await page
    .locator("[data-grip], .plot")
    .evaluateAll((all) => all.map((one) => one.getAttribute("data-grip") ?? one.getAttribute("aria-label") ?? ""));
  for (const name of wanted) expect(reached).toContain(name);
  await close();
});

test("every part and its values can be reached by key alone, and the focus is seen", async () => {
  // A small window: each step scrolls to what it reaches, and paints it.
  const { page, close } = await openBench(browser, { width: 1024, height: 300, paper: "light" });
  await watchFocus(page);
  for (const part of ["diaphragm", "guide", "film", "front", "back", "frame", "body", "air", "light"]) {
    await page.locator(`[data-part="${part}"]`).focus();
    await page.keyboard.press("Enter");
    const fields = await page.locator(`[data-group="${part}"] [data-path]`).count();
    await tabs(page, fields + 9);
  }
  const { reached, unseen } = await focused(page);
  expect(unseen).toEqual([]);
  const wanted = await page
    .locator("[data-path]")
    .evaluateAll((all) => all.map((one) => one.getAttribute("data-path")));
  for (const name of wanted) expect(reached).toContain(name);
  await close();
});
