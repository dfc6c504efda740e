/** The project that two of the stories start from: a 5 mm square of 30 um glass over an open film, every constant given. */
import { changeValue, loadProject, type Outcome, type Project, pathText } from "../src/core/index.ts";

/** Air and glass are given, not computed, because the numbers that the stories are checked with belong to them. */
const text = `{
  "format": "glassdrum-project", "version": 1,
  "title": "5 mm, 30 um",
  "air": { "temperature": "23 degC", "pressure": "101.325 kPa", "density": "1.186 kg/m^3", "viscosity": "1.83e-5 Pa s",
           "heatRatio": 1.4, "prandtl": 0.71, "meanFreePath": "0 nm" },
  "materials": {
    "glass": { "youngsModulus": "72.9 GPa", "poissonRatio": 0.21, "density": "2510 kg/m^3", "index": 1.46, "p11": 0.121, "p12": 0.27 }
  },
  "microphone": {
    "diaphragm": { "material": "glass", "across": "5 mm", "along": "5 mm", "thickness": "30 um" },
    "guide": { "at": "0 mm", "face": "front", "depth": "3 um" },
    "film": { "gap": "100 um", "edges": "open" }
  }
}`;

export const workedPlate = (): Project => answerOf(loadProject(text));

/** The project with one value changed: `withValue(project, "microphone.film.gap", "50 um")`. */
export const withValue = (project: Project, path: string, value: string): Project =>
  answerOf(changeValue(project, path, value));

/** The answer, or an error with every problem in words. */
export function answerOf<T>(outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new Error(outcome.problems.map(({ path, message }) => `${pathText(path)}: ${message}`).join("\n"));
}
