import { expect, test } from "vitest";
import { loadProject } from "./load.ts";
import { precautionsOf } from "./precautions.ts";

const of = (more: object) => {
  const loaded = loadProject(JSON.stringify({ format: "glassdrum-project", version: 1, ...more }));
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return precautionsOf(loaded.value);
};

test("an empty project brings no precaution; light, a loud sound, a pressure and a bath bring theirs", () => {
  expect(of({})).toEqual([]);
  const brought = of({
    brief: { loudest: { atLeast: "130 dB" }, site: { staticOverpressure: "1 kPa" } },
    microphone: { light: { launched: "1 mW" }, guide: { process: { kind: "ion-exchange" } } },
  });
  expect(brought.map(({ precaution }) => precaution)).toEqual([
    "laser",
    "loud-sound",
    "pressurized-glass",
    "molten-salt",
  ]);
  expect(brought.every(({ named }) => !named)).toBe(true);
});

test("what the brief names comes first, once, and known to be named", () => {
  const both = of({
    brief: { site: { precautions: ["outdoors", "laser"] } },
    microphone: { light: { launched: "1 mW" } },
  });
  expect(both).toEqual([
    { precaution: "outdoors", named: true },
    { precaution: "laser", named: true },
  ]);
});
