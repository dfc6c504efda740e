import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import { answerOf, current, field, numbers, openBench, predicted, reset } from "./bench.ts";

let browser: Browser;
let shared: Awaited<ReturnType<typeof openBench>>;
beforeAll(async () => {
  browser = await openBrowser();
  shared = await openBench(browser);
  // A kept design would be computed again with each drag, and might widen an axis when it comes.
  await shared.page.getByRole("button", { name: "forget" }).click();
});
afterAll(async () => {
  await shared.close();
  await browser.close();
});

/** Takes a ring, moves it in steps, and looks before it lets go. */
async function drag(
  page: Page,
  path: string,
  by: { x: number; y: number },
  before: () => Promise<void>,
): Promise<void> {
  const ring = page.locator(`[data-grip="${path}"]`);
  await ring.scrollIntoViewIfNeeded();
  const box = await ring.boundingBox();
  if (box === null) throw new Error(`no ring for ${path}`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 5; i++) await page.mouse.move(x + (by.x * i) / 5, y + (by.y * i) / 5);
  await before();
  await page.mouse.up();
}

/** What the tables hold, by column title. */
async function table(page: Page, panel: string): Promise<ReadonlyMap<string, readonly (number | null)[]>> {
  const details = page.locator(`${panel} details.table`);
  if ((await details.getAttribute("open")) === null) await details.locator("summary").click();
  await details.locator("tbody tr").first().waitFor();
  const found = await details.evaluate((one) => {
    const titles = [...one.querySelectorAll("th")].map((head) => head.textContent ?? "");
    const rows = [...one.querySelectorAll("tbody tr")].map((row) =>
      [...row.querySelectorAll("td")].map((cell) => cell.dataset["value"]),
    );
    return titles.map((title, i) => [title, rows.map((row) => row[i]).filter((text) => text !== undefined)] as const);
  });
  return new Map(found.map(([title, cells]) => [title, cells.map((text) => (text === "" ? null : Number(text)))]));
}

/** The same numbers in the browser and in Node; tables write them out to twelve digits and more. */
function agree(found: readonly (number | null)[] | undefined, expected: readonly number[], what: string): void {
  expect(found?.length, what).toBe(expected.length);
  const largest = Math.max(...expected.map(Math.abs));
  const worst = expected.reduce((most, value, i) => Math.max(most, Math.abs((found?.[i] ?? Number.NaN) - value)), 0);
  expect(worst / largest, what).toBeLessThanOrEqual(1e-12);
}

const gap = "microphone.film.gap";
const plate = "microphone.diaphragm";
const across = `${plate}.across`;
const guide = "microphone.guide.at";
/** One after the other: each begins where the last one ended. */
const drags: readonly (readonly [string, { x: number; y: number }])[] = [
  [gap, { x: 0, y: 9 }],
  [gap, { x: 0, y: 26 }],
  [gap, { x: 0, y: -40 }],
  [across, { x: 14, y: 0 }],
  [across, { x: -5, y: 0 }],
  [across, { x: 9, y: 0 }],
  [guide, { x: -22, y: 0 }],
  [guide, { x: -55, y: 0 }],
  [guide, { x: -40, y: 0 }],
];

test.each(drags)("%s dragged by %o shows what the command predicts there", async (path, by) => {
  const { page } = shared;
  const start = await field(page, path).inputValue();
  const axis = () => page.locator(".response .chart svg text").allTextContents();
  const axes = await axis();
  await drag(page, path, by, async () => {
    // Under the hand the axes stand still: no tick has been written anew.
    const now = await axis();
    expect(axes.filter((text) => /^−?\d+k?$/.test(text))).toEqual(now.filter((text) => /^−?\d+k?$/.test(text)));
  });
  expect(await field(page, path).inputValue()).not.toBe(start);
  const values = [gap, across, guide].map(async (one) => `${one}=${await field(page, one).inputValue()}`);
  // The command computes while the page does.
  const [asked] = await Promise.all([predicted(...(await Promise.all(values))), current(page)]);
  const shown = await numbers(page);
  const { resonance, response, sensitivity } = asked;
  agree([shown.get("resonance.dampingRatio")?.value ?? null], [resonance.dampingRatio ?? Number.NaN], "damping");
  agree([shown.get("resonance.frequency")?.value ?? null], [resonance.frequency ?? Number.NaN], "resonance");
  const points = await table(page, ".response");
  agree(points.get("Frequency (Hz)"), response.frequency, "frequencies");
  const size = response.re.map((re, i) => Math.hypot(re, response.im[i] ?? 0));
  agree(points.get("|S| (mrad/Pa)"), size, "|S|");
  const scan = await table(page, ".scan");
  const at = scan.get("Guide position (mm)") ?? [];
  const there = sensitivity.scan.at.map((x) => at.findIndex((other) => other !== null && Math.abs(other - x) < 1e-12));
  const heights = scan.get("Static sensitivity (mrad/Pa)") ?? [];
  agree(
    there.map((i) => heights[i] ?? null),
    sensitivity.scan.value,
    "scan",
  );
});

