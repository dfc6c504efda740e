/**
 * The Records page in a real browser: 100 MB of text read, a million points drawn, zoomed, and marked by a hand; how long the
 * page stood still meanwhile. `npm run bench -- big`; needs `npm run build` before.
 */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { startApp } from "../scripts/app.ts";
import { openBrowser } from "../scripts/browser.ts";
import { median } from "./statistics.ts";

/** Lines that say what was measured. */
export async function recordsPageLines(): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), "glassdrum-bench-"));
  const app = await startApp();
  const browser = await openBrowser();
  try {
    const page = await browser.newPage({ locale: "en-GB", viewport: { width: 1440, height: 900 } });
    await page.goto(`${app.url}#records`);
    await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
    const large = join(folder, "large.csv");
    await writeFile(large, textOf(100e6));
    const read = await layAndWatch(page, large);
    const million = join(folder, "million.csv");
    await writeFile(million, ringing(1_000_000));
    const drawn = await layAndWatch(page, million);
    return [
      `100 MB of text: shown after ${(read.took / 1000).toFixed(2)} s (asked: 6 s or less), told its progress ${read.steps} times, longest frame ${read.longest.toFixed(0)} ms`,
      `1,000,000 samples of text, read, drawn and fitted: ${(drawn.took / 1000).toFixed(2)} s, longest frame ${drawn.longest.toFixed(0)} ms`,
      await underHand(page),
    ];
  } finally {
    await browser.close();
    await app.stop();
    await rm(folder, { recursive: true, force: true });
  }
}

function textOf(size: number): string {
  const rows: string[] = ["time (s),a (V),b (V)\n"];
  for (let i = 0, length = 0; length < size; i++) {
    const row = `${(i * 1e-5).toFixed(5)},${Math.sin(i).toFixed(6)},${Math.cos(i).toFixed(6)}\n`;
    rows.push(row);
    length += row.length;
  }
  return rows.join("");
}

/** 20 kHz, damping ratio 0.0005, at 1 MHz, and one sample that no drawing may lose. */
function ringing(count: number): string {
  const omega = 2 * Math.PI * 20_000;
  const rows = Array.from({ length: count }, (_, i) => {
    const t = i * 1e-6;
    const spike = i === 654_321 ? 1.5 : 0;
    return `${(1e3 * t).toFixed(3)},${(Math.exp(-0.0005 * omega * t) * Math.cos(omega * t) + spike).toFixed(6)}`;
  });
  return `time (ms),u (V)\n${rows.join("\n")}\n`;
}

/**
 * The times between frames, from now on; with `input` from when that one is handed a file, for before it the driver copies the
 * file, which no hand does. As text: what compiles this file would put names of its own into a function.
 */
const watchFrames = (page: Page, input: string | null = null) =>
  page.evaluate(`(() => {
    const seen = { frames: [], steps: 0, go: true, began: 0 };
    window.seenFrames = seen;
    const begin = () => {
      let last = (seen.began = performance.now());
      const next = (now) => {
        seen.frames.push(now - last);
        last = now;
        if (seen.go) requestAnimationFrame(next);
      };
      requestAnimationFrame(next);
      const side = document.querySelector(".records-side");
      if (side) new MutationObserver(() => { seen.steps += 1; }).observe(side, { subtree: true, characterData: true, childList: true });
    };
    const input = ${JSON.stringify(input)};
    if (input === null) begin();
    else document.querySelector(input).addEventListener("input", begin, { once: true });
  })()`);

const framesSeen = (page: Page) =>
  page.evaluate(() => {
    const { seenFrames: seen } = window as unknown as {
      seenFrames: { frames: number[]; steps: number; go: boolean; began: number };
    };
    seen.go = false;
    return { frames: seen.frames, steps: seen.steps, took: performance.now() - seen.began };
  });

async function layAndWatch(page: Page, file: string) {
  const input = '.drop input[type="file"]';
  await watchFrames(page, input);
  await page.locator(input).setInputFiles(file);
  await page.waitForFunction(
    (name) =>
      document.querySelector('[data-record="done"] .picture svg') !== null &&
      document.querySelector('.laid [aria-pressed="true"]')?.textContent === name,
    file.split(/[\\/]/).at(-1),
    { polling: 50, timeout: 120_000 },
  );
  const { frames, steps, took } = await framesSeen(page);
  return { took, steps, longest: Math.max(...frames) };
}

/** Zoomed by the wheel and back, then a mark dragged across: times between frames meanwhile. */
async function underHand(page: Page): Promise<string> {
  const chart = page.locator('.picture .chart [tabindex="0"]').first();
  await chart.scrollIntoViewIfNeeded();
  await chart.focus();
  const box = (await chart.boundingBox())!;
  const [x, y] = [box.x + 0.4 * box.width, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await watchFrames(page);
  for (let i = 0; i < 30; i++) {
    await page.mouse.wheel(0, i < 15 ? -120 : 120);
    await page.waitForTimeout(25);
  }
  const zoomed = (await framesSeen(page)).frames;
  const mark = page.locator('.picture [data-mark="from"]');
  const from = (await mark.boundingBox())!;
  await page.mouse.move(from.x + from.width / 2, from.y + 40);
  await watchFrames(page);
  await page.mouse.down();
  for (let i = 1; i <= 40; i++) {
    await page.mouse.move(from.x + from.width / 2 + 4 * i, from.y + 40);
    await page.waitForTimeout(25);
  }
  const dragged = (await framesSeen(page)).frames;
  await page.mouse.up();
  const say = (list: readonly number[]) =>
    `median ${median(list).toFixed(0)}, longest ${Math.max(...list).toFixed(0)} ms`;
  return `a million points under a hand, time between frames: zoomed by the wheel ${say(zoomed)}; a mark dragged ${say(dragged)}`;
}
