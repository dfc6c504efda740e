/** Walking a shape and a value side by side. */
import type { Path } from "../problem.ts";
import {
  Anything,
  Dictionary,
  Either,
  type Field,
  Group,
  Leaf,
  List,
  Nullable,
  Optional,
  Pair,
  type Schema,
} from "./schema.ts";

/** The schema without "optional" and "nullable" around it. */
export const unwrapped = (schema: Schema): Schema =>
  schema instanceof Optional || schema instanceof Nullable ? unwrapped(schema.inner) : schema;

/** What the program knows of the value that the schema holds; null: it is a word, a group or a list. */
export function fieldOf(schema: Schema): Field | null {
  const inner = unwrapped(schema);
  if (inner instanceof Leaf) return inner.given.field ?? null;
  if (inner instanceof Either)
    for (const option of inner.options) {
      const found = fieldOf(option);
      if (found !== null) return found;
    }
  return null;
}

/** All forms that a value may have. */
export function forms(schema: Schema): Schema[] {
  const inner = unwrapped(schema);
  return inner instanceof Either ? inner.options.flatMap(forms) : [inner];
}

/** The form that fits the JSON type of a value; the shape has one form of each type. */
const formFor = (schema: Schema, value: unknown): Schema | null =>
  forms(schema).find((form) => fitsType(form, value)) ?? null;

export function fitsType(form: Schema, value: unknown): boolean {
  if (form instanceof Anything) return true;
  if (Array.isArray(value)) return form instanceof List || form instanceof Pair;
  if (typeof value === "object" && value !== null) return form instanceof Group || form instanceof Dictionary;
  return form instanceof Leaf && form.given.types.some((type) => typeof value === type);
}

/** Schema of a key or item, or null. */
export function childOf(form: Schema, step: string | number): Schema | null {
  if (typeof step === "number") {
    if (form instanceof List) return form.item;
    return form instanceof Pair && step < 2 ? form.both : null;
  }
  if (form instanceof Group) return Object.hasOwn(form.members, step) ? (form.members[step] ?? null) : null;
  return form instanceof Dictionary ? form.value : null;
}

/** Whether any key is welcome here. */
const isFree = (form: Schema): boolean =>
  form instanceof Anything || (form instanceof Dictionary && unwrapped(form.value) instanceof Anything);

/** What is done at each value of a document that has a schema. */
export interface Visitor {
  field?(value: string | number, field: Field, path: Path): void;
  unknownKey?(form: Group, key: string, path: Path): void;
}

export function visit(schema: Schema, value: unknown, visitor: Visitor, path: Path = []): void {
  const field = fieldOf(schema);
  if (field !== null && (typeof value === "string" || typeof value === "number")) visitor.field?.(value, field, path);
  const form = formFor(schema, value);
  if (form === null || typeof value !== "object" || value === null || isFree(form)) return;
  if (Array.isArray(value)) {
    value.forEach((item, index) => {
      const child = childOf(form, index);
      if (child !== null) visit(child, item, visitor, [...path, index]);
    });
    return;
  }
  for (const [key, item] of Object.entries(value)) {
    const child = childOf(form, key);
    if (child !== null) visit(child, item, visitor, [...path, key]);
    else if (form instanceof Group) visitor.unknownKey?.(form, key, [...path, key]);
  }
}

/** The same document with every value of a field in SI, `read` turning it. */
export function inSi(schema: Schema, value: unknown, read: (value: string | number, field: Field) => number): unknown {
  const field = fieldOf(schema);
  if (field !== null && (typeof value === "string" || typeof value === "number")) return read(value, field);
  const form = formFor(schema, value);
  if (form === null || typeof value !== "object" || value === null || isFree(form)) return value;
  if (Array.isArray(value))
    return value.map((item, index) => {
      const child = childOf(form, index);
      return child === null ? item : inSi(child, item, read);
    });
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => {
      const child = childOf(form, key);
      return [key, child === null ? item : inSi(child, item, read)];
    }),
  );
}
