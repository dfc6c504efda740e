import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { change, current, field, openBench, sharedBench, shownField } from "./bench.ts";

const gap = "microphone.film.gap";

const shared = sharedBench();

const kept = (page: Page) => page.waitForSelector('[data-keeping="kept"]');
/** Asked by time, not by frame: a page behind another one is drawn rarely. */
const gapIs = (page: Page, value: string) =>
  page.waitForFunction(
    ([path, wanted]) => document.querySelector<HTMLInputElement>(`[data-path="${path}"] input`)?.value === wanted,
    [gap, value],
    { polling: 50 },
  );
const show = (page: Page, name: string) => page.evaluate((to) => (location.hash = to), name);

test("a change is kept in the library without being asked for, with the words of its step", async () => {
  const { page } = shared;
  expect(await page.locator("[data-keeping]").getAttribute("data-keeping")).toBe("apart");
  await change(page, gap, "41 um");
  await kept(page);
  await show(page, "shelf");
  const line = page.locator(".project-line").first();
  await line.getByText("on the table").waitFor();
  await line.locator("summary").click();
  await line.getByText("Air gap 41 um").waitFor();
});

test("a second page hears of a change at once, and a change in both at the same time loses neither", async () => {
  const { page } = shared;
  const id = await page.locator(".project-line").first().getAttribute("data-project");
  const other = await openBench(shared.browser);
  await show(other.page, "shelf");
  await other.page.locator(`[data-project="${id}"] .project-title`).click();
  await other.page.waitForSelector('main[data-page="bench"]');
  await current(other.page);
  await kept(other.page);
  await page.bringToFront();
  await show(page, "bench");
  await change(page, gap, "42 um");
  await gapIs(other.page, "42 um");
  // A save of the other page's is held back until this one has saved too: both were made from the same state.
  let release = (): void => {};
  const held = new Promise<void>((done) => {
    release = done;
  });
  await other.page.route("**/states", async (route) => {
    await held;
    await route.continue();
  });
  await other.page.bringToFront();
  await change(other.page, gap, "43 um");
  await page.bringToFront();
  await change(page, gap, "44 um");
  await kept(page);
  release();
  await other.page.bringToFront();
  await other.page.waitForSelector(".conflict");
  expect(await field(other.page, gap).inputValue()).toBe("43 um");
  await other.page.getByRole("button", { name: "go on with mine" }).click();
  await kept(other.page);
  // The first page follows what was chosen; its own state stays on the line of time.
  await page.bringToFront();
  await gapIs(page, "43 um");
  await show(page, "shelf");
  const line = page.locator(`[data-project="${id}"]`);
  if ((await line.locator("details").getAttribute("open")) === null) await line.locator("summary").click();
  await line.locator("li", { hasText: "Air gap 44 um" }).waitFor();
  await line.locator("li", { hasText: "Air gap 43 um" }).first().waitFor();
  await other.close();
  await page.bringToFront();
});

test("an earlier state can be gone on from, and a name is found by search", async () => {
  const { page } = shared;
  const line = page.locator(".project-line").first();
  await line
    .locator("li", { hasText: "Air gap 41 um" })
    .getByRole("button", { name: "go on from here" })
    .press("Enter");
  await page.waitForSelector('main[data-page="bench"]');
  expect(await (await shownField(page, gap)).inputValue()).toBe("41 um");
  await kept(page);
  await show(page, "shelf");
  const search = page.getByLabel("Search titles and specimens");
  await search.fill("no such thing");
  await page.getByText("Nothing on the shelf has “no such thing”").waitFor();
  await search.fill("pulse a3");
  expect(await page.locator(".project-line").count()).toBeGreaterThan(0);
});

test("a project goes out as a ZIP and comes back, known", async () => {
  const { page } = shared;
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator(".project-do a").first().click()]);
  const path = join(mkdtempSync(join(tmpdir(), "glassdrum-zip-")), "project.zip");
  await download.saveAs(path);
  await page.getByLabel("Bring in a ZIP").setInputFiles({
    name: "back.zip",
    mimeType: "application/zip",
    buffer: readFileSync(path),
  });
  await page.getByText("here already, the same").waitFor();
  rmSync(dirname(path), { recursive: true });
});

test("when the server can't keep it, the page says so at once and keeps the work", async () => {
  const { page } = shared;
  await show(page, "bench");
  await page.route("**/states", (route) =>
    route.fulfill({
      status: 200,
      contentType: "text/plain",
      body: "no answer of ours",
    }),
  );
  await change(page, gap, "45 um");
  await page.getByText("Your last change could not be kept in the library").waitFor();
  expect(await field(page, gap).inputValue()).toBe("45 um");
  await page.unroute("**/states");
  await page.getByRole("button", { name: "try again" }).click();
  await kept(page);
});
