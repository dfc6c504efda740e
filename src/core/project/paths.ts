/** A path to one value of a project: what kind it is, how it is read and written. Everything that varies a value goes through here. */
import type { Microphone } from "../microphone/microphone.ts";
import { answer, type Outcome, type Problem, pathText, refuse } from "../problem.ts";
import { formatQuantity, plainQuantity } from "../quantity/format.ts";
import { type KindName, kindOf } from "../quantity/kinds.ts";
import { unitOf } from "../quantity/read.ts";
import { completed } from "./defaults.ts";
import { airIn, assemble, type Parts, partsOf } from "./describe.ts";
import { type Bounds, brokenLimit, type Field, readField } from "./fields.ts";
import { type Lens, lensOf } from "./lenses.ts";
import { changeValue, fileValue, type Project } from "./load.ts";
import { lookUp, type Steps } from "./lookUp.ts";

export interface ValuePath {
  /** "microphone.film.gap" */
  readonly text: string;
  readonly steps: Steps;
  readonly kind: KindName;
  /** In SI. */
  readonly bounds: Bounds;
  /** English, as beside a field. */
  readonly label: string;
  /** Value in SI, a default where the file says nothing. Problems: `no-value`. */
  readonly read: (project: Project) => Outcome<number>;
  /**
   * The project with this value [SI], in the unit that the file uses; `digits` rounds it. Problems: `out-of-range`, those of
   * `changeValue`.
   */
  readonly write: (project: Project, value: number, options?: { readonly digits?: number }) => Outcome<Project>;
  /** Into the described microphone; null where other numbers follow from this one: use `vary`. */
  readonly lens: Lens | null;
}

/**
 * The value that a path names: "microphone.film.gap", "microphone.guide[0].at", "brief.noise.atMost".
 *
 * Problems: `unreadable-path`, `unknown-path` with what is near, `not-a-value` for a group, a list, a word or a text.
 */
export function findPath(path: string | Steps): Outcome<ValuePath> {
  const place = lookUp(path);
  if (!place.ok) return place;
  const { steps, field } = place.value;
  const text = pathText(steps);
  if (field === null)
    return refuse({
      code: "not-a-value",
      path: steps,
      message: `"${text}" is not a value with a number. Needed: a path such as microphone.film.gap.`,
    });
  return answer({
    text,
    steps,
    ...field,
    read: (project) => readAt(project, steps, field),
    write: (project, value, options = {}) => writeValue(project, steps, field, value, options),
    lens: lensOf(steps),
  });
}

function readAt(project: Project, steps: Steps, field: Field): Outcome<number> {
  const found = valueAt(completed(project.file), steps);
  if (typeof found === "string" || typeof found === "number") {
    const read = readField(found, field, steps);
    if (read.ok) return read;
  }
  return refuse(noValue(steps));
}

const noValue = (steps: Steps): Problem => ({
  code: "no-value",
  path: steps,
  message: `"${pathText(steps)}" has no value in this project.`,
});

function writeValue(
  project: Project,
  steps: Steps,
  field: Field,
  value: number,
  options: { readonly digits?: number },
) {
  if (!Number.isFinite(value))
    return refuse({ code: "not-finite", path: steps, message: `Found ${value}; ${field.label} must be finite.` });
  const old = fileValue(project, steps);
  const unit = typeof old === "string" && kindOf(field.kind).scale !== "soundLevel" ? unitOf(old) : null;
  return changeValue(project, steps, plainQuantity(value, field.kind, { ...options, ...(unit !== null && { unit }) }));
}

/** What stands at a path of a document; `guide[0]` of a guide that stands alone is that guide. */
function valueAt(document: unknown, steps: Steps): unknown {
  let value = document;
  for (const step of steps) {
    if (typeof value !== "object" || value === null) return undefined;
    if (step === 0 && !Array.isArray(value)) continue;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

/** Many microphones that differ in a few numbers. */
export interface Variation {
  readonly paths: readonly ValuePath[];
  /** The project's own values [SI]; null where it has none. */
  readonly start: readonly (number | null)[];
  /** The microphone with these values [SI], one for each path. Problems: `out-of-range`, those of `assemble`. */
  readonly at: (values: readonly number[]) => Outcome<Microphone>;
}

/**
 * Prepares a project to be described again and again with other numbers in place of a few of its values. No text is read or
 * written for each; what follows from a value (index, tension, air) follows.
 *
 * Problems: those of `findPath`, all in one pass.
 */
export function vary(project: Project, paths: readonly (string | Steps)[]): Outcome<Variation> {
  const found = paths.map(findPath);
  const problems = found.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return refuse(...problems);
  const values = found.flatMap((one) => (one.ok ? [one.value] : []));
  const parts = partsOf(project);
  const start = values.map(({ steps }) => {
    const value = valueAt(parts, steps);
    return typeof value === "number" ? value : null;
  });
  // Described once where no path leads into it.
  const air = values.some(({ steps }) => steps[0] === "air") ? undefined : airIn(parts);
  return answer({
    paths: values,
    start,
    at: (numbers) => {
      const outside = values.flatMap((path, i) => outOfRange(path, numbers[i] ?? Number.NaN));
      if (outside.length > 0) return refuse(...outside);
      return assemble(
        values.reduce((changed, { steps }, i) => withNumber(changed, steps, numbers[i] ?? Number.NaN), parts),
        air,
      );
    },
  });
}

function outOfRange(path: ValuePath, value: number): Problem[] {
  const { steps, label, kind } = path;
  const limit = Number.isFinite(value) ? brokenLimit(value, path) : "finite";
  if (limit === null) return [];
  const found = Number.isFinite(value) ? formatQuantity(value, kind) : String(value);
  return [{ code: "out-of-range", path: steps, message: `Found ${found}; ${label} must be ${limit}.` }];
}

const withNumber = (parts: Parts, steps: Steps, value: number): Parts => placed(parts, steps, value) as Parts;

function placed(node: unknown, steps: Steps, value: number): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  if (Array.isArray(node)) return node.map((item, i) => (i === step ? placed(item, rest, value) : item));
  if (step === 0 && typeof node === "object" && node !== null) return placed(node, rest, value);
  const group = edgeGroup(node, step);
  return { ...group, [step]: placed((group as Record<string | number, unknown>)[step], rest, value) };
}

/** One word for both pairs of edges stays for the pair that does not change; one stiffness for all takes the place of pairs. */
function edgeGroup(node: unknown, step: string | number): Readonly<Record<string, unknown>> {
  if (typeof node === "string") return step === "sides" || step === "ends" ? { sides: node, ends: node } : {};
  const group = (node ?? {}) as Readonly<Record<string, unknown>>;
  return step === "rotation" && ("sides" in group || "ends" in group) ? {} : group;
}
