import { expect, test } from "vitest";
import { changeValue, demoText, loadProject, type Project, projectText } from "../../core/index.ts";
import { valueDifferences } from "./differences.ts";
import { applied, keptDesigns, withKept, withoutKept } from "./keptDesigns.ts";

const loaded = loadProject(demoText);
if (!loaded.ok) throw new Error("the demo does not load");
const demo = loaded.value;
const changed = (project: Project, path: string, value: string): Project => {
  const found = changeValue(project, path, value);
  if (!found.ok) throw new Error(found.problems[0]?.message);
  return found.value;
};
const made = <T>(outcome: { ok: boolean; value?: T }): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome));
  return outcome.value as T;
};

test("a kept design comes back as it was, whatever was changed, added or taken away since", () => {
  const kept = made(withKept(demo, "as drawn"));
  const other = [
    ["microphone.film.gap", "52 um"],
    ["microphone.readout.outputs", "one"],
    ["microphone.light.launched", "1 mW"],
    ["microphone.diaphragm.edges", "supported"],
    ["microphone.back.leak", '{ "height": "2 um", "width": "1 mm", "length": "2 mm", "from": "front" }'],
    ["microphone.back.vent", '{ "shape": "slit", "height": "20 um", "width": "1 mm", "length": "3 mm" }'],
    ["microphone.front.holes[0].diameter", "0.8 mm"],
    ["microphone.body", '{ "shape": "sphere", "diameter": "30 mm" }'],
    ["air.temperature", "31 degC"],
  ].reduce((project, [path, value]) => changed(project, path!, value!), kept);
  const index = keptDesigns(other).findIndex(({ name }) => name === "as drawn");
  const back = made(applied(other, keptDesigns(other)[index]!));
  expect(back.file.microphone).toEqual({ ...demo.file.microphone, body: null });
  expect(back.file.air).toEqual(demo.file.air);
  expect(valueDifferences([demo, back])).toEqual([]);
});

test("bringing back a design leaves the text of what does not differ as it is", () => {
  const kept = made(withKept(demo, "as drawn"));
  const back = made(applied(changed(kept, "microphone.film.gap", "52 um"), keptDesigns(kept).at(-1)!));
  expect(projectText(back)).toBe(projectText(kept));
});

test("a design that is kept under a name that is there takes its place; one that is forgotten leaves the others", () => {
  const once = made(withKept(demo, "mine"));
  const twice = made(withKept(changed(once, "microphone.film.gap", "44 um"), "mine"));
  expect(keptDesigns(twice).map(({ name }) => name)).toEqual(["first idea", "mine"]);
  expect(keptDesigns(twice)[1]?.changes["microphone.film"]).toMatchObject({ gap: "44 um" });
  expect(keptDesigns(made(withoutKept(twice, 0))).map(({ name }) => name)).toEqual(["mine"]);
  // What is kept goes through the file and back.
  expect(keptDesigns(made(loadProject(projectText(twice))))).toEqual(keptDesigns(twice));
});

test("differences are those of quantities, not of how they are typed", () => {
  expect(valueDifferences([demo, changed(demo, "microphone.film.gap", "0.038 mm")])).toEqual([]);
  const found = valueDifferences([demo, made(applied(demo, keptDesigns(demo)[0]!))]);
  expect(found.map(({ key }) => key)).toEqual(["microphone.readout.outputs", "microphone.film.gap"].sort());
  expect(found.find(({ key }) => key === "microphone.film.gap")?.values).toEqual(["38.00\u202fµm", "50.00\u202fµm"]);
  expect(found.find(({ key }) => key === "microphone.film.gap")?.changes).toEqual(["", "+32\u202f%"]);
  expect(found.find(({ key }) => key === "microphone.readout.outputs")?.values).toEqual(["both", "one"]);
});
