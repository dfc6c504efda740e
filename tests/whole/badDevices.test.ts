/** What cannot be, or means something else than it seems: the whole demo with one thing wrong, through `predict`. */
import { describe, expect, test } from "vitest";
import { changeValue, loadProject, type Outcome, type Project, predict } from "../../src/core/index.ts";
import { createEngine } from "../../src/core/microphone/engine.ts";
import { demoText } from "../../src/core/project/demo.ts";

const engine = createEngine();

function demoWith(changes: Readonly<Record<string, string>>): Outcome<Project> {
  let project = loadProject(demoText);
  for (const [path, value] of Object.entries(changes)) {
    if (!project.ok) return project;
    project = changeValue(project.value, path, value);
  }
  return project;
}

/** "code path" of every problem, or of every remark where there is an answer. */
function said(changes: Readonly<Record<string, string>>): { readonly refused: boolean; readonly codes: string[] } {
  const project = demoWith(changes);
  const answered = project.ok ? predict(project.value, { frequencies: [1000], manner: "quick", engine }) : project;
  const problems = answered.ok ? ("remarks" in answered.value ? answered.value.remarks : []) : answered.problems;
  for (const { message } of problems) expect(message.length).toBeGreaterThan(20);
  return { refused: !answered.ok, codes: problems.map(({ code, path }) => `${code} ${path.join(".")}`) };
}

const refused: readonly (readonly [string, Readonly<Record<string, string>>, string])[] = [
  [
    "a diaphragm that its own tension buckles",
    { "microphone.diaphragm.tension": '{ "across": "-400 N/m", "along": "-400 N/m" }' },
    "buckled microphone.diaphragm",
  ],
  ["a front cavity without volume", { "microphone.front.cavity.volume": '"0 mm^3"' }, "microphone.front.cavity.volume"],
  ["a back cavity without volume", { "microphone.back.cavity.volume": '"0 mm^3"' }, "microphone.back.cavity.volume"],
  [
    "a cavity with less wall than a sphere",
    { "microphone.front.cavity.surface": '"1 mm^2"' },
    "impossible-cavity microphone.front.cavity",
  ],
  [
    "a front hole larger than the diaphragm",
    { "microphone.front.holes[0].diameter": '"9 mm"' },
    "hole-outside microphone.front.holes.0",
  ],
  [
    "front holes that overlap",
    {
      "microphone.front.holes":
        '[ { "diameter": "1 mm", "length": "0.2 mm", "at": ["0 mm", "0 mm"] }, { "diameter": "1 mm", "length": "0.2 mm", "at": ["0.5 mm", "0 mm"] } ]',
    },
    "overlapping-holes microphone.front.holes",
  ],
  [
    "a wall whose holes overlap",
    { "microphone.film.backPlate": '{ "holes": { "diameter": "1 mm", "pitch": "0.8 mm", "length": "0.5 mm" } }' },
    "overlapping-holes microphone.film.backPlate.holes",
  ],
  [
    "a hole in the wall past the film's edge",
    { "microphone.film.backPlate": '{ "hole": { "diameter": "1 mm", "length": "0.5 mm", "at": ["2.6 mm", "0 mm"] } }' },
    "hole-outside microphone.film.backPlate.hole",
  ],
  [
    "glass with Poisson's ratio of a half and more",
    { "materials.our-sheet.poissonRatio": "0.6" },
    "materials.our-sheet.poissonRatio",
  ],
  [
    "a stiffness that gives energy away",
    {
      "materials.our-sheet":
        '{ "stiffness": { "q11": "60 GPa", "q12": "90 GPa", "q22": "60 GPa", "q66": "20 GPa" }, "density": "2500 kg/m^3", "index": 1.5, "p11": 0.121, "p12": 0.24 }',
      "microphone.frame": "null",
    },
    "materials.our-sheet.stiffness",
  ],
  [
    "a static load that lays the diaphragm on the wall",
    { "microphone.load.difference": '"20 kPa"' },
    "touches-back-plate microphone.load.difference",
  ],
];

describe("what cannot be is refused with its place", () => {
  test.each(refused)("%s", (_, changes, expected) => {
    const { refused: no, codes } = said(changes);
    expect(no, codes.join("; ")).toBe(true);
    expect(codes.join("; ")).toContain(expected);
  });
});

const remarked: readonly (readonly [string, Readonly<Record<string, string>>, string])[] = [
  [
    "no vent and no front hole: sealed, and what that means",
    { "microphone.back.vent": "null", "microphone.front.holes": "[]" },
    "sealed microphone.front.holes; no-vent microphone.back.vent",
  ],
  ["a gap wider than the side", { "microphone.film.gap": '"8 mm"' }, "microphone.film.gap"],
];

describe("what is computed all the same says what it means", () => {
  test.each(remarked)("%s", (_, changes, expected) => {
    const { refused: no, codes } = said(changes);
    expect(no, codes.join("; ")).toBe(false);
    expect(codes.join("; ")).toContain(expected);
  });
});
