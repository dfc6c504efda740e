import { expect, test } from "vitest";
import { demoText } from "../../project/demo.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { predict } from "../predict/predict.ts";
import { earGain, earLimit, listen } from "./listen.ts";
import { makeSound, soundNames } from "./sounds.ts";

const sampling = 48000;

function demo(...changes: readonly (readonly [string, string])[]): Project {
  let loaded = loadProject(demoText);
  for (const [path, value] of changes) if (loaded.ok) loaded = changeValue(loaded.value, path, value);
  if (!loaded.ok) throw new Error(loaded.problems[0]?.message);
  return loaded.value;
}

function heardOf(project: Project, sound: Float64Array) {
  const found = listen(project, { sound, sampling });
  if (!found.ok) throw new Error(found.problems[0]?.message);
  return found.value;
}

/** Complex amplitude at a frequency over whole periods in the middle. */
function amplitude(sound: Float64Array, frequency: number, from: number, count: number) {
  let [re, im] = [0, 0];
  for (let i = 0; i < count; i++) {
    const angle = (2 * Math.PI * frequency * (from + i)) / sampling;
    re += (2 * sound[from + i]! * Math.cos(angle)) / count;
    im -= (2 * sound[from + i]! * Math.sin(angle)) / count;
  }
  return { re, im };
}

test.each([100, 6000, 12000])("a tone of %d Hz comes out with the size and phase of S(f)", (frequency) => {
  const project = demo();
  const tone = Float64Array.from({ length: sampling }, (_, i) => Math.cos((2 * Math.PI * frequency * i) / sampling));
  const { heard, reference } = heardOf(project, tone);
  // By the other route: predict solves a few frequencies one by one, without the curve.
  const predicted = predict(project, { frequencies: [frequency, reference] });
  if (!predicted.ok) throw new Error("no prediction");
  const { re, im } = predicted.value.response;
  const size = Math.hypot(re[1]!, im[1]!);
  const got = amplitude(heard, frequency, sampling / 2, sampling / 4);
  // 1e-4: what is left of switching on after half a second of slow vent, and of bins below 5 Hz.
  expect(Math.hypot(got.re - re[0]! / size, got.im - im[0]! / size)).toBeLessThan(
    (1e-4 * Math.hypot(re[0]!, im[0]!)) / size + 1e-4,
  );
});

test("nothing is heard before it happens: a click rings on after it and not before", () => {
  const click = new Float64Array(sampling / 2);
  const at = sampling / 4;
  // A bump that has died away at the end of the band, so that the band does not ring by itself.
  for (let i = -40; i <= 40; i++) click[at + i] = Math.exp(-((i / 2) ** 2));
  // The bare diaphragm rings long.
  const bare = demo(["microphone.film", "null"], ["microphone.front", "null"], ["microphone.back", "null"]);
  const { heard } = heardOf(bare, click);
  const largest = (from: number, to: number) =>
    heard.subarray(from, to).reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  const after = largest(at, at + 200);
  // 5e-3: without what lies below 5 Hz the whole stretch is lifted by 2e-3.
  expect(largest(at - 500, at - 24) / after).toBeLessThan(5e-3);
  expect(largest(at + 24, at + 500) / after).toBeGreaterThan(2e-2);
});

test("every sound made here stays under full scale and is the same again", () => {
  for (const name of soundNames) {
    const sound = makeSound(name, { sampling });
    expect(
      sound.every((value) => Math.abs(value) <= 1),
      name,
    ).toBe(true);
    const again = makeSound(name, { sampling });
    expect(again.length, name).toBe(sound.length);
    expect(
      again.every((value, i) => value === sound[i]),
      name,
    ).toBe(true);
  }
});

test("what reaches an ear is limited, never made louder, and by one factor for all", () => {
  const loud = makeSound("tone", { sampling }).map((value) => 40 * value);
  const soft = makeSound("clap", { sampling }).map((value) => 1e-3 * value);
  const gain = earGain(loud, soft);
  const rms = Math.sqrt(loud.reduce((sum, value) => sum + (gain * value) ** 2, 0) / loud.length);
  expect(rms).toBeLessThanOrEqual(earLimit.rms * (1 + 1e-12));
  expect(earGain(soft)).toBe(1);
});

test.each([
  [new Float64Array(0), 48000, "no-sound"],
  [Float64Array.of(0, Number.NaN), 48000, "no-sound"],
  [Float64Array.of(0, 1), 100, "sampling-out-of-range"],
])("%j at %d Hz is refused with %s", (sound, rate, code) => {
  const found = listen(demo(), { sound, sampling: rate });
  expect(found.ok ? [] : found.problems.map((one) => one.code)).toEqual([code]);
});

test("a microphone without any response is called deaf", () => {
  const found = listen(demo(["materials.our-sheet.p12", "0.121"], ["microphone.guide.birefringence", "0"]), {
    sound: makeSound("clap", { sampling }),
    sampling,
  });
  expect(found.ok ? [] : found.problems.map((one) => one.code)).toEqual(["deaf"]);
});
