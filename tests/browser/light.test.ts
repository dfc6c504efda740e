/** The Light page by hand and by key: the operating point, the guide as it is made, the window that is stopped. */
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { driftRows, lightWords, whereRows } from "../../src/words/en/light.ts";
import { answerOf, current, field, predicted, sharedBench } from "./bench.ts";
import { clipped, drawn, overlapping, scrollsSideways } from "./looks.ts";

const shared = sharedBench();
beforeAll(async () => {
  await shared.page.evaluate(() => {
    location.hash = "light";
  });
  await ring(shared.page).waitFor();
});

const bias = "microphone.readout.bias";
const ring = (page: Page) => page.getByRole("slider", { name: lightWords.ring });
const panel = (page: Page, name: string) => page.getByRole("region", { name });
/** Name and value of every line of a panel. */
const lines = (page: Page, name: string) =>
  panel(page, name)
    .locator(".light-rows tr")
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent ?? "")));
const rowsOf = (rows: readonly { name: string; value: string }[]) => rows.map(({ name, value }) => [name, value]);

/** Does something that changes the project, and waits for the exact answer to it. */
async function after(page: Page, act: () => Promise<void>): Promise<void> {
  const before = await answerOf(page);
  await act();
  await page.waitForFunction((earlier) => Number(document.querySelector("main")?.dataset["answer"]) > earlier, before);
  await current(page);
}

test("the operating point is stepped by key, and every line is the command's", async () => {
  const asked = predicted(`${bias}=74 deg`);
  const { page } = shared;
  await ring(page).focus();
  await after(page, async () => {
    await page.keyboard.press("PageDown");
    await page.keyboard.press("ArrowLeft");
  });
  expect(await field(page, bias).inputValue()).toBe("74 deg");
  // The chart was drawn anew, and the ring has kept the focus.
  expect(await ring(page).evaluate((one) => one === document.activeElement)).toBe(true);
  expect(await ring(page).getAttribute("aria-valuetext")).toBe("74°");
  const { light } = await asked;
  expect(await lines(page, "Readout")).toEqual(rowsOf(driftRows(light)));
  expect(await lines(page, "Where to work")).toEqual(rowsOf(whereRows(light)));
});

test("it is dragged along its curve, and what was dragged can be undone", async () => {
  const { page } = shared;
  await ring(page).scrollIntoViewIfNeeded();
  const place = async () => {
    const box = await ring(page).boundingBox();
    if (box === null) throw new Error("no ring");
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const from = await place();
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + 60, from.y, { steps: 4 });
  await page.waitForFunction((x) => {
    const box = document.querySelector(".bias-ring")?.getBoundingClientRect();
    return box !== undefined && Math.abs(box.x + box.width / 2 - x) < 3;
  }, from.x + 60);
  // More retardation, more light through the first port: the ring rises along the curve.
  expect((await place()).y).toBeLessThan(from.y - 5);
  await page.mouse.up();
  await current(page);
  expect(Number.parseFloat(await field(page, bias).inputValue())).toBeGreaterThan(90);
  await after(page, () => page.keyboard.press("Control+z"));
  expect(await field(page, bias).inputValue()).toBe("74 deg");
});

test("the guide is made by ion exchange, its window counted and stopped, and the page holds it at both widths", async () => {
  const { page } = shared;
  await after(page, () => page.getByLabel(lightWords.ways.bath, { exact: true }).check());
  const counted = panel(page, lightWords.window);
  // Coarse points first: the chart is there before it is whole.
  await counted.locator("rect[data-held]").first().waitFor({ state: "attached" });
  await counted.getByRole("button", { name: lightWords.stop }).click();
  await page.waitForSelector('.mode-window .task-state[data-state="waiting"]');
  const cells = await counted.locator("rect[data-held]").count();
  expect(cells).toBeLessThan(400);
  await page.getByRole("img", { name: /^TM: field across the face. Mean depth .*µm wide/ }).waitFor();
  expect(await counted.locator("rect[data-held]").count()).toBe(cells);
  expect(await counted.getByRole("button", { name: lightWords.goOn }).isVisible()).toBe(true);
  // The line of requirements stays in sight, over what is scrolled.
  await page.evaluate(() => window.scrollTo(0, 0));
  for (const width of [1440, 390]) {
    await page.setViewportSize({ width, height: 900 });
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
  }
});
