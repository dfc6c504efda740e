import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, expect, test } from "vitest";
import { demoText } from "../../src/core/index.ts";
import { current, field, sharedBench } from "./bench.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-charts-"));
const shared = sharedBench({ putBack: true });
afterAll(async () => {
  rmSync(folder, { recursive: true });
});

test("a chart is read and zoomed by key, and by a box", async () => {
  const { page } = shared;
  const plot = page.locator(".response .plot").first();
  const ticks = () => plot.locator("svg text").allTextContents();
  await page.locator(".response .curve-2").first().waitFor({ state: "attached" });
  const whole = await ticks();
  await plot.focus();
  await page.keyboard.press("Home");
  expect(await page.locator(".response output").first().textContent()).toMatch(/^10\.00.Hz: .*dB/);
  await page.keyboard.press("End");
  await page.keyboard.press("ArrowLeft");
  const read = await page.locator(".response output").first().textContent();
  expect(read).toMatch(/kHz: −\d/);
  await page.keyboard.press("+");
  expect(await ticks()).not.toEqual(whole);
  await page.keyboard.press("0");
  const box = await plot.boundingBox();
  if (box === null) throw new Error("no chart");
  await page.mouse.move(box.x + 0.5 * box.width, box.y + 60);
  await page.mouse.down();
  await page.mouse.move(box.x + 0.7 * box.width, box.y + 150, { steps: 3 });
  await page.mouse.up();
  expect(await ticks()).not.toEqual(whole);
  await page.getByRole("button", { name: "show all" }).click();
  expect(await ticks()).toEqual(whole);
});

test("a kept design lies dashed beside the present one, and can be brought back and forgotten", async () => {
  const { page } = shared;
  await page.getByLabel("Keep this design as").fill("as drawn");
  await page.getByRole("button", { name: "Keep", exact: true }).click();
  await page.locator(".response .curve-3").first().waitFor({ state: "attached" });
  expect(await page.locator(".response .chart svg text", { hasText: "as drawn" }).count()).toBe(2);
  const dash = await page.locator(".response .curve-3").first().getAttribute("stroke-dasharray");
  expect(dash).not.toBe("none");
  const start = await field(page, "microphone.film.gap").inputValue();
  await page.locator('[data-grip="microphone.film.gap"]').focus();
  await page.keyboard.press("PageUp");
  expect(await field(page, "microphone.film.gap").inputValue()).not.toBe(start);
  const kept = page.locator('[data-kept="as drawn"]');
  await kept.getByRole("button", { name: "bring back" }).click();
  expect(await field(page, "microphone.film.gap").inputValue()).toBe(start);
  await kept.getByRole("button", { name: "forget" }).click();
  expect(await kept.count()).toBe(0);
});

test("a number opens its card", async () => {
  const { page } = shared;
  await page.locator(".number button", { has: page.locator('[data-key="resonance.dampingRatio"]') }).click();
  const card = page.locator(".opened-card");
  expect(await card.textContent()).toContain("det A(ω_p) = 0");
  expect(await card.textContent()).toContain("docs/theory/poles.md");
});

test("a file that is opened takes the page, one that is none says why, and both can be undone", async () => {
  const { page } = shared;
  const good = join(folder, "other.glassdrum.json");
  writeFileSync(good, demoText.replace('"gap": "38 um"', '"gap": "52 um"'));
  await page.locator(".picker").setInputFiles(good);
  await current(page);
  expect(await field(page, "microphone.film.gap").inputValue()).toBe("52 um");
  expect(await page.locator(".title").textContent()).toContain("other.glassdrum.json");
  const bad = join(folder, "bad.json");
  writeFileSync(bad, '{ "format": "something else" }');
  await page.locator(".picker").setInputFiles(bad);
  await page.locator(".panel.wrong").waitFor();
  expect(await page.locator(".panel.wrong").textContent()).toContain("bad.json");
  expect(await field(page, "microphone.film.gap").inputValue()).toBe("52 um");
  await page.getByRole("button", { name: "Undo" }).click();
  expect(await field(page, "microphone.film.gap").inputValue()).toBe("38 um");
});

/** Drops a file of that name and text on an element, as a hand does. */
const drop = (page: Page, on: string, name: string, text: string) =>
  page.evaluate(
    ([selector = "", called = "", content = ""]) => {
      const files = new DataTransfer();
      files.items.add(new File([content], called));
      const target = document.querySelector(selector);
      for (const kind of ["dragover", "drop"])
        target?.dispatchEvent(new DragEvent(kind, { dataTransfer: files, bubbles: true, cancelable: true }));
    },
    [on, name, text],
  );

test("a project dropped anywhere is opened", async () => {
  const { page } = shared;
  await drop(page, "main", "dropped.glassdrum.json", demoText.replace('"gap": "38 um"', '"gap": "61 um"'));
  await page.waitForFunction(() => document.querySelector(".title")?.textContent?.includes("dropped.glassdrum.json"));
  expect(await field(page, "microphone.film.gap").inputValue()).toBe("61 um");
});

test("a record dropped anywhere lies on Records, and lies there once", async () => {
  const { page } = shared;
  await drop(page, "main", "tone.csv", "time (s),output (V)\n0,1\n");
  await page.waitForSelector('main[data-page="records"] .laid li');
  await drop(page, ".drop", "second.csv", "time (s),output (V)\n0,1\n");
  await page.locator(".laid li", { hasText: "second.csv" }).waitFor();
  expect(await page.locator(".laid li").count()).toBe(2);
  expect(await page.getByText("Not opened:").count()).toBe(0);
});
