/**
 * The page under a hand, in a real browser: from a pointer's event to the frame that shows the answer to it, the first page, and
 * what it loads. `npm run bench -- browser`; needs `npm run build` before.
 */
import type { Browser, Page } from "playwright-core";
import { startApp } from "../scripts/app.ts";
import { openBrowser } from "../scripts/browser.ts";
import { type FirstLoad, firstLoad } from "../scripts/firstLoad.ts";
import { chartLines } from "./chartPage.ts";
import { median } from "./statistics.ts";

const moves = 120;
/** A hand's moves arrive so far apart [ms]. */
const apart = 25;
/** Pixels from where the ring was taken, there and back, half a pixel at least between two moves; the guide stays on the diaphragm. */
const drags = [
  { path: "microphone.film.gap", way: (share: number) => ({ x: 0, y: 40 * (1 - Math.abs(2 * share - 1)) }) },
  {
    path: "microphone.diaphragm.across",
    way: (share: number) => ({ x: 40 * (1 - Math.abs(2 * share - 1)), y: 0 }),
  },
] as const;

/** Lines that say what was measured. */
export async function browserLines(): Promise<readonly string[]> {
  const app = await startApp();
  const browser = await openBrowser();
  try {
    const first = await firstPage(browser, app.url);
    const page = await browser.newPage({ locale: "en-GB", viewport: { width: 1440, height: 900 } });
    await page.goto(app.url);
    await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
    const lines = [first, loaded(await firstLoad(page))];
    for (const drag of drags) lines.push(await dragLine(page, drag));
    return [...lines, ...(await chartLines(browser, app.url))];
  } finally {
    await browser.close();
    await app.stop();
  }
}

/** Only the Chart. */
export async function chartPageLines(): Promise<readonly string[]> {
  const app = await startApp();
  const browser = await openBrowser();
  try {
    return await chartLines(browser, app.url);
  } finally {
    await browser.close();
    await app.stop();
  }
}

/** From asking for the page to the frame that shows numbers and curves [ms], the second time: files and programs are warm. */
async function firstPage(browser: Browser, url: string): Promise<string> {
  const times: number[] = [];
  for (let i = 0; i < 5; i++) {
    const page = await browser.newPage({ locale: "en-GB", viewport: { width: 1440, height: 900 } });
    const started = performance.now();
    await page.goto(url, { waitUntil: "commit" });
    await page.waitForFunction(
      () =>
        document.querySelector('main[data-freshness="current"]') !== null &&
        document.querySelector(".response .chart svg") !== null,
      undefined,
      { polling: "raf" },
    );
    times.push(performance.now() - started);
    await page.close();
  }
  return `first page painted and computed: median ${median(times.slice(1)).toFixed(0)} ms (asked: 1500 ms or less)`;
}

/** Size of what is loaded until the first answer is painted, as gzip would send it. */
function loaded({ programs, styles, fonts }: FirstLoad): string {
  const kilobytes = (size: number) => `${(size / 1000).toFixed(0)} kB`;
  const before = programs + styles + fonts.before;
  return `first load, gzip: ${kilobytes(before)}, asked: 350 kB or less (programs ${kilobytes(programs)}, styles ${kilobytes(styles)}, fonts ${kilobytes(fonts.before)}; after the first answer is painted, fonts ${kilobytes(fonts.after)})`;
}

async function dragLine(page: Page, { path, way }: (typeof drags)[number]): Promise<string> {
  await page.evaluate(() => window.scrollTo(0, 0));
  const ring = page.locator(`[data-grip="${path}"]`);
  const box = await ring.boundingBox();
  if (box === null) throw new Error(`no ring for ${path}`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.waitForTimeout(1500);
  await page.evaluate(watch);
  await page.mouse.down();
  for (let i = 1; i <= moves; i++) {
    const by = way(i / moves);
    await page.mouse.move(x + by.x, y + by.y);
    await page.waitForTimeout(apart);
  }
  await page.mouse.up();
  await page.waitForTimeout(600);
  const { waits, late } = await page.evaluate(() => (window as unknown as { watched: Watched }).watched);
  await page.keyboard.press("Control+z");
  await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
  const sorted = [...waits].sort((a, b) => a - b);
  const high = sorted[Math.floor(0.95 * sorted.length)] ?? Number.NaN;
  return `${path}: ${waits.length} moves that changed it, median ${median(sorted).toFixed(0)} ms, 95th percentile ${high.toFixed(0)} ms (asked: 33 and 50), late answers shown: ${late}`;
}

interface Watched {
  /** From each move to the frame that shows its answer or a later one [ms]. */
  readonly waits: number[];
  /** Answers that followed a newer one. */
  late: number;
}

/** Inside the page: which change belongs to which move, and when the frame with its answer comes. */
function watch(): void {
  const main = document.querySelector("main");
  if (main === null) throw new Error("no page");
  const watched: Watched = { waits: [], late: 0 };
  Object.assign(window, { watched });
  let waiting: { asked: number; at: number }[] = [];
  let last = 0;
  window.addEventListener("pointermove", (event) => {
    const before = Number(main.dataset["asked"]);
    queueMicrotask(() => {
      const asked = Number(main.dataset["asked"]);
      if (asked > before || (waiting.at(-1)?.asked ?? last) < asked) waiting.push({ asked, at: event.timeStamp });
    });
  });
  new MutationObserver(() => {
    const shown = Number(main.dataset["replied"]);
    if (shown < last) watched.late += 1;
    last = shown;
    const done = waiting.filter(({ asked }) => asked <= shown);
    waiting = waiting.filter(({ asked }) => asked > shown);
    // The frame after this one's work has been painted when the next one begins.
    if (done.length > 0)
      requestAnimationFrame((frame) => {
        for (const { at } of done) watched.waits.push(frame - at);
      });
  }).observe(main, { attributeFilter: ["data-replied"] });
}
