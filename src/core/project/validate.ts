/** Everything wrong with the values of a document, and everything worth a remark, in one pass. */
import type * as z from "zod";
import { type Problem, pathText } from "../problem.ts";
import { readQuantity } from "../quantity/read.ts";
import { nearest } from "./nearest.ts";
import type { Json } from "./text.ts";
import { childOf, fieldOf, forms, visit } from "./walk.ts";

type Path = readonly (string | number)[];

export interface Findings {
  readonly problems: readonly Problem[];
  readonly remarks: readonly Problem[];
}

/**
 * Holds a value against a schema of the shape.
 *
 * Problems: those of `readField`; `wrong-type`, `unknown-word`, `missing-key`, `wrong-count`.
 * Remarks: `unknown-key`, `decimal-comma`.
 */
export function validate(schema: z.ZodType, value: Json, path: Path = []): Findings {
  const result = schema.safeParse(value);
  const problems = result.success
    ? []
    : result.error.issues.flatMap((issue) => problemsOf(issue, schema, value, path, []));
  const remarks: Problem[] = [];
  visit(schema, value, {
    field(text, field, steps) {
      const read = typeof text === "string" ? readQuantity(text, field.kind, [...path, ...steps]) : null;
      if (read?.ok) remarks.push(...read.remarks);
    },
    unknownKey(form, key, steps) {
      remarks.push(unknownKey(key, [...path, ...steps], Object.keys(form.shape)));
    },
  });
  return { problems, remarks };
}

function unknownKey(key: string, path: Path, known: readonly string[]): Problem {
  const near = nearest(key, known)[0];
  const hint = near === undefined ? "" : ` Did you mean "${near}"?`;
  return {
    code: "unknown-key",
    path,
    message: `"${pathText(path)}" is not a key known here; it is kept and not used.${hint}`,
  };
}

function problemsOf(issue: z.core.$ZodIssue, schema: z.ZodType, root: Json, base: Path, above: Path): Problem[] {
  const inside = [...above, ...(issue.path as Path)];
  const found = valueAt(root, inside);
  if (issue.code === "invalid_union") {
    const branch = bestBranch(issue.errors, found);
    if (branch !== null) return branch.flatMap((one) => problemsOf(one, schema, root, base, inside));
    const message =
      issue.message === "Invalid input" ? (issue.errors[0]?.[0]?.message ?? issue.message) : issue.message;
    return [{ code: typeCode(schema, inside, found), path: [...base, ...inside], message }];
  }
  return [{ code: codeOf(issue, schema, inside, found), path: [...base, ...inside], message: issue.message }];
}

/** The form that the user meant: of those that have the value's type, the one with the least wrong; null: none has. */
function bestBranch(
  branches: readonly (readonly z.core.$ZodIssue[])[],
  found: unknown,
): readonly z.core.$ZodIssue[] | null {
  const meant = branches.filter((issues) => !issues.some((issue) => isOtherType(issue, found)));
  const [first] = [...meant].sort((a, b) => a.length - b.length);
  return first ?? null;
}

function isOtherType(issue: z.core.$ZodIssue, found: unknown): boolean {
  if (issue.path.length > 0) return false;
  if (issue.code === "invalid_union") return bestBranch(issue.errors, found) === null;
  return issue.code === "invalid_type" || (issue.code === "invalid_value" && typeof found !== "string");
}

function codeOf(issue: z.core.$ZodIssue, schema: z.ZodType, path: Path, found: unknown): string {
  if (issue.code === "custom") return String(issue.params?.["code"] ?? "wrong-value");
  if (found === undefined) return "missing-key";
  if (issue.code === "invalid_value") return typeof found === "string" ? "unknown-word" : "wrong-type";
  if (issue.code === "too_small" || issue.code === "too_big") return "wrong-count";
  return typeCode(schema, path, found);
}

function typeCode(schema: z.ZodType, path: Path, found: unknown): string {
  const isField =
    typeof found === "number" && path.reduce<readonly z.ZodType[]>(children, [schema]).some((s) => fieldOf(s) !== null);
  return isField ? "no-unit" : "wrong-type";
}

const children = (schemas: readonly z.ZodType[], step: string | number): z.ZodType[] =>
  schemas.flatMap(forms).flatMap((form) => childOf(form, step) ?? []);

function valueAt(root: Json, path: Path): unknown {
  let value: unknown = root;
  for (const step of path)
    value = typeof value === "object" && value !== null ? (value as Record<string | number, unknown>)[step] : undefined;
  return value;
}
