/** Shares of poles: S(0) is the sum of -R / omega over all of them, so that a list that leaves out what carries the output shows. */
import { expect, test } from "vitest";
import { demoText, loadProject, predict } from "../../src/core/index.ts";
import { anyDevice } from "./anyDevice.ts";

const sumOfShares = (text: string): number => {
  const loaded = loadProject(text);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const predicted = predict(loaded.value, { frequencies: [1000] });
  if (!predicted.ok) throw new Error(JSON.stringify(predicted.problems));
  const { resonances, decays } = predicted.value;
  return [...resonances, ...decays].reduce((total, { share }) => total + share, 0);
};

test("where holes and a cavity all but overdamp each other, the shares of what is listed add up to the output at rest", () => {
  const { light, readout } = JSON.parse(demoText).microphone;
  const file = JSON.parse(anyDevice(770_037).text);
  const sum = sumOfShares(JSON.stringify({ ...file, microphone: { ...file.microphone, light, readout } }));
  // What is left belongs to poles above the range, and to those beside singularities of the cavities.
  expect(Math.abs(sum - 1)).toBeLessThan(0.05);
});

test.each([
  ["eight slower ones of film and cavities come first", { side: "9.77875 mm", gap: "54.8055 um", at: "4.62268 mm" }],
  ["two rates lie close", { side: "7.144354 mm", gap: "12.66667 um", at: "3.377333 mm" }],
])("what carries an overdamped diaphragm's output is listed, though %s", (_, { side, gap, at }) => {
  const demo = JSON.parse(demoText);
  const { microphone } = demo;
  const device = {
    ...microphone,
    diaphragm: { ...microphone.diaphragm, across: side, along: side },
    film: { ...microphone.film, gap },
    guide: { ...microphone.guide, at },
  };
  expect(Math.abs(sumOfShares(JSON.stringify({ ...demo, microphone: device })) - 1)).toBeLessThan(0.05);
});
