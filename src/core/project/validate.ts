/** Everything wrong with the values of a document, and everything worth a remark, in one pass. */
import { type Path, type Problem, pathText } from "../problem.ts";
import { readQuantity } from "../quantity/read.ts";
import { readField, shown } from "./fields.ts";
import { nearest } from "./nearest.ts";
import { Anything, Dictionary, Group, Leaf, List, Nullable, Optional, Pair, type Schema } from "./schema.ts";
import type { Json } from "./text.ts";
import { fieldOf, fitsType, forms, visit } from "./walk.ts";

export interface Findings {
  readonly problems: readonly Problem[];
  readonly remarks: readonly Problem[];
}

/**
 * Holds a value against a schema of the shape.
 *
 * Problems: those of `readField`; `wrong-type`, `unknown-word`, `missing-key`, `wrong-count`, `wrong-value`.
 * Remarks: `unknown-key`, `decimal-comma`.
 */
export function validate(schema: Schema, value: Json, path: Path = []): Findings {
  const remarks: Problem[] = [];
  visit(schema, value, {
    field(text, field, steps) {
      const read = typeof text === "string" ? readQuantity(text, field.kind, [...path, ...steps]) : null;
      if (read?.ok) remarks.push(...read.remarks);
    },
    unknownKey(form, key, steps) {
      remarks.push(unknownKey(key, [...path, ...steps], Object.keys(form.members)));
    },
  });
  return { problems: problemsOf(schema, value, path), remarks };
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

/** What is wrong with a value, item by item; undefined is a key that is not there. */
function problemsOf(schema: Schema, value: unknown, path: Path): Problem[] {
  if (schema instanceof Optional) return value === undefined ? [] : problemsOf(schema.inner, value, path);
  if (schema instanceof Nullable) return value === null ? [] : problemsOf(schema.inner, value, path);
  // Of several forms the user meant the one of the value's type; of more than one the one with the least wrong.
  const found = forms(schema)
    .filter((form) => fitsType(form, value))
    .map((form) => insideOf(form, value, path));
  const [first] = found.sort((a, b) => a.length - b.length);
  return first ?? [{ code: typeCode(schema, value), path, message: expected(schema, value) }];
}

function typeCode(schema: Schema, value: unknown): string {
  if (value === undefined) return "missing-key";
  return typeof value === "number" && fieldOf(schema) !== null ? "no-unit" : "wrong-type";
}

/** What a value of another type should be, by the first form. */
function expected(schema: Schema, value: unknown): string {
  const [form] = forms(schema);
  if (form instanceof Leaf) return form.given.says(value);
  const label = form instanceof Group || form instanceof List || form instanceof Pair ? form.label : null;
  const should =
    form instanceof Pair ? "a list of two values" : form instanceof List ? "a list in brackets" : "a group in braces";
  return label === null ? `Found ${shown(value)}; needed: ${should}.` : `Found ${shown(value)}; ${label} is ${should}.`;
}

/** The same of a value that has the form's type. */
function insideOf(form: Schema, value: unknown, path: Path): Problem[] {
  if (form instanceof Anything) return [];
  if (form instanceof Leaf) return leafProblems(form, value as string | number | boolean, path);
  if (form instanceof Group) {
    const members = value as Readonly<Record<string, unknown>>;
    return Object.keys(form.members).flatMap((key) =>
      members[key] === undefined && !form.needed.includes(key)
        ? []
        : problemsOf(form.members[key]!, members[key], [...path, key]),
    );
  }
  if (form instanceof Dictionary)
    return Object.entries(value as object).flatMap(([key, one]) => problemsOf(form.value, one, [...path, key]));
  const items = value as readonly unknown[];
  if (form instanceof Pair && items.length !== 2)
    return [{ code: "wrong-count", path, message: expected(form, value) }];
  const item = form instanceof Pair ? form.both : (form as List).item;
  const inside = items.flatMap((one, i) => problemsOf(item, one, [...path, i]));
  const count = form instanceof List ? form.count : null;
  const { exactly = items.length, atLeast = 0 } = count ?? {};
  return count && (items.length !== exactly || items.length < atLeast)
    ? [...inside, { code: "wrong-count", path, message: count.says }]
    : inside;
}

function leafProblems({ given }: Leaf, value: string | number | boolean, path: Path): Problem[] {
  const { field, words, wrong, says } = given;
  if (words && !words.includes(value)) {
    const code = typeof value === "string" ? "unknown-word" : "wrong-type";
    return [{ code, path, message: says(value) }];
  }
  if (field && typeof value !== "boolean") {
    const read = readField(value, field, path);
    return read.ok ? [] : [...read.problems];
  }
  const message = typeof value === "string" ? (wrong?.(value) ?? null) : null;
  return message === null ? [] : [{ code: "wrong-value", path, message }];
}
