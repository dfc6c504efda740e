import { expect, test } from "vitest";
import { changeValue, loadProject, type Project } from "../../core/index.ts";
import { valueText } from "../shell/valueText.ts";
import { fieldGroups } from "./fieldList.ts";

function loaded(edges: string): Project {
  const project = loadProject(
    `{ "format": "glassdrum-project", "version": 1, "microphone": { "diaphragm": { "edges": ${edges} } } }`,
  );
  if (!project.ok) throw new Error(project.problems[0]?.message);
  return project.value;
}

/** What stands in the fields of the edges. */
const shown = (project: Project) =>
  (fieldGroups(project)[0]?.fields ?? [])
    .filter(({ path }) => path.includes(".edges"))
    .map(({ path }) => `${path.replace("microphone.diaphragm.edges.", "")} ${valueText(project, path)}`);

test("edges are words, and the numbers of soft ones stand below them", () => {
  expect(shown(loaded('"clamped"'))).toEqual(["sides clamped", "ends clamped"]);
  expect(shown(loaded('{ "rotation": "2 N" }'))).toEqual(["sides elastic", "ends elastic", "rotation 2 N"]);
  expect(shown(loaded('{ "sides": { "bond": { "thickness": "9 um", "youngsModulus": "3 GPa" } } }'))).toEqual([
    "sides glued",
    "sides.bond.thickness 9 um",
    "sides.bond.youngsModulus 3 GPa",
    "sides.bond.overlap ",
    "ends clamped",
  ]);
});

test("what a choice writes is a project without problems, from any start", () => {
  const [sides] = (fieldGroups(loaded('"clamped"'))[0]?.fields ?? []).filter(({ path }) => path.endsWith(".sides"));
  for (const start of ['"supported"', '{ "rotation": "2 N" }', '{ "ends": "supported" }'])
    for (const [choice, text] of Object.entries(sides?.writes ?? {})) {
      const changed = changeValue(loaded(start), ["microphone", "diaphragm", "edges", "sides"], text);
      if (!changed.ok) throw new Error(changed.problems[0]?.message);
      expect(valueText(changed.value, "microphone.diaphragm.edges.sides")).toBe(choice);
    }
});
