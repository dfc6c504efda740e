/** What fabrication and site do to the values of a project, as distributions that belong together. */
import { cholesky } from "../numerics/cholesky.ts";
import { normalQuantile, normalShare } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Path, type Problem, pathText, refuse } from "../problem.ts";
import { differenceKind } from "../quantity/kinds.ts";
import { partsOf } from "./describe.ts";
import { readField } from "./fields.ts";
import type { Project } from "./load.ts";
import { findPath, type ValuePath } from "./paths.ts";

export interface Tolerance {
  readonly path: ValuePath;
  readonly kind: "normal" | "uniform" | "triangular";
  /** Middle of the distribution [SI]. */
  readonly middle: number;
  /** Standard deviation of "normal", half width of the others [SI]. */
  readonly width: number;
  /** What it costs to halve it; null where the project does not say. */
  readonly costOfHalving: number | null;
  /** "site": the range of the brief, every state as likely as another. */
  readonly from: "tolerance" | "site";
}

export interface Spreads {
  readonly tolerances: readonly Tolerance[];
  /** Values [SI] for a point of the unit cube, one number a tolerance. */
  readonly values: (point: readonly number[]) => readonly number[];
  /** The same with widths multiplied: what another tolerance would do. */
  readonly scaled: (factors: readonly number[]) => (point: readonly number[]) => readonly number[];
  /** How far from the middle in units of `width` [-], for slopes. */
  readonly scores: (point: readonly number[]) => readonly number[];
}

/**
 * The tolerances of a project and the site's ranges of air.
 *
 * Problems: `no-width` for a tolerance without its width, `no-value` where the project has no value at the path, `twice` for a
 * path with two tolerances, `impossible-correlation` for correlations that contradict each other. Remarks: `alone` for a
 * correlation of a value that has no tolerance.
 */
export function readSpreads(project: Project): Outcome<Spreads> {
  const problems: Problem[] = [];
  const remarks: Problem[] = [];
  const found: Tolerance[] = [];
  const together: { readonly paths: readonly string[]; readonly correlation: number; readonly path: Path }[] = [];
  (project.file.tolerances ?? []).forEach((entry, i) => {
    const path: Path = ["tolerances", i];
    if (entry.together !== undefined) {
      together.push({ paths: entry.together, correlation: entry.correlation ?? 1, path });
      return;
    }
    const one = toleranceOf(project, entry, path);
    if (!one.ok) problems.push(...one.problems);
    else if (found.some((other) => other.path.text === one.value.path.text))
      problems.push({
        code: "twice",
        path,
        message: `${one.value.path.text} has two tolerances; one value varies in one way.`,
      });
    else found.push(one.value);
  });
  for (const one of siteTolerances(project))
    if (!found.some(({ path }) => path.text === one.path.text)) found.push(one);
  const matrix = correlations(found, together, remarks);
  const factor = cholesky(matrix, found.length);
  if (factor === null && problems.length === 0)
    problems.push({
      code: "impossible-correlation",
      path: ["tolerances"],
      message:
        "The correlations contradict each other: no numbers can vary like that. Lower some of them, or take one away.",
    });
  if (problems.length > 0 || factor === null) return refuse(...problems);
  const n = found.length;
  const correlated = together.length > 0;
  const scores = (point: readonly number[]): readonly number[] => {
    if (!correlated) return found.map(({ kind }, i) => score(kind, point[i]!));
    const z = point.map(normalQuantile);
    return found.map(({ kind }, i) => {
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += factor.lower[i * n + k]! * z[k]!;
      return kind === "normal" ? sum : score(kind, normalShare(sum));
    });
  };
  const scaled = (factors: readonly number[]) => (point: readonly number[]) =>
    scores(point).map((s, i) => found[i]!.middle + factors[i]! * found[i]!.width * s);
  return answer({ tolerances: found, scores, scaled, values: scaled(found.map(() => 1)) }, remarks);
}

/** From an even number of 0 .. 1 to the distribution in units of its width. */
function score(kind: Tolerance["kind"], u: number): number {
  if (kind === "normal") return normalQuantile(u);
  if (kind === "uniform") return 2 * u - 1;
  return u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 * (1 - u));
}

function toleranceOf(
  project: Project,
  entry: NonNullable<Project["file"]["tolerances"]>[number],
  path: Path,
): Outcome<Tolerance> {
  const place = findPath(entry.path ?? "");
  if (!place.ok) return refuse(...place.problems.map((problem) => ({ ...problem, path: [...path, "path"] })));
  const kind = entry.kind ?? "normal";
  const key = kind === "normal" ? "standard" : "half";
  const given = entry[key];
  if (given === undefined)
    return refuse({
      code: "no-width",
      path: [...path, key],
      message: `The tolerance of ${place.value.text} is ${kind} and has no "${key}", such as "1 um".`,
    });
  const width = readField(
    given,
    { kind: differenceKind(place.value.kind), label: "The spread", bounds: { atLeast: 0 } },
    [...path, key],
  );
  const middle = place.value.read(project);
  if (!width.ok || !middle.ok)
    return refuse(...(width.ok ? [] : width.problems), ...(middle.ok ? [] : middle.problems));
  return answer({
    path: place.value,
    kind,
    middle: middle.value,
    width: width.value,
    costOfHalving: entry.costOfHalving ?? null,
    from: "tolerance",
  });
}

/** Air on site: every state between the ends as likely as another. */
function siteTolerances(project: Project): Tolerance[] {
  const site = partsOf(project).brief?.site;
  return (["temperature", "pressure", "humidity"] as const).flatMap((key) => {
    const range = site?.[key];
    const place = findPath(`air.${key}`);
    if (!range || !place.ok) return [];
    const [low, high] = range;
    const [middle, width] = [(low + high) / 2, Math.abs(high - low) / 2];
    return [{ path: place.value, kind: "uniform" as const, middle, width, costOfHalving: null, from: "site" as const }];
  });
}

/** Row-major; correlations are those of the normal numbers behind the values. */
function correlations(
  found: readonly Tolerance[],
  together: readonly { readonly paths: readonly string[]; readonly correlation: number; readonly path: Path }[],
  remarks: Problem[],
): Float64Array {
  const n = found.length;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) matrix[i * n + i] = 1;
  for (const { paths, correlation, path } of together) {
    const places = paths.map((text) => {
      const place = findPath(text);
      const at = place.ok ? found.findIndex((one) => one.path.text === place.value.text) : -1;
      if (at < 0)
        remarks.push({
          code: "alone",
          path,
          message: `${place.ok ? pathText(place.value.steps) : text} is said to vary together with others but has no tolerance, so it stays as it is.`,
        });
      return at;
    });
    // A hair below 1, so that the matrix stays definite; nobody sees the difference.
    const value = Math.max(-1 + 1e-9, Math.min(1 - 1e-9, correlation));
    for (const i of places) for (const j of places) if (i >= 0 && j >= 0 && i !== j) matrix[i * n + j] = value;
  }
  return matrix;
}
