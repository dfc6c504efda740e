/** The level that counts against the balance of many multiples, and overloads against their estimate, on devices drawn at random. */
import { expect, test } from "vitest";
import { createEngine, settle, shapeEntry } from "../../src/core/microphone/engine.ts";
import { loudestAt } from "../../src/core/microphone/loudest/loudest.ts";
import { steadyTones } from "../../src/core/microphone/loudest/steadyTone.ts";
import { restingBias } from "../../src/core/microphone/rest/restingBias.ts";
import { readBrief } from "../../src/core/project/brief.ts";
import { loadProject } from "../../src/core/project/load.ts";
import { predictMicrophone } from "../../src/core/tasks/predict/predict.ts";
import { recoveryOf } from "../../src/core/tasks/predict/recovery.ts";
import { anyDevice } from "../whole/anyDevice.ts";

const seeds = Array.from({ length: 40 }, (_, i) => 70_000 + i);
/** Where a project says nothing about it. */
const somewhere = 1.4;

function device(seed: number) {
  const { text, microphone: given } = anyDevice(seed);
  const engine = createEngine();
  const settled = settle(engine, given);
  if (!settled.ok) return null;
  const microphone = settled.value;
  const bias = restingBias(microphone).map((one) => one ?? somewhere);
  return { text, engine, microphone, entry: shapeEntry(engine, microphone), bias };
}

test("the level that counts is that of the balance, to 0.01 dB at 1 % and to 0.15 dB at 3 %", () => {
  let compared = 0;
  for (const seed of seeds) {
    const made = device(seed);
    if (made === null) continue;
    const { entry, microphone, bias } = made;
    for (const frequency of [200, 1000, 5000]) {
      const distortions = [0.01, 0.03];
      const balanced = steadyTones(entry, microphone, { frequency, distortions, bias }) ?? [];
      balanced.forEach(({ level, stopped, distortion }, i) => {
        const { summed } = loudestAt(entry, microphone, { frequency, distortion, bias });
        if (level === null || summed === null || stopped !== "reached") return;
        compared++;
        // The balance itself is halved to 0.005 dB.
        expect(Math.abs(level - summed), `${seed} at ${frequency} Hz, ${distortion}`).toBeLessThan([0.01, 0.15][i]!);
      });
    }
  }
  expect(compared).toBeGreaterThan(150);
});

test("an overload is over when the sizes of its poles say so at the latest, and within a tenth where the film holds it", () => {
  for (const seed of seeds.slice(0, 20)) {
    const made = device(seed);
    if (made === null) continue;
    const { text, engine, entry, microphone, bias } = made;
    const loaded = loadProject(text);
    if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
    const prediction = predictMicrophone(microphone, readBrief(loaded.value), { engine, frequencies: [1000] }, []);
    const recovery = recoveryOf(entry, microphone, { ...prediction, bias, asked: 140 });
    for (const { ended, cut, until, bySize, level } of recovery?.overloads ?? []) {
      expect(["recovered", "wall", "lost"]).toContain(ended);
      // Hardly any loss: modes pass energy to each other for longer than the steps last.
      if (ended !== "recovered" || cut || until.small === null || bySize.small === null) continue;
      expect(until.small, `${seed} at ${level} dB`).toBeLessThan(1.1 * bySize.small + 1e-5);
    }
    if (recovery) expect(recovery.error, `${seed}`).toBeLessThan(1e-4);
  }
});
