/** Walking a shape and a value side by side. */
import * as z from "zod";
import { type Field, fields } from "./fields.ts";

/** The schema without "optional" and "nullable" around it. */
export function unwrapped(schema: z.ZodType): z.ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable)
    return unwrapped(schema.unwrap() as z.ZodType);
  return schema;
}

export const isNullable = (schema: z.ZodType): boolean =>
  schema instanceof z.ZodNullable || (schema instanceof z.ZodOptional && isNullable(schema.unwrap() as z.ZodType));

/** What the program knows of the value that the schema holds; null: it is a word, a group or a list. */
export function fieldOf(schema: z.ZodType): Field | null {
  const inner = unwrapped(schema);
  const own = fields.get(inner);
  if (own !== undefined) return own;
  if (inner instanceof z.ZodUnion)
    for (const option of inner.options as z.ZodType[]) {
      const found = fieldOf(option);
      if (found !== null) return found;
    }
  return null;
}

/** All forms that a value may have. */
export function forms(schema: z.ZodType): z.ZodType[] {
  const inner = unwrapped(schema);
  if (inner instanceof z.ZodUnion) return (inner.options as z.ZodType[]).flatMap(forms);
  return [inner];
}

/** The form that fits the JSON type of a value; the shape has one form of each type. */
export function formFor(schema: z.ZodType, value: unknown): z.ZodType | null {
  return forms(schema).find((form) => fitsType(form, value)) ?? null;
}

function fitsType(form: z.ZodType, value: unknown): boolean {
  if (Array.isArray(value)) return form instanceof z.ZodArray || form instanceof z.ZodTuple;
  if (typeof value === "object" && value !== null) return form instanceof z.ZodObject || form instanceof z.ZodRecord;
  if (typeof value === "string") return form instanceof z.ZodString || form instanceof z.ZodEnum;
  if (typeof value === "number") return form instanceof z.ZodNumber;
  return typeof value === "boolean" && form instanceof z.ZodBoolean;
}

/** Schema of a key or item, or null. */
export function childOf(form: z.ZodType, step: string | number): z.ZodType | null {
  if (typeof step === "number") {
    if (form instanceof z.ZodArray) return form.element as z.ZodType;
    if (form instanceof z.ZodTuple)
      return ((form.def.items as readonly z.ZodType[])[step] as z.ZodType | undefined) ?? null;
    return null;
  }
  if (form instanceof z.ZodObject) return Object.hasOwn(form.shape, step) ? (form.shape[step] as z.ZodType) : null;
  if (form instanceof z.ZodRecord) return form.valueType as z.ZodType;
  return null;
}

/** Whether any key is welcome here. */
export const isFree = (form: z.ZodType): boolean =>
  form instanceof z.ZodRecord && unwrapped(form.valueType as z.ZodType) instanceof z.ZodUnknown;

/** What is done at each value of a document that has a schema. */
export interface Visitor {
  field?(value: string | number, field: Field, path: readonly (string | number)[]): void;
  unknownKey?(form: z.ZodObject, key: string, path: readonly (string | number)[]): void;
}

export function visit(
  schema: z.ZodType,
  value: unknown,
  visitor: Visitor,
  path: readonly (string | number)[] = [],
): void {
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
    else if (form instanceof z.ZodObject) visitor.unknownKey?.(form, key, [...path, key]);
  }
}

/** The same document with every value of a field in SI, `read` turning it. */
export function inSi(
  schema: z.ZodType,
  value: unknown,
  read: (value: string | number, field: Field) => number,
): unknown {
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
