/** The air of a project: computed from temperature, pressure and humidity, each constant replaced where it is given. */
import type { Air } from "../material/air.ts";
import { airAt } from "../material/humidAir.ts";
import { answer, type Outcome, refuse } from "../problem.ts";
import type { InSi, ProjectFile } from "./shape.ts";

const constants = ["density", "viscosity", "heatRatio", "prandtl", "meanFreePath"] as const;

/** Problems and remarks: those of `airAt`, below "air"; none where every constant is given. */
export function airOf(said: NonNullable<InSi<ProjectFile>["air"]>): Outcome<Air> {
  const { temperature, pressure, humidity, density, viscosity, heatRatio, prandtl, meanFreePath } = said;
  if (temperature === undefined || pressure === undefined || humidity === undefined)
    throw new Error("airOf: temperature, pressure and humidity have defaults");
  const state = { temperature, pressure, humidity };
  if (
    density !== undefined &&
    viscosity !== undefined &&
    heatRatio !== undefined &&
    prandtl !== undefined &&
    meanFreePath !== undefined
  )
    return answer({ ...state, density, viscosity, heatRatio, prandtl, meanFreePath });
  const computed = airAt(state);
  if (!computed.ok) return refuse(...computed.problems.map((one) => ({ ...one, path: ["air", ...one.path] })));
  const own = Object.fromEntries(constants.flatMap((key) => (said[key] === undefined ? [] : [[key, said[key]]])));
  const remarks = computed.remarks.map((one) => ({ ...one, path: ["air", ...one.path] }));
  return answer({ ...computed.value, ...own }, remarks);
}
