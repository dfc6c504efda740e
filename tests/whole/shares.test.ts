/** Shares of poles: S(0) is the sum of -R / omega over all of them, so that a list that leaves out what carries the output shows. */
import { expect, test } from "vitest";
import { demoText, loadProject, predict } from "../../src/core/index.ts";
import { anyDevice } from "./anyDevice.ts";

test("where holes and a cavity all but overdamp each other, the shares of what is listed add up to the output at rest", () => {
  const { light, readout } = JSON.parse(demoText).microphone;
  const file = JSON.parse(anyDevice(770_037).text);
  const loaded = loadProject(JSON.stringify({ ...file, microphone: { ...file.microphone, light, readout } }));
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const predicted = predict(loaded.value, { frequencies: [1000] });
  if (!predicted.ok) throw new Error(JSON.stringify(predicted.problems));
  const { resonances, decays } = predicted.value;
  const sum = [...resonances, ...decays].reduce((total, { share }) => total + share, 0);
  // What is left belongs to poles above the range, and to those beside singularities of the cavities.
  expect(Math.abs(sum - 1)).toBeLessThan(0.05);
});
