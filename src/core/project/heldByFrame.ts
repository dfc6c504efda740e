/** What the frame forces on a sheet that was bonded to it at another temperature. */
import type { PlaneStiffness } from "../material/material.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { type MaterialsInSi, materialOf, type Resolved } from "./materialOf.ts";
import type { MicrophoneInSi } from "./microphoneInSi.ts";

/** The frame that holds the sheet: what it would expand by, and the step since they were bonded. */
export interface Frame {
  /** [1/K]; null: its material does not say. */
  readonly expansion: number | null;
  /** Where the expansion would stand. */
  readonly path: Path;
  /** Temperature now less that at bonding [K]. */
  readonly step: number;
}

/** null: no frame, or one that was not bonded at a known temperature. */
export function frameOf(
  { frame }: MicrophoneInSi,
  materials: MaterialsInSi,
  airTemperature: number | null,
): Outcome<{ readonly frame: Frame | null }> {
  if (frame === null || frame?.material === undefined || airTemperature === null) return answer({ frame: null });
  const path: Path = ["microphone", "frame", "material"];
  const resolved = materialOf(frame.material, materials, path);
  if (!resolved.ok) return resolved;
  if (frame.bondedAt === undefined) return answer({ frame: null }, [withoutBondingTemperature]);
  const expansion = resolved.value.material.expansion?.value ?? null;
  const step = airTemperature - frame.bondedAt;
  if (step !== 0 && expansion === null)
    return refuse(missingExpansion("frame", resolved.value.isBuiltIn ? path : [...resolved.value.path, "expansion"]));
  return answer({ frame: { expansion, path, step } }, resolved.remarks);
}

/** (alpha_plate - alpha_frame), and times the step: free expansion that the frame takes back [1/K], [-]. */
export function forcedOn(
  { material }: Resolved,
  what: string,
  path: Path,
  frame: Frame | null,
): Outcome<{ readonly perKelvin: number; readonly forced: number }> {
  const own = material.expansion?.value ?? null;
  if (frame === null) return answer({ perKelvin: 0, forced: 0 });
  if (own === null || frame.expansion === null)
    return frame.step === 0 ? answer({ perKelvin: 0, forced: 0 }) : refuse(missingExpansion(what, path));
  const perKelvin = own - frame.expansion;
  return answer({ perKelvin, forced: perKelvin * frame.step });
}

/**
 * Stress that a thick frame forces on a sheet that would rather expand by `strain` [Pa].
 *
 *     sigma_x = -(q11 + q12) strain    sigma_y = -(q22 + q12) strain    isotropic: -E strain / (1 - nu)
 *
 * Derivation: Hooke's law in plane stress, eps_x = eps_y = -strain. Holds: frame much stiffer than the sheet.
 */
export function forcedStress({ q11, q12, q22 }: PlaneStiffness, strain: number) {
  if (strain === 0) return { across: 0, along: 0 };
  return { across: -(q11 + q12) * strain, along: -(q22 + q12) * strain };
}

const withoutBondingTemperature: Problem = {
  code: "no-bonding-temperature",
  path: ["microphone", "frame", "bondedAt"],
  message: 'The frame has no "bondedAt", so no tension from its expansion is counted.',
};

const missingExpansion = (what: string, path: Path): Problem => ({
  code: "missing-expansion",
  path,
  message: `The material of the ${what} has no thermal expansion, and the frame was bonded at another temperature. Give "expansion", for example "7.2 um/(m K)", or leave out "bondedAt".`,
});
