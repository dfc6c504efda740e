/** What the material around a guide is to the light in it. */
import { cubicFromPlate, elasticFromPlate } from "../material/cubic.ts";
import { indexAt } from "../material/dispersion.ts";
import { isotropicConstants } from "../material/material.ts";
import { photoelasticPair } from "../material/stressOptic.ts";
import { cubicWeights } from "../parts/guide/cubic.ts";
import type { GuideOptics } from "../parts/guide/guide.ts";
import { answer, type Outcome, type Path, type Problem, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { Gathered } from "./gathered.ts";
import type { Resolved } from "./materialOf.ts";

/**
 * Optics of glass, or of a cubic crystal with its edges along <110> where the material has p44.
 *
 * Remarks: `opaque-guide`. Problems: `missing-index`, `missing-photoelastic`, `not-isotropic` where the material has directions and no p44.
 */
export function opticsOf({ material, path, isBuiltIn }: Resolved, wavelength: number): Outcome<GuideOptics> {
  const gathered = new Gathered();
  const below = <T>(outcome: Outcome<T>): Outcome<T> =>
    moved(outcome, (inner) => (isBuiltIn ? path : [...path, ...inner]));
  const index = gathered.take(below(indexAt(material, wavelength)));
  const pair = index === null ? null : gathered.take(below(photoelasticPair(material, index)));
  const { elasticity, p44, transparentFrom = 0 } = material;
  const heated = material.indexPerKelvin === null ? {} : { indexPerKelvin: material.indexPerKelvin.value };
  if (wavelength < transparentFrom) gathered.take(answer(null, [opaque(path, material.name, wavelength)]));
  if (elasticity.kind === "orthotropic" && p44 !== undefined) {
    const { stiffness } = elasticity;
    const cubic = gathered.take(below(cubicFromPlate(stiffness, "110")));
    if (index === null || cubic === null || pair === null) return refuse(...gathered.problems);
    const weights = cubicWeights({ ...pair, p44: p44.value, ...cubic });
    return answer({ index, ...pair, ...elasticFromPlate(stiffness), ...heated, weights }, gathered.distinctRemarks());
  }
  const elastic = gathered.take(below(isotropicConstants(material)));
  if (index === null || elastic === null || pair === null) return refuse(...gathered.problems);
  return answer({ index, ...pair, ...elastic, ...heated }, gathered.distinctRemarks());
}

const opaque = (path: Path, name: string, wavelength: number): Problem => ({
  code: "opaque-guide",
  path,
  message: `"${name}" absorbs light of ${formatQuantity(wavelength, "length")}: a guide in it passes none. Name a glass as guide.material, or take a longer wavelength. Computed all the same.`,
});

/** The same outcome with its paths said from the top of the project. */
function moved<T>(outcome: Outcome<T>, to: (path: Path) => Path): Outcome<T> {
  const said = (problem: Problem): Problem => ({ ...problem, path: to(problem.path) });
  return outcome.ok ? answer(outcome.value, outcome.remarks.map(said)) : refuse(...outcome.problems.map(said));
}
