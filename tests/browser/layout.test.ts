import { describe, expect, inject, test } from "vitest";
import { field, reset, seeDamping, sharedBench, shownField, type View } from "./bench.ts";
import { clipped, drawn, faint, overlapping, scrollsSideways, serious } from "./looks.ts";

const shared = sharedBench();

const views: readonly View[] = [
  [1440, 900],
  [1024, 768],
  [390, 844],
  [320, 640],
  [2560, 1440],
].flatMap(([width = 0, height = 0]) => (["light", "dark"] as const).map((paper) => ({ width, height, paper })));

describe.each(views)("at $width x $height on $paper paper", ({ width, height, paper }) => {
  // What axe judges changes with the paper and between the widest and the narrowest page, not on the way.
  const judged = width === 1440 || width === 320;

  test("nothing is cut off, nothing overlaps, and the page does not scroll sideways", async () => {
    const { page } = shared;
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: paper });
    await seeDamping(page);
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    expect(await faint(page)).toEqual([]);
    if (judged) expect(await serious(page)).toEqual([]);
  });

  // Paper changes no place of anything.
  if (paper === "light")
    test("nor with every part that a microphone can have", async () => {
      const { page } = shared;
      for (const part of ["backPlate", "leak", "layer", "body"])
        await page.locator(`[data-part-toggle="${part}"]`).click();
      // The line of requirements stays in sight, over what is scrolled.
      await page.evaluate(() => window.scrollTo(0, 0));
      await drawn(page);
      expect(await scrollsSideways(page)).toBe(false);
      expect(await clipped(page)).toEqual([]);
      expect(await overlapping(page)).toEqual([]);
      await reset(page);
    });

  test("nor with a problem beside a field and the old answer shown as old", async () => {
    const { page } = shared;
    await (await shownField(page, "microphone.film.gap")).fill("38 parsecs of nothing in particular");
    await field(page, "microphone.film.gap").blur();
    await page.waitForSelector('main[data-freshness="old"]');
    await page.evaluate(() => window.scrollTo(0, 0));
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect((await clipped(page)).filter((text) => !text.includes("parsecs of nothing in particular"))).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    if (judged) expect(await serious(page)).toEqual([]);
    await reset(page);
  });
});

test("in print there is white paper, and nothing to press that paper can't answer", async () => {
  const { page } = shared;
  await page.setViewportSize({ width: 794, height: 1123 });
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe("rgb(255, 255, 255)");
  for (const name of ["Save as file", "Undo", "Keep", "forget"])
    expect(await page.getByRole("button", { name, exact: true }).count(), name).toBe(0);
  expect(await page.locator(".ring:visible").count()).toBe(0);
  expect(await scrollsSideways(page)).toBe(false);
});

// Last: a page that has stood behind another one draws slowly.
test("the setting of the paper wins over the system's, and is kept", async () => {
  const page = await shared.browser.newPage({ locale: "en-GB", colorScheme: "light" });
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  await page.goto(inject("address"));
  expect(await ground()).toBe("rgb(251, 250, 246)");
  await page.getByLabel("Paper").selectOption("dark");
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await page.reload();
  expect(await ground()).toBe("rgb(21, 24, 27)");
  await page.close();
});
