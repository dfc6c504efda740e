/** A whole project, the demo, with a guide or a readout that can't work: what `check` and `predict` say of it. */
import { expect, describe as group, it } from "vitest";
import type { Problem } from "../../problem.ts";
import { demoText } from "../../project/demo.ts";
import { describe } from "../../project/describe.ts";
import { changeValue, loadProject, type Project } from "../../project/load.ts";
import { predict } from "../predict/predict.ts";

function demo(changes: Readonly<Record<string, string>>): Project {
  let project = loadProject(demoText);
  for (const [path, value] of Object.entries(changes))
    if (project.ok) project = changeValue(project.value, path, value);
  if (!project.ok) throw new Error(project.problems.map(({ message }) => message).join(" "));
  return project.value;
}

const guide = "microphone.guide";
const made = (how: string) => ({ [guide]: `{ "at": "2.6 mm", "length": "20 mm", ${how} }` });
const bath = (time: string, window: string) =>
  made(
    `"process": { "kind": "ion-exchange", "salt": "potassium", "temperature": "385 degC", "time": "${time}", "window": "${window}" }`,
  );
const strip = (layer: string, cover = 1) =>
  made(`"profile": { "kind": "layered", "cover": ${cover}, "layers": [ { ${layer} } ] }`);

const told = (problems: readonly Problem[], code: string): string =>
  problems
    .filter((problem) => problem.code === code)
    .map(({ path, message }) => `${path.join(".")}: ${message}`)
    .join(" ");

group("light that can't work is refused", () => {
  it.each([
    ["a guide without a mode", bath("5 min", "4 um"), "no-guided-mode", /holds no TE mode at 633.nm.*deeper or wider/],
    [
      "a guide that leaks into its cover",
      strip('"thickness": "3 um", "index": 1.53, "width": "3 um"', 1.6),
      "leaks-into-cover",
      /cover has the index 1\.6.*lower index/,
    ],
  ])("%s", (_what, changes, code, says) => {
    const project = demo(changes);
    const [checked, answered] = [describe(project), predict(project, { frequencies: [1000] })];
    for (const outcome of [checked, answered]) {
      expect(outcome.ok).toBe(false);
      if (!outcome.ok) expect(told(outcome.problems, code)).toMatch(says);
    }
  });

  it("an extinction worse than 1", () => {
    for (const one of ["polarizer", "analyzer"]) {
      const changed = changeValue(demo({}), `microphone.readout.${one}.extinction`, "-3 dB");
      expect(changed.ok ? "" : told(changed.problems, "out-of-range")).toMatch(/extinction: .*-3 dB.*0/);
      // As it would stand in a file.
      const text = demoText.replace(/("analyzer": \{[^}]*"extinction": )"30 dB"/, '$1"-3 dB"');
      const loaded = loadProject(text);
      expect(loaded.ok ? "" : told(loaded.problems, "out-of-range")).toMatch(/readout\.analyzer\.extinction/);
    }
  });
});

group("light that works badly is answered, and said", () => {
  it.each([
    ["several modes", bath("6 h", "4 um"), "several-modes", /holds \d+ TE and \d+ TM modes/],
    [
      "a film thinner than its mode",
      strip('"thickness": "0.4 um", "index": 1.58, "width": "4 um"'),
      "film-thinner-than-mode",
      /layers are 400.nm thick/,
    ],
    [
      "a wavelength outside the glass's data",
      { "microphone.diaphragm.material": "borosilicate-crown", "microphone.light.wavelength": "2.6 um" },
      "index-outside-range",
      /2500.nm.*2600.nm/,
    ],
    ["a bias in the null", { "microphone.readout.bias": "180 deg" }, "bias-in-null", /no linear signal.*largest at/],
    ["polarizers along a mode", { "microphone.readout.polarizer.angle": "0 deg" }, "bias-in-null", /no linear signal/],
  ])("%s", (_what, changes, code, says) => {
    const answer = predict(demo(changes), { frequencies: [1000], manner: "quick" });
    if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join(" "));
    expect(told(answer.value.remarks, code)).toMatch(says);
    // No number that is none anywhere in the answer.
    expect(JSON.stringify(answer.value, (_key, value) => (Number.isNaN(value) ? "NaN!" : value))).not.toContain("NaN!");
    expect(answer.value.sensitivity.magnitude).toBeGreaterThan(0);
  });
});
