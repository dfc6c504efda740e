/**
 * Ten files as ten instruments would write them, by code that shares nothing with the reader: each dropped, read, fitted.
 * The truth lies inside the interval in nine of ten or more, and the file with the wrong unit makes the page ask.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { WaveFile } from "wavefile";
import { openBrowser } from "../../scripts/browser.ts";
import { openBench } from "./bench.ts";
import { clipped, drawn, overlapping, scrollsSideways, serious } from "./looks.ts";
import { files, noise, ringing, truth } from "./tenFiles.ts";

let browser: Browser;

let shared: Awaited<ReturnType<typeof openBench>>;

beforeAll(async () => {
  browser = await openBrowser();
  shared = await openBench(browser);
  await shared.page.evaluate(() => {
    location.hash = "records";
  });
  await shared.page.waitForSelector('main[data-page="records"] #page-title');
});

afterAll(async () => {
  await shared.close();
  await browser.close();
});

/** Lays a file on the table and waits for what the page says of it. */
async function lay(page: Page, { name, bytes }: (typeof files)[number]): Promise<void> {
  await page
    .locator('.drop input[type="file"]')
    .setInputFiles({ name, mimeType: "application/octet-stream", buffer: bytes });
  await page.waitForSelector(`.laid [aria-pressed="true"] >> text="${name}"`);
  await page.waitForSelector('[data-record="done"]');
}

async function interval(page: Page): Promise<{ readonly low: number; readonly high: number }> {
  const row = page.locator('[data-value-of="dampingRatio"]');
  await row.waitFor();
  return { low: Number(await row.getAttribute("data-low")), high: Number(await row.getAttribute("data-high")) };
}

test("ten files of ten shapes reach a damping ratio; the one with the wrong unit asks first", async () => {
  const { page } = shared;
  const missed: string[] = [];
  for (const file of files) {
    await lay(page, file);
    const asks = page.locator('[data-question="unit-implausible"]');
    expect(await asks.count(), file.name).toBe(file.name === "wrong unit.csv" ? 1 : 0);
    if ((await asks.count()) > 0) {
      expect(await page.locator("[data-value-of]").count()).toBe(0);
      await asks.getByRole("button", { name: "ms", exact: true }).click();
      await page.waitForSelector('[data-record="done"]');
    }
    const { low, high } = await interval(page);
    expect(low, file.name).toBeGreaterThan(0);
    if (!(low <= truth.dampingRatio && truth.dampingRatio <= high)) missed.push(`${file.name}: ${low} to ${high}`);
  }
  expect(missed.length, missed.join("; ")).toBeLessThanOrEqual(1);
});

test("fits that are kept lie over each other and become a line of the budget", async () => {
  const { page } = shared;
  for (const name of ["messung.txt", "tabs.txt"]) {
    await page.getByRole("button", { name, exact: true }).click();
    await page.waitForSelector('[data-record="done"]');
    await interval(page);
    await page.getByRole("button", { name: "Keep beside others" }).click();
  }
  expect(await page.locator(".overlay tbody tr").count()).toBe(2);
  expect(await page.locator(".budget").textContent()).toContain("repeat");
});

/** Time and output as two sets of one group. */
async function container(): Promise<Buffer> {
  const hdf5 = await import("h5wasm");
  const { FS } = await hdf5.ready;
  const file = new hdf5.File("ringing.h5", "w");
  const run = file.create_group("run");
  const rows = ringing(11, 3e5, 0.004);
  const set = (name: string, unit: string, value: (row: (typeof rows)[number]) => number) =>
    run
      .create_dataset({ name, data: Float64Array.from(rows, value), shape: [rows.length] })
      .create_attribute("unit", unit);
  set("time", "ms", ({ t }) => 1e3 * t);
  set("output", "mV", ({ u }) => 100 * u);
  file.flush();
  file.close();
  return Buffer.from(FS.readFile("ringing.h5"));
}

test("a container is read; the part to use is marked by key and by hand; one click writes the reading, undo takes it back", async () => {
  const { page } = shared;
  await lay(page, { name: "ringing.h5", bytes: await container() });
  const { low, high } = await interval(page);
  // Within about four standard uncertainties: one interval in twenty misses.
  expect(Math.abs((low + high) / 2 - truth.dampingRatio)).toBeLessThan(high - low);

  const mark = page.locator('[data-mark="from"]');
  const used = page.getByLabel("Use from");
  await mark.focus();
  await page.keyboard.press("PageUp");
  await expect.poll(() => used.inputValue()).toMatch(/^199/);
  await mark.scrollIntoViewIfNeeded();
  const box = await mark.boundingBox();
  const [x, y] = [box!.x + box!.width / 2, box!.y + 60];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 40, y, { steps: 3 });
  await page.mouse.up();
  await expect.poll(() => used.inputValue()).not.toMatch(/^199/);
  await page.waitForSelector('[data-record="done"]');

  for (const width of [320, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    // The line of requirements stays in sight, over what is scrolled.
    await page.evaluate(() => window.scrollTo(0, 0));
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
  }
  expect(await serious(page)).toEqual([]);

  await page.getByLabel("Specimen", { exact: true }).fill("B2");
  await page.getByRole("button", { name: "Write it into the specimen" }).click();
  await page.waitForSelector(".into [role=status]:not(:empty)");
  expect(
    await page.locator("#specimens option").evaluateAll((list) => list.map((one) => one.getAttribute("value"))),
  ).toEqual(["A3", "B2"]);
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  await expect.poll(() => page.locator("#specimens option").count()).toBe(1);
});

