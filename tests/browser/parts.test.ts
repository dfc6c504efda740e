import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { partsToAdd } from "../../src/core/index.ts";
import { current, field, numbers, predicted, sharedBench } from "./bench.ts";

const shared = sharedBench({ putBack: true });

const word = (page: Page, key: string) => page.locator(`[data-part-toggle="${key}"]`);
const focusedPart = (page: Page) =>
  page.evaluate(() => document.activeElement?.getAttribute("data-part-toggle") ?? null);
const setting = (key: keyof typeof partsToAdd): string => `${partsToAdd[key].path}=${partsToAdd[key].value}`;

async function agrees(page: Page, ...settings: readonly string[]): Promise<void> {
  const { resonance, sensitivity } = await predicted(...settings);
  const shown = await numbers(page);
  for (const [key, expected] of [
    ["resonance.frequency", resonance.frequency],
    ["resonance.dampingRatio", resonance.dampingRatio],
    ["sensitivity.magnitude", sensitivity.magnitude],
  ] as const)
    expect((shown.get(key)?.value ?? Number.NaN) / (expected ?? Number.NaN), key).toBeCloseTo(1, 12);
}

test("parts are added by key: the focus stays, values open, the drawing shows them, and numbers are the command's", async () => {
  const { page } = shared;
  const added = ["backPlate", "leak", "layer", "body"] as const;
  for (const key of added) {
    await word(page, key).focus();
    await page.keyboard.press("Enter");
    expect(await focusedPart(page), key).toBe(key);
  }
  expect(await page.locator('[data-part="body"]').getAttribute("aria-pressed")).toBe("true");
  expect(await field(page, "microphone.body.diameter").isVisible()).toBe(true);
  await current(page);
  expect(await page.locator(".sheet .bores, .sheet .slit, .sheet .interface, .sheet .body").count()).toBe(4);
  await agrees(page, ...added.map(setting));
  await page.locator('[data-dimension="microphone.back.leak.height"] button').click();
  await page.keyboard.type("3 um");
  await page.keyboard.press("Enter");
  expect(await field(page, "microphone.back.leak.height").inputValue()).toBe("3 um");
  // The key that takes the value does not open the line again.
  expect(await page.locator(".dimension input").count()).toBe(0);
  expect(await page.locator('[data-part="back"]').getAttribute("aria-pressed")).toBe("true");
});

test("parts are taken away one by one, and the last one of the back takes the back along", async () => {
  const { page } = shared;
  for (const key of ["front", "frame", "backCavity", "vent"]) await word(page, key).click();
  await current(page);
  expect(await page.locator(".sheet g.front, .sheet g.back").count()).toBe(0);
  await agrees(page, "microphone.front=null", "microphone.frame=null", "microphone.back=null");
  await page.keyboard.press("Control+z");
  expect(await page.locator(".sheet .back").count()).toBe(1);
  await word(page, "film").click();
  expect(await word(page, "backPlate").count()).toBe(0);
  expect(await page.locator('[data-grip="microphone.film.gap"]').count()).toBe(0);
});

test("a part of the drawing that is touched opens its values beside it, in sight", async () => {
  const { page } = shared;
  await page.evaluate(() => window.scrollTo(0, 0));
  for (const part of ["front", "back", "frame", "film"]) {
    await page.locator(`.sheet [data-touch="${part}"] rect`).last().dispatchEvent("click");
    expect(await page.locator(`[data-part="${part}"]`).getAttribute("aria-pressed"), part).toBe("true");
    const group = await page.locator(`[data-group="${part}"]`).boundingBox();
    expect((group?.y ?? 1e4) + (group?.height ?? 0), part).toBeLessThan(900);
  }
});

test("the front plate gets a further hole by word and loses it, the wall behind one hole", async () => {
  const { page } = shared;
  await page.locator('[data-part="front"]').click();
  await page.locator('[data-holes="add"]').click();
  expect(await field(page, "microphone.front.holes[1].at[0]").inputValue()).toBe("1.4 mm");
  expect(await page.locator(".sheet g.front .wall").count()).toBe(5);
  await page.locator('[data-part="film"]').click();
  await field(page, "microphone.film.backPlate").selectOption("one hole");
  await field(page, "microphone.film.backPlate.hole.at[0]").fill("0.5 mm");
  await current(page);
  expect(await page.locator(".sheet .film .bores").count()).toBe(1);
  await agrees(
    page,
    'microphone.front.holes[1]={"diameter":"1.2 mm","length":"0.2 mm","at":["1.4 mm","0 mm"]}',
    'microphone.film.backPlate={"hole":{"diameter":"1 mm","length":"0.5 mm","at":["0.5 mm","0 mm"]}}',
  );
  await page.locator('[data-part="front"]').click();
  await page.locator('[data-holes="1"]').click();
  expect(await page.locator(".sheet g.front .wall").count()).toBe(4);
});

test("a film that the site's pressure closes is marked where the sheet touches the wall", async () => {
  const { page } = shared;
  expect(await page.locator(".sheet .film.wrong").count()).toBe(0);
  await page.locator('[data-dimension="microphone.film.gap"] button').click();
  await page.keyboard.type("4 um");
  await page.keyboard.press("Enter");
  await current(page);
  expect(await page.locator(".sheet .film.wrong").count()).toBe(1);
  expect(await page.locator(".sheet .problem").textContent()).toContain("touches the wall");
});
