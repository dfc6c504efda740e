/**
 * `npm run shots -- FOLDER [PAGE …]`: every page, or those named, at two sizes, on light and dark paper, into FOLDER.
 * `npm run shots -- --picture`: the picture of the README, docs/picture.png. Needs `npm run build` before.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { pageKeys } from "../src/words/en/pages.ts";
import { type RunningApp, startApp } from "./app.ts";
import { openBrowser } from "./browser.ts";

const sizes = [
  { name: "wide", width: 1440, height: 900 },
  { name: "narrow", width: 390, height: 844 },
];

interface Shot {
  readonly path: string;
  readonly width: number;
  readonly height: number;
  readonly paper: "light" | "dark";
  readonly whole: boolean;
  readonly file: string;
}

async function take(browser: Browser, app: RunningApp, shot: Shot): Promise<void> {
  const page = await browser.newPage({
    locale: "en-GB",
    reducedMotion: "reduce",
    colorScheme: shot.paper,
    viewport: { width: shot.width, height: shot.height },
  });
  await page.goto(app.url + shot.path);
  await page.waitForSelector('main[data-freshness="current"]');
  await page.waitForSelector("#page-title");
  if ((await page.locator(".damping").count()) > 0) {
    await page.locator(".damping").scrollIntoViewIfNeeded();
    await page.waitForSelector('.damping[data-done="true"]');
  }
  // Whatever the page asked for has been answered.
  await page.waitForFunction(() =>
    [...document.querySelectorAll<HTMLElement>(".task-state, [data-kept-yield]")].every(({ dataset }) =>
      ["current", "refused"].includes(dataset["state"] ?? ""),
    ),
  );
  await page.evaluate(() => window.scrollTo(0, 0));
  await page.waitForSelector("html[data-typeface]", { state: "attached" });
  await page.screenshot({ path: shot.file, fullPage: shot.whole });
  await page.close();
  console.log(shot.file);
}

const folder = process.argv[2];
if (folder === undefined) {
  console.error("shots: name a folder, or --picture");
  process.exit(2);
}
const app = await startApp();
const browser = await openBrowser();
try {
  if (folder === "--picture") {
    const file = fileURLToPath(new URL("../docs/picture.png", import.meta.url));
    await take(browser, app, { path: "", width: 1440, height: 900, paper: "light", whole: true, file });
  } else {
    mkdirSync(folder, { recursive: true });
    const wanted = process.argv.slice(3);
    for (const name of pageKeys.filter((key) => wanted.length === 0 || wanted.includes(key)))
      for (const size of sizes)
        for (const paper of ["light", "dark"] as const)
          await take(browser, app, {
            path: `#${name}`,
            width: size.width,
            height: size.height,
            paper,
            whole: true,
            file: join(folder, `${name}-${size.name}-${paper}.png`),
          });
  }
} finally {
  await browser.close();
  await app.stop();
}
