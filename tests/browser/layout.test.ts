import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { field, openBench, type View } from "./bench.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const views: readonly View[] = [
  [1440, 900],
  [1024, 768],
  [390, 844],
  [320, 640],
  [2560, 1440],
].flatMap(([width = 0, height = 0]) => (["light", "dark"] as const).map((paper) => ({ width, height, paper })));

/** Rules that axe finds broken and calls serious or critical, with the elements. */
async function serious(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: run } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await run.run();
    return violations
      .filter(({ impact }) => impact === "serious" || impact === "critical")
      .flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  });
}

/** Elements whose text does not fit into them, or that stand out of the page. */
function clipped(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const wide = document.documentElement.clientWidth;
    for (const one of document.querySelectorAll<HTMLElement>(
      "h1, h2, p, label, legend, dt, dd, li, span, button, summary",
    )) {
      const box = one.getBoundingClientRect();
      if (box.width === 0) continue;
      if (box.right > wide + 0.5 || box.left < -0.5) found.push(`outside: ${one.textContent}`);
      if (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline")
        found.push(`clipped: ${one.textContent}`);
    }
    for (const input of document.querySelectorAll<HTMLInputElement>("input"))
      if (input.scrollWidth > input.clientWidth + 1) found.push(`clipped: ${input.value}`);
    for (const text of document.querySelectorAll<SVGTextElement>("svg text")) {
      const box = text.getBoundingClientRect();
      const frame = (text.ownerSVGElement?.parentElement ?? document.body).getBoundingClientRect();
      if (box.width > 0 && (box.left < frame.left - 1 || box.right > frame.right + 1))
        found.push(`outside chart: ${text.textContent}`);
    }
    return found;
  });
}

/** Pairs of texts in a chart that lie on each other. */
function overlapping(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    for (const svg of document.querySelectorAll(".chart svg")) {
      const texts = [...svg.querySelectorAll("text")].map((one) => ({ one, box: one.getBoundingClientRect() }));
      for (const [i, a] of texts.entries())
        for (const b of texts.slice(i + 1)) {
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          if (across > 0.5 && down > 3) found.push(`${a.one.textContent} | ${b.one.textContent}`);
        }
    }
    return found;
  });
}

const scrollsSideways = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

describe.each(views)("at $width x $height on $paper paper", (view) => {
  test("nothing is cut off, nothing overlaps, and the page does not scroll sideways", async () => {
    const { page, close } = await openBench(browser, view);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    expect(await serious(page)).toEqual([]);

    // Nor with a problem beside a field and the old answer shown as old.
    await field(page, "microphone.film.gap").fill("38 parsecs of nothing in particular");
    await field(page, "microphone.film.gap").blur();
    await page.waitForSelector('main[data-freshness="old"]');
    expect(await scrollsSideways(page)).toBe(false);
    expect((await clipped(page)).filter((text) => !text.includes("parsecs of nothing in particular"))).toEqual([]);
    expect(await serious(page)).toEqual([]);
    await close();
  });
});

test("the setting of the paper wins over the system's, and is kept", async () => {
  const { page, close } = await openBench(browser, { width: 1440, height: 900, paper: "light" });
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  expect(await ground()).toBe("rgb(251, 250, 246)");
  await page.getByLabel("Paper").selectOption("dark");
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await page.reload();
  await page.waitForSelector('main[data-freshness="current"]');
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await close();
});

test("every field can be reached and changed by key alone, and the focus is seen", async () => {
  const { page, close } = await openBench(browser);
  const reached = new Set<string>();
  for (let i = 0; i < 30; i++) {
    await page.keyboard.press("Tab");
    const here = await page.evaluate(() => {
      const active = document.activeElement as HTMLElement;
      const path = active.closest<HTMLElement>("[data-path]")?.dataset["path"] ?? null;
      return { path, outline: getComputedStyle(active).outlineStyle };
    });
    if (here.path !== null) {
      reached.add(here.path);
      expect(here.outline).toBe("solid");
    }
  }
  const paths = await page.locator("[data-path]").evaluateAll((all) => all.map((one) => one.getAttribute("data-path")));
  expect([...reached].sort()).toEqual([...paths].sort());
  await close();
});

test("in print there is white paper and no button", async () => {
  const { page, close } = await openBench(browser, { width: 794, height: 1123, paper: "dark" });
  await page.emulateMedia({ media: "print" });
  expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe("rgb(255, 255, 255)");
  expect(await page.getByRole("button").count()).toBe(0);
  expect(await scrollsSideways(page)).toBe(false);
  await close();
});
