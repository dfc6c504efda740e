/** What a page loads until its first answer is painted, and after it, as gzip would send it [bytes]. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import type { Page } from "playwright-core";

export interface FirstLoad {
  readonly programs: number;
  readonly styles: number;
  /** Fonts asked for before the first answer was painted, and after it. */
  readonly fonts: { readonly before: number; readonly after: number };
}

const web = fileURLToPath(new URL("../dist/web/", import.meta.url));

/** Of the built app's page that has just been opened. Needs `npm run build` before. */
export async function firstLoad(page: Page): Promise<FirstLoad> {
  await page.waitForSelector("html[data-typeface]", { state: "attached" });
  const asked = await page.evaluate(() => {
    const painted = performance.getEntriesByName("typeface", "mark")[0]?.startTime ?? Number.POSITIVE_INFINITY;
    const all = performance.getEntriesByType("resource");
    return all.map(({ name, startTime }) => ({ name: new URL(name).pathname.slice(1), early: startTime < painted }));
  });
  const once = new Map(asked.filter(({ name }) => name.startsWith("assets/")).map((one) => [one.name, one]));
  const size = (ending: RegExp, early: readonly boolean[]) =>
    [...once.values()]
      .filter((one) => ending.test(one.name) && early.includes(one.early))
      .reduce((sum, { name }) => sum + gzipSync(readFileSync(web + name), { level: 9 }).length, 0);
  return {
    programs: size(/\.js$/, [true, false]),
    styles: size(/\.css$/, [true, false]),
    fonts: { before: size(/\.(ttf|woff2?)$/, [true]), after: size(/\.(ttf|woff2?)$/, [false]) },
  };
}
