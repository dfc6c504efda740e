/**
 * The Chart in a real browser: from the click on its word to the frame that shows the first picture, by its address, and the whole
 * plane with the frames that the page missed meanwhile. Part of `npm run bench -- browser`, or alone by `chart-page`.
 */
import type { Browser, Page } from "playwright-core";
import { median } from "./statistics.ts";

const wide = { locale: "en-GB", viewport: { width: 1440, height: 900 } };
/** Rest before the word is clicked [ms]: pictures are made ahead in it. */
const rest = 9000;
const points = 57;
/** On a machine that is busy [ms]. */
const patience = 120_000;

export async function chartLines(browser: Browser, url: string): Promise<readonly string[]> {
  const rested: number[] = [];
  const soon: number[] = [];
  let last: Page | null = null;
  for (let i = 0; i < 3; i++) {
    const page = await bench(browser, url);
    rested.push(await opened(page, rest));
    await page.close();
    await last?.close();
    last = await bench(browser, url);
    soon.push(await opened(last, 500));
  }
  const straight = await byAddress(browser, url);
  const { seconds, missed, longest } = await whole(last!);
  const ms = (values: readonly number[]) => `median ${median([...values]).toFixed(0)} ms`;
  return [
    `Chart, first picture after a rest: ${ms(rested)} from the click (asked: 200), right after the first answer ${ms(soon)}`,
    `Chart by its address: ${straight.toFixed(0)} ms from asking for the page`,
    `Chart ${points} x ${points}, all cores: ${seconds.toFixed(1)} s (asked: 3); frames missed meanwhile: ${missed}, the longest ${longest.toFixed(0)} ms`,
  ];
}

async function bench(browser: Browser, url: string): Promise<Page> {
  const page = await browser.newPage(wide);
  page.setDefaultTimeout(patience);
  await page.goto(url);
  await page.waitForSelector('main[data-freshness="current"]', { state: "attached" });
  return page;
}

/** From the click to the frame with the picture [ms]. */
async function opened(page: Page, wait: number): Promise<number> {
  await page.waitForTimeout(wait);
  await page.evaluate(() => {
    window.addEventListener(
      "click",
      (event) => {
        new MutationObserver((_, observer) => {
          if (document.querySelector(".plane-figure svg") === null) return;
          observer.disconnect();
          // The frame after this one's work has been painted when the next one begins.
          requestAnimationFrame((frame) => Object.assign(window, { took: frame - event.timeStamp }));
        }).observe(document.body, { childList: true, subtree: true });
      },
      { once: true, capture: true },
    );
  });
  await page.click('a[href="#chart"]');
  await page.waitForFunction(() => "took" in window);
  return page.evaluate(() => (window as unknown as { took: number }).took);
}

async function byAddress(browser: Browser, url: string): Promise<number> {
  const page = await browser.newPage(wide);
  page.setDefaultTimeout(patience);
  const started = performance.now();
  await page.goto(`${url}#chart`, { waitUntil: "commit" });
  await page.waitForFunction(() => document.querySelector(".plane-figure svg") !== null, undefined, { polling: "raf" });
  const took = performance.now() - started;
  await page.close();
  return took;
}

/** The plane with many points, from asking for them to the last picture. */
async function whole(page: Page) {
  await page.waitForSelector(".chart-ask button", { state: "detached" });
  await page.evaluate(watchFrames);
  const started = performance.now();
  await page.selectOption(".chart-ask select", `${points}`);
  await page.waitForSelector(".chart-ask button");
  await page.waitForSelector(".chart-ask button", { state: "detached" });
  const seconds = (performance.now() - started) / 1000;
  const { missed, longest } = await page.evaluate(
    () => (window as unknown as { watchedFrames: { missed: number; longest: number } }).watchedFrames,
  );
  return { seconds, missed, longest };
}

/** As text, because a tool that keeps names of functions would put its own into it. */
const watchFrames = `(() => {
  const frames = (window.watchedFrames = { missed: 0, longest: 0 });
  let before = performance.now();
  const look = (now) => {
    const gap = now - before;
    before = now;
    if (gap > 34) frames.missed += Math.round(gap / 16.7) - 1;
    frames.longest = Math.max(frames.longest, gap);
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
})()`;