describe("beside what a drag shows", () => {
  afterEach(() => reset(shared.page));
  beforeAll(() => reset(shared.page));

  test.each([
    [gap, { x: 0, y: 20 }],
    [across, { x: 20, y: 0 }],
  ])(
    "answers to %s come in the order of the changes, the last one last, and a drag is one step of the past",
    async (path, by) => {
      const { page } = shared;
      await page.evaluate(() => {
        const main = document.querySelector("main");
        if (main === null) throw new Error("no main");
        const seen: number[] = [];
        Object.assign(window, { seen });
        new MutationObserver(() => seen.push(Number(main.dataset["answer"]))).observe(main, {
          attributeFilter: ["data-answer"],
        });
      });
      const start = await field(page, path).inputValue();
      await drag(page, path, by, async () => {});
      await current(page);
      expect(await answerOf(page)).toBe(Number(await page.locator("main").getAttribute("data-asked")));
      expect(await page.locator(".past li").count()).toBe(2);
      await page.keyboard.press("Control+z");
      expect(await field(page, path).inputValue()).toBe(start);
      await page.keyboard.press("Control+Shift+z");
      expect(await field(page, path).inputValue()).not.toBe(start);
      await current(page);
      // A late answer would stand among those of the steps since.
      const seen = await page.evaluate(() => (window as unknown as { seen: number[] }).seen);
      expect(seen.length).toBeGreaterThan(0);
      expect([...seen].sort((a, b) => a - b)).toEqual(seen);
    },
  );

  test("what can be dragged can be stepped by key and typed, in its field and in the drawing", async () => {
    const { page } = shared;
    const rings = page.locator("[data-grip]");
    const paths = await rings.evaluateAll((all) => all.map((one) => (one as SVGElement).dataset["grip"] ?? ""));
    expect(new Set(paths)).toEqual(new Set([gap, across, guide, `${plate}.along`, `${plate}.thickness`]));
    for (const path of paths) {
      const ring = page.locator(`[data-grip="${path}"]`);
      const before = Number(await ring.getAttribute("aria-valuenow"));
      await ring.focus();
      await page.keyboard.press("ArrowLeft");
      expect(Number(await ring.getAttribute("aria-valuenow")), path).toBeLessThan(before);
      expect(await field(page, path).count(), path).toBe(1);
      expect(await page.locator(`[data-dimension="${path}"] button`).count(), path).toBe(1);
    }
    await current(page);
  });

  test("a ring is stepped by key and says its value; a dimension is typed in place", async () => {
    const { page } = shared;
    const ring = page.locator(`[data-grip="${gap}"]`);
    await ring.focus();
    await page.keyboard.press("ArrowUp");
    expect(await field(page, gap).inputValue()).toBe("39 um");
    await page.keyboard.press("PageDown");
    expect(await field(page, gap).inputValue()).toBe("29 um");
    expect(await ring.getAttribute("aria-valuetext")).toMatch(/^29\.00.µm$/);
    expect(Number(await ring.getAttribute("aria-valuenow"))).toBeCloseTo(29e-6, 12);
    await page.locator(`[data-dimension="${across}"] button`).click();
    await page.keyboard.type("6 mm");
    await page.keyboard.press("Enter");
    expect(await field(page, across).inputValue()).toBe("6 mm");
    await current(page);
    await page.locator('[data-toggle="microphone.diaphragm.edges.sides"]').focus();
    await page.keyboard.press("Enter");
    expect(await field(page, "microphone.diaphragm.edges.sides").inputValue()).toBe("supported");
    await current(page);
  });

  test("a guide that is dragged off the diaphragm says so at its part, and comes back", async () => {
    const { page } = shared;
    await drag(page, guide, { x: 40, y: 0 }, async () => {
      await page.waitForSelector('main[data-freshness="old"]');
    });
    expect(await page.locator(".light-line.wrong").count()).toBe(1);
    expect(await page.locator(".problem.at-part").first().textContent()).toContain("Guide");
    await page.getByRole("button", { name: "Undo" }).click();
    await current(page);
    expect(await page.locator(".light-line.wrong").count()).toBe(0);
  });
});
