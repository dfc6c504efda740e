/** From what a project says of a material (a name, or values) to the material itself. */
import {
  type Elasticity,
  given,
  type Index,
  type Material,
  type PlaneStiffness,
  type Sourced,
} from "../material/material.ts";
import { builtInMaterial, builtInMaterials } from "../material/materials.ts";
import { answer, type Outcome, type Path, type Problem, pathText, refuse } from "../problem.ts";
import type { MaterialFile } from "./materialShape.ts";
import { nearest } from "./nearest.ts";
import type { InSi } from "./shape.ts";

export type MaterialInSi = InSi<MaterialFile>;
export type MaterialsInSi = Readonly<Record<string, MaterialInSi>>;

export interface Resolved {
  readonly material: Material;
  /** Where in the project its values stand; for a built-in one, where it is named. */
  readonly path: Path;
  readonly isBuiltIn: boolean;
}

/**
 * The material that `said` names or describes. A name in the project's `materials` comes before a built-in one.
 *
 * Problems: `unknown-material`, `missing-material-value`, `not-positive-definite`, all in one pass.
 * Remarks: `material-shadowed` where the project's own stands in place of a built-in one.
 */
export function materialOf(said: string | MaterialInSi, materials: MaterialsInSi, path: Path): Outcome<Resolved> {
  if (typeof said !== "string") return fromValues(pathText(path), said, path);
  const own = Object.hasOwn(materials, said) ? materials[said] : undefined;
  const builtIn = builtInMaterial(said);
  if (own !== undefined) {
    const resolved = fromValues(said, own, ["materials", said]);
    if (builtIn === null || !resolved.ok) return resolved;
    const message = `"${said}" is the project's own material; the built-in one of that name is not used.`;
    return answer(resolved.value, [
      ...resolved.remarks,
      { code: "material-shadowed", path: ["materials", said], message },
    ]);
  }
  if (builtIn !== null) return answer({ material: builtIn, path, isBuiltIn: true });
  const names = [...Object.keys(materials), ...Object.keys(builtInMaterials)];
  const [near] = nearest(said, names);
  const hint = near === undefined ? `Known: ${names.join(", ")}.` : `Did you mean "${near}"?`;
  return refuse({ code: "unknown-material", path, message: `There is no material "${said}". ${hint}` });
}

function fromValues(name: string, said: MaterialInSi, path: Path): Outcome<Resolved> {
  const source = said.source ?? "the project";
  const known = (value: number | undefined): Sourced | null => (value === undefined ? null : given(value, source));
  const elasticity = elasticityOf(name, said, source, path);
  const problems: Problem[] = elasticity.ok ? [] : [...elasticity.problems];
  const density = known(said.density);
  if (density === null) problems.push(missing(name, path, "density", '"2510 kg/m^3"'));
  const index = indexOf(name, said, source, path);
  if (!index.ok) problems.push(...index.problems);
  const strength = strengthOf(name, said, source, path);
  if (!strength.ok) problems.push(...strength.problems);
  if (!elasticity.ok || !index.ok || !strength.ok || density === null) return refuse(...problems);
  const material: Material = {
    name,
    elasticity: elasticity.value,
    density,
    index: index.value,
    p11: known(said.p11),
    p12: known(said.p12),
    ...(said.p44 !== undefined && { p44: given(said.p44, source) }),
    stressOptic: known(said.stressOptic),
    expansion: known(said.expansion),
    indexPerKelvin: known(said.indexPerKelvin),
    strength: strength.value,
  };
  return answer({ material, path, isBuiltIn: false });
}