test("of a record of noise the time is marked on the record, and what is fitted on the whole response", async () => {
  const { page } = shared;
  const draw = noise(31);
  const angle = (2 * Math.PI * truth.frequency * Math.sqrt(1 - truth.dampingRatio ** 2)) / 96000;
  const radius = Math.exp((-2 * Math.PI * truth.frequency * truth.dampingRatio) / 96000);
  let [last, before] = [0, 0];
  const rows = Array.from({ length: 12288 }, (_, i) => {
    const reference = draw();
    [last, before] = [2 * radius * Math.cos(angle) * last - radius * radius * before + reference, last];
    return `${(i / 96).toFixed(5)},${reference.toFixed(4)},${(0.1 * last).toFixed(5)}`;
  });
  await lay(page, {
    name: "noise.csv",
    bytes: Buffer.from(`time (ms),reference (V),output (V)\n${rows.join("\n")}\n`),
  });
  await page.locator('[data-option="kind"]').selectOption("noise");
  const mark = page.locator('.response-picture [data-mark="from"]');
  await mark.waitFor();
  await expect.poll(() => mark.getAttribute("aria-valuetext")).toMatch(/kHz$/);
  const { low, high } = await interval(page);
  expect(Math.abs((low + high) / 2 - truth.dampingRatio)).toBeLessThan(high - low);

  const from = page.getByLabel("Use from");
  expect(await from.inputValue()).toBe("");
  await mark.scrollIntoViewIfNeeded();
  const box = await mark.boundingBox();
  const [x, y] = [box!.x + box!.width / 2, box!.y + 40];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 8, y, { steps: 3 });
  await page.mouse.up();
  await expect.poll(() => from.inputValue()).toMatch(/kHz$/);
  await page.waitForSelector('[data-record="done"]');
  const begins = page.locator('.picture [data-mark="from"]');
  await begins.focus();
  await page.keyboard.press("PageUp");
  await expect.poll(() => page.getByLabel("Record from").inputValue()).toMatch(/ms$/);
  await page.waitForSelector('[data-record="done"]');
  expect(await mark.count()).toBe(1);
});

test("a tone beside a reference's record gives the sensitivity with every line of its budget", async () => {
  const { page } = shared;
  const tone = (name: string, amplitude: number) => {
    const file = new WaveFile();
    const samples = Array.from({ length: 4800 }, (_, i) => amplitude * Math.sin((2 * Math.PI * 1000 * i) / 48000));
    file.fromScratch(1, 48000, "32f", samples);
    return { name, bytes: Buffer.from(file.toBuffer()) };
  };
  // In a field of 1 Pa: the reference gives 12.5 mV/Pa, the microphone 2 mV/Pa.
  await lay(page, tone("reference.wav", 0.0125));
  await lay(page, tone("microphone.wav", 0.002));
  await page.locator('[data-option="kind"]').selectOption("sensitivity");
  await page.locator('.fit [data-remark="question-open"], .fit [data-remark="pressure-unknown"]').first().waitFor();
  const unit = page.getByLabel("Unit, Column 1");
  await unit.fill("V");
  await unit.press("Enter");
  await page.locator('[data-beside="reference"]').selectOption({ label: "reference.wav" });
  const sensitivity = page.getByLabel("Reference's sensitivity");
  await sensitivity.fill("12.5 mV");
  await sensitivity.press("Enter");
  expect(await sensitivity.getAttribute("aria-invalid")).toBe("true");
  await sensitivity.fill("12.5 mV/Pa");
  await sensitivity.press("Enter");
  const row = page.locator('[data-value-of="sensitivity"]');
  await row.waitFor();
  expect(Number(await row.getAttribute("data-value"))).toBeCloseTo(0.002, 8);
  expect(await page.locator(".budget tbody tr").count()).toBe(11);
});

test("rubbish is refused with what was found and what is needed", async () => {
  const { page } = shared;
  await page
    .locator('.drop input[type="file"]')
    .setInputFiles({ name: "photo.csv", mimeType: "text/csv", buffer: Buffer.from([0x50, 0x4b, 3, 4, 1, 2, 3]) });
  await page.waitForSelector('[data-record="refused"]');
  expect(await page.locator(".records-main [role=alert]").textContent()).toMatch(/no text.*needed/s);
  await page.getByRole("button", { name: "Take away: photo.csv" }).click();
});
