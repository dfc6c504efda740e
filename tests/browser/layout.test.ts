import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { field, openBench, reset, seeDamping, shownField, type View } from "./bench.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let browser: Browser;
let shared: Awaited<ReturnType<typeof openBench>>;
beforeAll(async () => {
  browser = await openBrowser();
  shared = await openBench(browser);
});
afterAll(async () => {
  await shared.close();
  await browser.close();
});

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

/** Pairs of texts on the page that lie on each other: every line of every text in sight, in drawings and charts too. */
function overlapping(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const lines: { text: string; box: DOMRect }[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const { parentElement: parent } = node;
      const text = node.textContent?.trim() ?? "";
      if (text === "" || parent === null || parent.closest("noscript, script, option, title, caption") !== null)
        continue;
      if (!parent.checkVisibility({ visibilityProperty: true })) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) lines.push({ text, box });
    }
    for (const field of document.querySelectorAll<HTMLElement>("input:not([type=file]), select"))
      if (field.checkVisibility()) lines.push({ text: "a field", box: field.getBoundingClientRect() });
    const found: string[] = [];
    for (const [i, a] of lines.entries())
      for (const b of lines.slice(i + 1)) {
        const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (across > 0.5 && down > 3) found.push(`${a.text} | ${b.text}`);
      }
    return found;
  });
}

/** Texts and lines of drawings and charts that hardly stand out from the card they lie on (WCAG: 4.5 and 3). */
function faint(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const pixel = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
    const luminance = (color: string): number => {
      if (pixel === null) throw new Error("no canvas");
      pixel.fillStyle = color;
      pixel.fillRect(0, 0, 1, 1);
      const [r = 0, g = 0, b = 0] = [...pixel.getImageData(0, 0, 1, 1).data].map((part) => {
        const share = part / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const contrast = (a: string, b: string): number => {
      const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
      return (high + 0.05) / (low + 0.05);
    };
    const found: string[] = [];
    const look = (selector: string, part: "fill" | "stroke", least: number) => {
      for (const one of document.querySelectorAll<SVGElement>(selector)) {
        const card = getComputedStyle(one.closest(".panel") ?? document.body).backgroundColor;
        const color = getComputedStyle(one)[part];
        if (contrast(color, card) < least) found.push(`${selector} ${one.textContent}: ${color} on ${card}`);
      }
    };
    look(".chart text", "fill", 4.5);
    look(".chart .curve path", "stroke", 3);
    look(".ring .rim", "stroke", 3);
    look(".sheet .plate, .sheet .edges, .dimension-lines path, .sheet .light-line", "stroke", 3);
    return found;
  });
}

const scrollsSideways = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

describe.each(views)("at $width x $height on $paper paper", ({ width, height, paper }) => {
  test("nothing is cut off, nothing overlaps, and the page does not scroll sideways", async () => {
    const { page } = shared;
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: paper });
    await seeDamping(page);
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    expect(await faint(page)).toEqual([]);
    expect(await serious(page)).toEqual([]);
  });

  test("nor with a problem beside a field and the old answer shown as old", async () => {
    const { page } = shared;
    await (await shownField(page, "microphone.film.gap")).fill("38 parsecs of nothing in particular");
    await field(page, "microphone.film.gap").blur();
    await page.waitForSelector('main[data-freshness="old"]');
    await page.evaluate(() => window.scrollTo(0, 0));
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect((await clipped(page)).filter((text) => !text.includes("parsecs of nothing in particular"))).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    expect(await serious(page)).toEqual([]);
    await reset(page);
  });
});

/** Waits until every chart has been drawn for the room it has. */
async function drawn(page: Page): Promise<void> {
  await page.waitForFunction(() =>
    [...document.querySelectorAll(".plot")].every((plot) => {
      const width = Number(plot.querySelector("svg")?.getAttribute("width"));
      return Math.abs(width - plot.clientWidth) <= 1;
    }),
  );
}

test("the setting of the paper wins over the system's, and is kept", async () => {
  const page = await browser.newPage({ locale: "en-GB", colorScheme: "light" });
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  await page.goto(inject("address"));
  expect(await ground()).toBe("rgb(251, 250, 246)");
  await page.getByLabel("Paper").selectOption("dark");
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await page.reload();
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await page.close();
});

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

/** Every name that `watchFocus` noted, and those of them that could not be seen. */
async function focused(page: Page): Promise<{ reached: readonly string[]; unseen: readonly string[] }> {
  const all = await page.evaluate(() => [...(window as unknown as { reached: Map<string, boolean> }).reached]);
  return { reached: all.map(([name]) => name), unseen: all.filter(([, seen]) => !seen).map(([name]) => name) };
}

test("every ring and chart can be reached by key alone, and the focus is seen", async () => {
  const { page, close } = await openBench(browser);
  await watchFocus(page);
  await page.locator(".past summary").focus();
  for (let i = 0; i < 60; i++) await page.keyboard.press("Tab");
  const { reached, unseen } = await focused(page);
  expect(unseen).toEqual([]);
  const wanted = await page
    .locator("[data-grip], .plot")
    .evaluateAll((all) => all.map((one) => one.getAttribute("data-grip") ?? one.getAttribute("aria-label") ?? ""));
  for (const name of wanted) expect(reached).toContain(name);
  await close();
});

test("every part and its values can be reached by key alone, and the focus is seen", async () => {
  const { page, close } = await openBench(browser);
  await watchFocus(page);
  for (const part of ["diaphragm", "guide", "film", "air", "light"]) {
    await page.locator(`[data-part="${part}"]`).focus();
    await page.keyboard.press("Enter");
    const fields = await page.locator(`[data-group="${part}"] [data-path]`).count();
    for (let i = 0; i < fields + 5; i++) await page.keyboard.press("Tab");
  }
  const { reached, unseen } = await focused(page);
  expect(unseen).toEqual([]);
  const wanted = await page
    .locator("[data-path]")
    .evaluateAll((all) => all.map((one) => one.getAttribute("data-path")));
  for (const name of wanted) expect(reached).toContain(name);
  await close();
});

test("in print there is white paper, and nothing to press that paper can't answer", async () => {
  const { page } = shared;
  await page.setViewportSize({ width: 794, height: 1123 });
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe("rgb(255, 255, 255)");
  for (const name of ["Save as file", "Undo", "Keep", "forget"])
    expect(await page.getByRole("button", { name, exact: true }).count(), name).toBe(0);
  expect(await page.locator(".ring:visible").count()).toBe(0);
  expect(await scrollsSideways(page)).toBe(false);
});
