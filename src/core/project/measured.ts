/** The form of a group in which any value may carry its standard uncertainty: { "value": "28.6 um", "standard": "0.3 um" }. */
import { differenceKind } from "../quantity/kinds.ts";
import { type Field, group, notNegative, number, quantity, ratio } from "./fields.ts";
import { Either, either, Group, Leaf, List, Nullable, Optional, type Schema } from "./schema.ts";
import { fieldOf, unwrapped } from "./walk.ts";

/** The same shape with `value` and `standard` allowed in place of each value. */
export function measured(schema: Schema): Schema {
  const inner = unwrapped(schema);
  const field = inner instanceof Leaf ? (inner.given.field ?? null) : null;
  const form = field === null ? formOf(inner) : either(inner, withStandard(inner, field));
  return schema instanceof Optional || schema instanceof Nullable ? form.nullable().optional() : form;
}

/** Each group is made once, so that it keeps one name in the JSON Schema. */
const made = new WeakMap<Schema, Schema>();

function formOf(inner: Schema): Schema {
  if (inner instanceof Either) return new Either(inner.options.map(measured));
  if (inner instanceof List && fieldOf(inner.item) === null) return new List(null, measured(inner.item));
  if (!(inner instanceof Group)) return inner;
  const before = made.get(inner);
  if (before !== undefined) return before;
  const form = new Group(inner.label, membersOf(inner), inner.name === null ? null : `${inner.name}Measured`, []);
  made.set(inner, form);
  return form;
}

/** Made key by key as a document has them: most have none. */
function membersOf({ members }: Group): Record<string, Schema> {
  const wanted: Record<string, Schema> = {};
  for (const [key, value] of Object.entries(members)) {
    let kept: Schema | null = null;
    Object.defineProperty(wanted, key, {
      enumerable: true,
      get: () => {
        kept ??= measured(value);
        return kept;
      },
    });
  }
  return wanted;
}

function withStandard(value: Schema, field: Field): Schema {
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
