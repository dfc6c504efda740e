import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type RunningApp, startApp } from "../../scripts/app.ts";
import { openBrowser } from "../../scripts/browser.ts";

const folder = mkdtempSync(join(tmpdir(), "glassdrum-page-"));
let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

async function withProject(text: string, look: (app: RunningApp) => Promise<void>): Promise<void> {
  const file = join(folder, "mine.glassdrum.json");
  writeFileSync(file, text);
  const app = await startApp(file);
  try {
    await look(app);
  } finally {
    await app.stop();
  }
}

test("a project that has no answer says why beside the field, and its values can still be changed", async () => {
  const project = {
    format: "glassdrum-project",
    version: 1,
    microphone: { film: { gap: "38 um" }, front: { cavity: { volume: "7 mm^3" } } },
  };
  await withProject(JSON.stringify(project), async ({ url }) => {
    const page = await browser.newPage({ locale: "en-GB" });
    await page.goto(url);
    await page.waitForSelector('main[data-freshness="none"]');
    expect(await page.locator(".state").textContent()).toContain("No answer yet");
    const missing = page.locator('.field.wrong[data-path="microphone.front.cavity.surface"]');
    expect(await missing.textContent()).toContain("nothing fills it");
    expect(await page.locator('[data-path="microphone.film.gap"] input').inputValue()).toBe("38 um");
    expect(await page.locator(".numbers").count()).toBe(0);
    await page.close();
  });
});

test("a file that is no project names what is wrong with it, in place of the page", async () => {
  await withProject(
    '{ "format": "glassdrum-project", "version": 1, "air": { "pressure": "900" }, }',
    async ({ url }) => {
      const page = await browser.newPage({ locale: "en-GB" });
      await page.goto(url);
      await page.waitForSelector("main.unreadable");
      const said = (await page.locator("main").textContent()) ?? "";
      expect(said).toContain("can't be opened");
      expect(said).toContain("air.pressure");
      expect(await page.locator("main li").count()).toBe(2);
      await page.close();
    },
  );
});

test("two guides have fields of their own, and a saved file holds what was typed", async () => {
  const project = `{
  "format": "glassdrum-project", "version": 1, "title": "Two guides",
  "microphone": { "guide": [ { "at": "0 mm" }, { "at": "2.4 mm", "weight": -1 } ], "film": null }
}
`;
  await withProject(project, async ({ url }) => {
    const page = await browser.newPage({ locale: "en-GB" });
    await page.goto(url);
    await page.waitForSelector('main[data-freshness="current"]');
    await page.locator('[data-part="guide"]').click();
    await page.locator('[data-path="microphone.guide[1].at"] input').fill("2.3 mm");
    await page.locator('[data-path="microphone.guide[1].at"] input').blur();
    await page.waitForSelector('main[data-freshness="current"]');
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as file" }).click();
    const saved = join(folder, "saved.json");
    await (await download).saveAs(saved);
    expect(readFileSync(saved, "utf8")).toBe(project.replace("2.4 mm", "2.3 mm"));
    expect((await download).suggestedFilename()).toBe("mine.glassdrum.json");
    await page.close();
  });
});
