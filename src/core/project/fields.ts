/** Building blocks of the shape: values that know their kind of unit, their bounds and their label. */
import { answer, type Outcome, type Path, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { type KindName, kindOf } from "../quantity/kinds.ts";
import { needs, readQuantity } from "../quantity/read.ts";
import { type Bounds, type Field, Group, Leaf, List, type Members, Optional, Pair, type Schema } from "./schema.ts";

export type { Bounds, Field } from "./schema.ts";

/** A physical value as the user typed it. Only the type is marked; it is a plain string. */
export type QuantityText = string & { readonly __quantity: true };

export const positive: Bounds = { above: 0 };

export const notNegative: Bounds = { atLeast: 0 };

export const share: Bounds = { atLeast: 0, atMost: 1 };

/** Reads a value of a field, text or plain number, into SI and holds it against its bounds. Problems: those of `readQuantity`, `out-of-range`. */
export function readField(value: string | number, field: Field, path: Path): Outcome<number> {
  const read = typeof value === "number" ? plainNumber(value, field, path) : readQuantity(value, field.kind, path);
  if (!read.ok) return read;
  const limit = brokenLimit(read.value, field);
  if (limit === null) return read;
  return refuse({ code: "out-of-range", path, message: `Found ${shown(value)}; ${field.label} must be ${limit}.` });
}

function plainNumber(value: number, field: Field, path: Path): Outcome<number> {
  const { scale } = kindOf(field.kind);
  if (scale === "number" || scale === "share") return answer(value);
  return refuse({
    code: "no-unit",
    path,
    message: `Found ${value}, a number without a unit. ${needs(kindOf(field.kind))}`,
  });
}

/** What a value in SI must be, "greater than 0 mm", or null where it lies within its bounds. A number that is not finite breaks each bound. */
export function brokenLimit(value: number, { kind, bounds }: Field): string | null {
  const text = (limit: number) =>
    formatQuantity(limit, kind, { digits: 12 })
      .replace(/(\.\d*?)0+(?!\d)/, "$1")
      .replace(/\.(?!\d)/, "");
  const { above, atLeast, atMost, below } = bounds;
  if (above !== undefined && !(value > above)) return `greater than ${text(above)}`;
  if (atLeast !== undefined && !(value >= atLeast)) return `${text(atLeast)} or more`;
  if (atMost !== undefined && !(value <= atMost)) return `${text(atMost)} or less`;
  if (below !== undefined && !(value < below)) return `less than ${text(below)}`;
  return null;
}

/** Any value in a sentence: "30 um" with its quotes, { … } for an object. */
export function shown(value: unknown): string {
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "a group in braces";
  const text = JSON.stringify(value) ?? "nothing";
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** A number, then a unit: what a JSON Schema can say of a quantity. */
export const quantityPattern =
  "^\\s*[+\\-−]?(\\d+([.,]\\d*)?|[.,]\\d+)([eE][+\\-]?\\d+)?\\s*(1\\s*/\\s*)?(?![eE][+\\-]?\\d)[^\\d\\s.,].*$";

/** A value with a unit, kept as text. */
export function quantity(kind: KindName, label: string, bounds: Bounds = {}): Leaf<QuantityText> {
  return new Leaf({
    types: ["string"],
    field: { kind, label, bounds },
    says: (found) =>
      `Found ${shown(found)}${typeof found === "number" ? ", a number without a unit" : ""}. ${needs(kindOf(kind))}`,
  });
}

/** A dimensionless value: a plain number, or text such as "50 %". */
export function ratio(
  label: string,
  bounds: Bounds = {},
  kind: "ratio" | "fraction" = "ratio",
): Leaf<number | QuantityText> {
  return new Leaf({
    types: ["number", "string"],
    field: { kind, label, bounds },
    says: (found) => `Found ${shown(found)}. ${needs(kindOf(kind))}`,
  });
}

/** A plain number. */
export function number(label: string, bounds: Bounds = {}): Leaf<number> {
  return new Leaf({
    types: ["number"],
    field: { kind: "number", label, bounds },
    says: (found) => `Found ${shown(found)}. ${needs(kindOf("number"))}`,
  });
}

/** One of a few words. */
export function word<const T extends readonly [string, ...string[]]>(label: string, ...words: T): Leaf<T[number]> {
  const says = (found: unknown) => {
    const list = words.map((one) => `"${one}"`).join(", ");
    return `Found ${shown(found)}; ${label} is ${words.length > 1 ? "one of " : ""}${list}.`;
  };
  return new Leaf({ types: ["string"], label, words, says });
}

/** A value that is always the same. */
export const constant = <const T extends string | number>(value: T): Leaf<T> =>
  new Leaf({
    types: [typeof value as "string" | "number"],
    words: [value],
    says: (found) => `Found ${shown(found)}; needed: ${shown(value)}.`,
  });

/** Free text; `wrong` says what is wrong with one. */
export const text = (label: string, wrong?: (value: string) => string | null): Leaf<string> =>
  new Leaf({
    types: ["string"],
    label,
    says: (found) => `Found ${shown(found)}; ${label} is a text in quotes.`,
    ...(wrong && { wrong }),
  });

export const flag = (label: string): Leaf<boolean> =>
  new Leaf({ types: ["boolean"], label, says: (found) => `Found ${shown(found)}; ${label} is true or false.` });

/** Any number, with any known unit or none: a value whose kind depends on a path or a record, and is checked where it is used. */
export const anyQuantity = (label: string): Leaf<string | number> =>
  new Leaf({
    types: ["number", "string"],
    label,
    says: (found) => `Found ${shown(found)}; ${label} is a number or a value with its unit.`,
  });

/** A group of keys; further keys are kept. With a name it stands once in the JSON Schema, under that name. */
export const group = <const M extends Members>(label: string, members: M, name: string | null = null): Group<M> =>
  new Group(
    label,
    members,
    name,
    Object.keys(members).filter((key) => !(members[key] instanceof Optional)),
  );

export const list = <T>(label: string, item: Schema<T>): List<T> => new List(label, item);

/** Two values. */
export const pair = <T>(label: string, both: Schema<T>): Pair<T> => new Pair(label, both);

/** A length above zero that may be left out. */
export const length = (label: string) => quantity("length", label, positive).optional();

/** What may be left out, or null: then it is not there. */
export const absentOr = <T>(schema: Schema<T>) => schema.nullable().optional();
