/** Building blocks of the shape: values that know their kind of unit, their bounds and their label. */
import * as z from "zod";
import { answer, type Outcome, refuse } from "../problem.ts";
import { formatQuantity } from "../quantity/format.ts";
import { type KindName, kindOf } from "../quantity/kinds.ts";
import { needs, readQuantity } from "../quantity/read.ts";

// A page whose content security policy forbids eval must not see zod try it.
z.config({ jitless: true });

/** A physical value as the user typed it. Only the type is marked; it is a plain string. */
export type QuantityText = string & { readonly __quantity: true };

/** Limits in SI; `above` and `below` do not include their end. */
export interface Bounds {
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly below?: number;
}

/** What the program knows of one value of a project. */
export interface Field {
  readonly kind: KindName;
  /** English, as beside a field on a page: "Air gap". */
  readonly label: string;
  readonly bounds: Bounds;
}

/** Field of each schema that holds one. */
export const fields = z.registry<Field>();

export const positive: Bounds = { above: 0 };
export const notNegative: Bounds = { atLeast: 0 };
export const share: Bounds = { atLeast: 0, atMost: 1 };

type Path = readonly (string | number)[];

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

type Context = z.core.ParsePayload<string | number>;

/** Holds what a schema lets through against its field; the checks of a schema. */
function checks<T extends string | number>(field: Field): z.core.$ZodCheck<T>[] {
  return [
    z.check((context: Context) => {
      const read = readField(context.value, field, []);
      if (read.ok) return;
      for (const { code, message } of read.problems)
        context.issues.push({ code: "custom", message, input: context.value, params: { code } });
    }),
  ];
}

/** Names what a schema is for. Schemas are registered themselves: zod's `meta` and `check` answer a copy, which takes twice the time. */
function named<T extends z.ZodType>(schema: T, description: string, id?: string): T {
  z.globalRegistry.add(schema, { description, ...(id !== undefined && { id }) });
  return schema;
}

/** The same for a schema of a field. */
function fielded<T extends z.ZodType>(schema: z.ZodType, field: Field): T {
  fields.add(schema, field);
  return schema as unknown as T;
}

/** A number, then a unit: what a JSON Schema can say of a quantity. */
export const quantityPattern =
  "^\\s*[+\\-−]?(\\d+([.,]\\d*)?|[.,]\\d+)([eE][+\\-]?\\d+)?\\s*(1\\s*/\\s*)?(?![eE][+\\-]?\\d)[^\\d\\s.,].*$";

/** A value with a unit, kept as text. */
export function quantity(kind: KindName, label: string, bounds: Bounds = {}): z.ZodType<QuantityText> {
  const field = { kind, label, bounds };
  const schema = new z.ZodString({
    type: "string",
    checks: checks(field),
    error: ({ input }) =>
      `Found ${shown(input)}${typeof input === "number" ? ", a number without a unit" : ""}. ${needs(kindOf(kind))}`,
  });
  return fielded(schema, field);
}

/** A dimensionless value: a plain number, or text such as "50 %". */
export function ratio(
  label: string,
  bounds: Bounds = {},
  kind: "ratio" | "fraction" = "ratio",
): z.ZodType<number | QuantityText> {
  const field = { kind, label, bounds };
  const schema = new z.ZodUnion({
    type: "union",
    options: [z.number(), z.string()],
    checks: checks(field),
    error: ({ input }) => `Found ${shown(input)}. ${needs(kindOf(kind))}`,
  });
  return fielded(schema, field);
}

/** A plain number. */
export function number(label: string, bounds: Bounds = {}): z.ZodType<number> {
  const field = { kind: "number" as const, label, bounds };
  const schema = new z.ZodNumber({
    type: "number",
    checks: checks(field),
    error: ({ input }) => `Found ${shown(input)}. ${needs(kindOf("number"))}`,
  });
  return fielded(schema, field);
}

/** One of a few words. */
export function word<const T extends readonly [string, ...string[]]>(label: string, ...words: T): z.ZodType<T[number]> {
  const list = words.map((one) => `"${one}"`).join(", ");
  const error = ({ input }: { readonly input?: unknown }) =>
    `Found ${shown(input)}; ${label} is ${words.length > 1 ? "one of " : ""}${list}.`;
  return named(z.enum(words, { error }), label);
}

/** Free text. */
export const text = (label: string) =>
  named(z.string({ error: ({ input }) => `Found ${shown(input)}; ${label} is a text in quotes.` }), label);

export const flag = (label: string) =>
  named(z.boolean({ error: ({ input }) => `Found ${shown(input)}; ${label} is true or false.` }), label);

/** Any number, with any known unit or none: a value whose kind depends on a path or a record, and is checked where it is used. */
export const anyQuantity = (label: string) =>
  named(
    z.union([z.number(), z.string()], {
      error: ({ input }) => `Found ${shown(input)}; ${label} is a number or a value with its unit.`,
    }),
    label,
  );

/** A group of keys, all optional; further keys are kept. With a name it stands once in the JSON Schema, under that name. */
export function group<T extends z.ZodRawShape>(label: string, shape: T, name?: string) {
  const error = ({ input }: { readonly input?: unknown }) => `Found ${shown(input)}; ${label} is a group in braces.`;
  return named(z.looseObject(shape, { error }), label, name);
}

export const list = <T extends z.ZodType>(label: string, item: T) =>
  named(z.array(item, { error: ({ input }) => `Found ${shown(input)}; ${label} is a list in brackets.` }), label);

/** Two values. */
export const pair = <T extends z.ZodType>(label: string, item: T) =>
  named(
    z.tuple([item, item], { error: ({ input }) => `Found ${shown(input)}; ${label} is a list of two values.` }),
    label,
  );
