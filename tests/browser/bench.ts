/** What a test does on the Bench: type a value, wait for the answer that belongs to it, read the numbers. */
import { execFile } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject } from "vitest";
import { openBrowser } from "../../scripts/browser.ts";
import type { Prediction } from "../../src/core/index.ts";

const command = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url));

export interface View {
  readonly width: number;
  readonly height: number;
  readonly paper: "light" | "dark";
}

/** A page that has computed. Faults of the page's scripts and of its security policy fail the test that closes it. */
export async function openBench(browser: Browser, view: View = { width: 1440, height: 900, paper: "light" }) {
  const page = await browser.newPage({
    locale: "en-GB",
    reducedMotion: "reduce",
    colorScheme: view.paper,
    viewport: { width: view.width, height: view.height },
  });
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(message.text());
  });
  await page.goto(inject("address"));
  await current(page);
  await page.waitForSelector("html[data-typeface]", { state: "attached" });
  return {
    page,
    close: async () => {
      await page.close();
      expect(faults).toEqual([]);
    },
  };
}

/**
 * One Bench for the tests of a file: opened before the first, closed after the last, and where `putBack` brought back after each
 * to the project as it was opened. Called at the top of the file.
 */
export function sharedBench({ putBack = false }: { readonly putBack?: boolean } = {}) {
  let browser: Browser;
  let opened: Awaited<ReturnType<typeof openBench>>;
  beforeAll(async () => {
    browser = await openBrowser();
    opened = await openBench(browser);
  });
  if (putBack) afterEach(() => reset(opened.page));
  afterAll(async () => {
    await opened.close();
    await browser.close();
  });
  return {
    get browser(): Browser {
      return browser;
    },
    get page(): Page {
      return opened.page;
    },
  };
}

/** Back to the project as it was opened; what was typed and refused goes too. */
export async function reset(page: Page): Promise<void> {
  await page.evaluate(() => document.querySelector<HTMLButtonElement>(".past li button")?.click());
  await current(page);
}

/** Waits until what is shown belongs to what is typed. */
export async function current(page: Page): Promise<void> {
  await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
}

/** Scrolls to the curve that is computed only where somebody looks, and back. */
export async function seeDamping(page: Page): Promise<void> {
  await page.locator(".damping").scrollIntoViewIfNeeded();
  await page.waitForSelector('.damping[data-done="true"]');
  await page.evaluate(() => window.scrollTo(0, 0));
}

export const answerOf = async (page: Page): Promise<number> =>
  Number(await page.locator("main").getAttribute("data-answer"));

/** The field of a path: what is typed into or chosen from. */
export const field = (page: Page, path: string) => page.locator(`[data-path="${path}"] :is(input, select)`);

/** Chooses the part that the field of a path belongs to, as a person does before typing into it. */
export async function shownField(page: Page, path: string): Promise<Locator> {
  const part = page.locator(`[data-group]:has([data-path="${path}"])`);
  await page.locator(`[data-part="${await part.getAttribute("data-group")}"]`).click();
  return field(page, path);
}

/** Types a value and leaves the field; waits for a later answer than the one before. */
export async function change(page: Page, path: string, value: string): Promise<void> {
  const before = await answerOf(page);
  const typed = await shownField(page, path);
  await typed.fill(value);
  await typed.blur();
  await page.waitForFunction(
    (earlier) => {
      const main = document.querySelector("main");
      return main?.dataset["freshness"] === "current" && Number(main.dataset["answer"]) > earlier;
    },
    before,
    { polling: "raf" },
  );
}

/** Number and text by key, as the page shows them. */
export async function numbers(page: Page): Promise<ReadonlyMap<string, { value: number | null; text: string }>> {
  const found = await page.locator("[data-key]").evaluateAll((all) =>
    all.map((one) => {
      const { key = "", value = "" } = (one as HTMLElement).dataset;
      return { key, value, text: one.textContent ?? "" };
    }),
  );
  return new Map(found.map(({ key, value, text }) => [key, { value: value === "" ? null : Number(value), text }]));
}

/** `glassdrum predict demo --json --set …` */
export function predicted(...settings: readonly string[]): Promise<Prediction> {
  const args = [command, "predict", "demo", "--json", ...settings.flatMap((setting) => ["--set", setting])];
  return new Promise((resolve, reject) => {
    execFile(process.execPath, args, { encoding: "utf8", maxBuffer: 1e8 }, (error, said) => {
      // Status 1: the brief is not met; the answer is there all the same.
      if (error !== null && error.code !== 1) reject(error);
      else resolve(JSON.parse(said) as Prediction);
    });
  });
}
