/** The Shelf of a library that has grown: from the word that opens the page to the frame that shows its lines. Needs `npm run build` before. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { startApp } from "../scripts/app.ts";
import { openBrowser } from "../scripts/browser.ts";
import { demoText, type Outcome } from "../src/core/index.ts";
import { addProject } from "../src/store/library.ts";
import { openLibrary } from "../src/store/open.ts";
import { addRecord } from "../src/store/records.ts";
import { median } from "./statistics.ts";

const [projects, recordsEach, times] = [500, 4, 9];

export async function shelfLines(): Promise<readonly string[]> {
  const data = mkdtempSync(join(tmpdir(), "glassdrum-shelf-"));
  await fill(data);
  const app = await startApp("demo", data);
  const browser = await openBrowser();
  try {
    const page = await browser.newPage({ locale: "en-GB", viewport: { width: 1440, height: 900 } });
    await page.goto(app.url);
    await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
    const spent: number[] = [];
    for (let i = 0; i < times; i++) {
      spent.push(await openShelf(page));
      await page.evaluate(() => {
        location.hash = "brief";
      });
      await page.waitForSelector('main[data-page="brief"]', { state: "attached" });
    }
    const [first = 0, ...later] = spent;
    return [
      `Shelf with ${projects} projects and ${projects * recordsEach} records: first ${first.toFixed(0)} ms, then median ${median(later).toFixed(0)} ms (asked: 300 ms or less)`,
    ];
  } finally {
    await browser.close();
    await app.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

/** Milliseconds until the lines stand in a frame; hearing of that frame costs a few of them. */
async function openShelf(page: Page): Promise<number> {
  const started = await page.evaluate(() => {
    location.hash = "shelf";
    return performance.now();
  });
  const shown = await page.waitForFunction(
    () => document.querySelector(".project-line") !== null && performance.now(),
    undefined,
    { polling: "raf" },
  );
  return Number(await shown.jsonValue()) - started;
}

async function fill(folder: string): Promise<void> {
  const library = good(await openLibrary(folder));
  for (let i = 0; i < projects; i++) {
    const text = demoText.replace("Pulse-magnet pit listener", `Listener ${i + 1}`);
    const { id } = good(await addProject(library, { text, says: "Opened" }));
    for (let k = 0; k < recordsEach; k++)
      good(await addRecord(library, id, { name: `${k}.csv`, bytes: Buffer.from(`time (s),output (V)\n${i},${k}\n`) }));
  }
  await library.close();
}

function good<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.value;
}