function elasticityOf(name: string, said: MaterialInSi, source: string, path: Path): Outcome<Elasticity> {
  const { youngsModulus, poissonRatio, stiffness } = said;
  if (stiffness !== undefined) {
    const { q11, q12, q22, q66 } = stiffness;
    if (q11 === undefined || q12 === undefined || q22 === undefined || q66 === undefined) {
      const keys = (["q11", "q12", "q22", "q66"] as const).filter((key) => stiffness[key] === undefined);
      return refuse(...keys.map((key) => missing(name, [...path, "stiffness"], key, '"141 GPa"')));
    }
    const plane = { q11, q12, q22, q66 };
    if (!isPositiveDefinite(plane)) return refuse(notDefinite(name, [...path, "stiffness"]));
    return answer({ kind: "orthotropic", stiffness: plane, source, sure: "given" });
  }
  if (youngsModulus !== undefined && poissonRatio !== undefined)
    return answer({
      kind: "isotropic",
      youngsModulus: given(youngsModulus, source),
      poissonRatio: given(poissonRatio, source),
    });
  const problems: Problem[] = [];
  if (youngsModulus === undefined) problems.push(missing(name, path, "youngsModulus", '"72.9 GPa"'));
  if (poissonRatio === undefined) problems.push(missing(name, path, "poissonRatio", "0.208"));
  return refuse(...problems);
}

/** null: nothing is said of it. A strength that is said in part is refused: nothing fills the rest. */
function strengthOf(name: string, said: MaterialInSi, source: string, path: Path): Outcome<Material["strength"]> {
  const { scale, modulus, area, time } = said.strength ?? {};
  if (scale === undefined && modulus === undefined && area === undefined && time === undefined) return answer(null);
  if (scale !== undefined && modulus !== undefined && area !== undefined && time !== undefined)
    return answer({ scale, modulus, area, time, source, sure: "given" });
  const at = [...path, "strength"];
  const given = { scale, modulus, area, time };
  const samples = { scale: '"90 MPa"', modulus: "7", area: '"1 cm^2"', time: '"60 s"' };
  const keys = (["scale", "modulus", "area", "time"] as const).filter((key) => given[key] === undefined);
  return refuse(...keys.map((key) => missing(name, at, key, samples[key])));
}

/** Whether every strain costs energy: q11 > 0, q11 q22 > q12^2, q66 > 0. */
const isPositiveDefinite = ({ q11, q12, q22, q66 }: PlaneStiffness): boolean =>
  q11 > 0 && q11 * q22 > q12 * q12 && q66 > 0;

function indexOf(name: string, { index }: MaterialInSi, source: string, path: Path): Outcome<Index | null> {
  if (index === undefined) return answer(null);
  if (typeof index === "number") return answer({ kind: "fixed", index: given(index, source), at: null });
  const { b, c, from, to } = index;
  const problems: Problem[] = [];
  if (b === undefined) problems.push(missing(name, [...path, "index"], "b", "[1.04, 0.23, 1.01]"));
  if (c === undefined) problems.push(missing(name, [...path, "index"], "c", '["0.006 um^2", "0.02 um^2", "104 um^2"]'));
  if (from === undefined) problems.push(missing(name, [...path, "index"], "from", '"300 nm"'));
  if (to === undefined) problems.push(missing(name, [...path, "index"], "to", '"2.5 um"'));
  const [b1, b2, b3] = b ?? [];
  const [c1, c2, c3] = c ?? [];
  if (
    b1 === undefined ||
    b2 === undefined ||
    b3 === undefined ||
    c1 === undefined ||
    c2 === undefined ||
    c3 === undefined
  )
    return refuse(...problems);
  if (from === undefined || to === undefined) return refuse(...problems);
  return answer({ kind: "sellmeier", b: [b1, b2, b3], c: [c1, c2, c3], from, to, source, sure: "given" });
}

const missing = (name: string, path: Path, key: string, sample: string): Problem => ({
  code: "missing-material-value",
  path: [...path, key],
  message: `The material "${name}" has no ${key}; nothing fills it. Give it, for example "${key}": ${sample}.`,
});

const notDefinite = (name: string, path: Path): Problem => ({
  code: "not-positive-definite",
  path,
  message: `The stiffness of "${name}" is impossible: q11 > 0, q66 > 0 and q11 q22 > q12^2 must hold.`,
});
