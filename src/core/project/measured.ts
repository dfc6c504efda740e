/** The form of a group in which any value may carry its standard uncertainty: { "value": "28.6 um", "standard": "0.3 um" }. */
import * as z from "zod";
import { differenceKind } from "../quantity/kinds.ts";
import { type Field, fields, group, notNegative, number, quantity, ratio } from "./fields.ts";
import { fieldOf, unwrapped } from "./walk.ts";

/** The same shape with `value` and `standard` allowed in place of each value. */
export function measured(schema: z.ZodType): z.ZodType {
  const inner = unwrapped(schema);
  const field = fields.get(inner) ?? null;
  const form = field === null ? formOf(inner) : z.union([inner, withStandard(inner, field)]);
  return schema instanceof z.ZodOptional || schema instanceof z.ZodNullable ? form.nullable().optional() : form;
}

/** Each group is made once, so that it keeps one name in the JSON Schema. */
const made = new WeakMap<z.ZodType, z.ZodType>();

function formOf(inner: z.ZodType): z.ZodType {
  if (inner instanceof z.ZodUnion)
    return z.union((inner.options as z.ZodType[]).map(measured) as [z.ZodType, ...z.ZodType[]]);
  if (inner instanceof z.ZodArray && fieldOf(inner.element as z.ZodType) === null)
    return z.array(measured(inner.element as z.ZodType));
  if (!(inner instanceof z.ZodObject)) return inner;
  const before = made.get(inner);
  if (before !== undefined) return before;
  const id = inner.meta()?.id;
  const name = id === undefined ? undefined : `${id}Measured`;
  const form = group(inner.description ?? "Group", shapeOf(inner), name);
  made.set(inner, form);
  return form;
}

/** Made key by key as a document has them: most have none. */
function shapeOf({ shape }: z.ZodObject): z.ZodRawShape {
  const wanted: Record<string, z.ZodType> = {};
  for (const [key, value] of Object.entries(shape))
    Object.defineProperty(wanted, key, { enumerable: true, get: () => measured(value as z.ZodType) });
  return wanted;
}

function withStandard(value: z.ZodType, field: Field): z.ZodType {
  const label = `Standard uncertainty of ${field.label}`;
  const kind = differenceKind(field.kind);
  const standard =
    kind === "number"
      ? number(label, notNegative)
      : kind === "ratio" || kind === "fraction"
        ? ratio(label, notNegative, kind)
        : quantity(kind, label, notNegative);
  return group(`${field.label}, measured`, { value, standard: standard.optional() });
}
