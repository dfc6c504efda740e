/** The diaphragm in motion and sound through the microphone: what the page shows is what core says. */

import { expect, test } from "vitest";
import { WaveFile } from "wavefile";
import { demoText, fieldIn, fieldRoom, listen, loadProject, makeSound } from "../../src/core/index.ts";
import { sharedBench } from "./bench.ts";
import { clipped, drawn, overlapping, scrollsSideways, serious } from "./looks.ts";

const shared = sharedBench();

function demo() {
  const loaded = loadProject(demoText);
  if (!loaded.ok) throw new Error("the demo is no project");
  return loaded.value;
}

test("the deflection at a typed frequency is core's, as a body, as a map and as a table", async () => {
  const { page } = shared;
  const panel = page.locator(".motion");
  await panel.locator("summary").first().press("Enter");
  await panel.locator(".body").waitFor();
  await panel.locator(".motion-controls .short-text").fill("3 kHz");
  await panel.locator(".motion-controls .short-text").press("Enter");
  await panel.locator('.body[aria-label*="3.00\u202fkHz"]').waitFor();
  // Turned by key alone.
  await panel.locator(".body").focus();
  await page.keyboard.press("ArrowRight");
  expect(await page.getByLabel("Turn (°)").inputValue()).toBe("40");
  await panel.locator("details.table summary").press("Enter");
  const row = panel.locator("tbody tr").nth(40);
  // The table is written when it is opened.
  await row.waitFor();
  const shown = await row
    .locator("td")
    .evaluateAll((all) => all.map((one) => Number((one as HTMLElement).dataset["value"])));
  const room = fieldRoom(demo());
  const field = room.ok ? fieldIn(room.value, { of: { kind: "forced", frequency: 3000 }, points: 41 }) : room;
  if (!field.ok) throw new Error("no field");
  const middle = (41 * 41 - 1) / 2;
  const size = (part: { re: Float64Array; im: Float64Array } | null) =>
    Math.hypot(part?.re[middle] ?? Number.NaN, part?.im[middle] ?? Number.NaN);
  expect(shown[2]! / size(field.value.deflection)).toBeCloseTo(1, 9);
  expect(shown[4]! / size(field.value.pressure)).toBeCloseTo(1, 9);
  await panel.locator("details.table summary").press("Enter");
  await page.getByLabel("Seen as").selectOption("map");
  await panel.locator(".map").waitFor();
  await panel.locator(".motion-controls select").first().selectOption("1");
  await panel.locator('.map[aria-label*="mode 2"]').waitFor();
});

test("a sound of ours and a recording are heard through the response that core gives", async () => {
  const { page } = shared;
  const panel = page.locator(".listening");
  await panel.locator("summary").press("Enter");
  await panel.getByText("Turn your volume down").waitFor();
  await panel.getByRole("button", { name: "compute" }).press("Enter");
  const heard = panel.locator("[data-heard]");
  await heard.waitFor();
  const sampling = 48000;
  const ofClap = listen(demo(), { sound: makeSound("clap", { sampling }), sampling });
  expect(Number(await heard.getAttribute("data-heard"))).toBeCloseTo((ofClap.ok && ofClap.value.levelChangeDb) || 0, 6);
  const wave = new WaveFile();
  const recording = makeSound("tone", { sampling: 16000, frequency: 1000 });
  wave.fromScratch(1, 16000, "32f", recording);
  await panel.locator("select").selectOption("own");
  await panel.getByLabel("choose a WAV file").setInputFiles({
    name: "tone.wav",
    mimeType: "audio/wav",
    buffer: Buffer.from(wave.toBuffer()),
  });
  await panel.getByText("Sampled at 16.00 kHz").waitFor();
  // A tone at the reference keeps its level.
  expect(Math.abs(Number(await heard.getAttribute("data-heard")))).toBeLessThan(0.01);
  await panel.getByLabel("choose a WAV file").setInputFiles({
    name: "none.wav",
    mimeType: "audio/wav",
    buffer: Buffer.from("RIFFxxxxWAVE"),
  });
  await panel.getByText('No "fmt " chunk').waitFor();
});

test("both fit at every width", async () => {
  const { page } = shared;
  for (const width of [1440, 320]) {
    await page.setViewportSize({ width, height: 800 });
    await page.evaluate(() => window.scrollTo(0, 0));
    await drawn(page);
    expect(await scrollsSideways(page)).toBe(false);
    expect(await clipped(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
  }
  expect(await serious(page)).toEqual([]);
});
