/** Relative sensitivities of a thin clamped plate in vacuum: exponents that follow from its scaling alone. */
import { loadProject } from "../src/core/project/load.ts";
import { type Sensitivities, sensitivities } from "../src/core/tasks/predict/sensitivities.ts";
import type { TruthRow } from "./row.ts";

/** No air, no loss, constant index: every exponent is a plain number. */
const bare = `{
  "format": "glassdrum-project", "version": 1,
  "materials": { "own": { "youngsModulus": "70 GPa", "poissonRatio": 0.2, "density": "2500 kg/m^3", "index": 1.5, "p11": 0.12, "p12": 0.25 } },
  "microphone": {
    "diaphragm": { "material": "own", "across": "5 mm", "along": "6 mm", "thickness": "30 um", "edges": "clamped" },
    "guide": { "at": "0.5 mm", "face": "front", "depth": "3 um", "width": null },
    "light": { "wavelength": "633 nm" }
  }
}`;

let known: Sensitivities | null = null;

function found(): Sensitivities {
  if (known !== null) return known;
  const project = loadProject(bare);
  if (!project.ok) throw new Error(project.problems[0]?.message);
  const work = sensitivities(project.value);
  let step = work.next();
  while (step.done !== true) step = work.next();
  if (!step.value.ok) throw new Error(step.value.problems[0]?.message);
  known = step.value.value;
  return known;
}

const exponent = (of: keyof Sensitivities, path: string): number =>
  found()[of].find((one) => one.path === path)?.exponent ?? Number.NaN;
const plate = "microphone.diaphragm";

const row = (what: string, got: () => number, expected: number, source: string): TruthRow => ({
  what: `thin clamped plate in vacuum, ${what} [-]`,
  got,
  expected,
  within: 1e-3,
  why: "central difference over a part in a thousand to either side, of answers to 1e-6",
  origin: "exact",
  source,
});

const frequency = "f = (lambda / 2 pi) sqrt(D / (rho h)) / a^2 with D = E h^3 / (12 (1 - nu^2)): homogeneous in each";
const phase =
  "phase = (pi n^3 / lambda) (p11 - p12) strain along the guide, strain = z curvature, curvature as p a^2 / D, z = h/2 - d";

export const rows: readonly TruthRow[] = [
  row("resonance over thickness", () => exponent("resonance.frequency", `${plate}.thickness`), 1, frequency),
  row(
    "resonance over Young's modulus",
    () => exponent("resonance.frequency", "materials.own.youngsModulus"),
    0.5,
    frequency,
  ),
  row("resonance over density", () => exponent("resonance.frequency", "materials.own.density"), -0.5, frequency),
  row(
    "resonance over both sides together",
    () => exponent("resonance.frequency", `${plate}.across`) + exponent("resonance.frequency", `${plate}.along`),
    -2,
    frequency,
  ),
  row(
    "static sensitivity over Young's modulus",
    () => exponent("sensitivity.static", "materials.own.youngsModulus"),
    -1,
    phase,
  ),
  row(
    "static sensitivity over wavelength",
    () => exponent("sensitivity.static", "microphone.light.wavelength"),
    -1,
    phase,
  ),
  row("static sensitivity over index", () => exponent("sensitivity.static", "materials.own.index"), 3, phase),
  row(
    "static sensitivity over thickness, guide 3 um under the face of 30 um",
    () => exponent("sensitivity.static", `${plate}.thickness`),
    -3 + 15 / 12,
    phase,
  ),
  row(
    "static sensitivity over depth of the guide, 3 um under the face of 30 um",
    () => exponent("sensitivity.static", "microphone.guide.depth"),
    -3 / 12,
    phase,
  ),
  row(
    "static sensitivity over both sides and the guide's position together",
    () =>
      ["diaphragm.across", "diaphragm.along", "guide.at"]
        .map((path) => exponent("sensitivity.static", `microphone.${path}`))
        .reduce((sum, one) => sum + one, 0),
    3,
    "phase as length of the guide on the plate times p a^2 / D: all lengths in the plane together count three times",
  ),
];
