/** The JSON Schema of a project file, made from the shape that validates. */
import * as z from "zod";
import { type KindName, kindOf, kinds } from "../quantity/kinds.ts";
import { quantityPattern } from "./fields.ts";
import { Dictionary, Either, type Field, Group, Leaf, List, Nullable, Optional, Pair, type Schema } from "./schema.ts";
import { projectShape } from "./shape.ts";

type JsonSchema = Readonly<Record<string, unknown>>;

/**
 * JSON Schema (draft 2020-12) of a project file, for editors that complete and check while one types. Each value refers to its kind
 * (`quantity.length`) and carries its bounds in SI as `x-bounds`. It says less than `loadProject`: units, bounds and paths are checked there.
 */
export function projectJsonSchema(): JsonSchema {
  const known: Known = { made: new Map(), fields: new Map(), names: z.registry() };
  const schema = z.toJSONSchema(zodOf(projectShape, known), {
    target: "draft-2020-12",
    metadata: known.names,
    override: ({ zodSchema, jsonSchema }) => {
      const field = known.fields.get(zodSchema);
      if (field === undefined) return;
      for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
      jsonSchema.$ref = `#/$defs/quantity.${field.kind}`;
      jsonSchema.description = field.label;
      if (Object.keys(field.bounds).length > 0) jsonSchema["x-bounds"] = { ...field.bounds };
    },
  });
  const quantities = (Object.keys(kinds) as KindName[]).map((kind) => [`quantity.${kind}`, quantitySchema(kind)]);
  return {
    title: "Glassdrum project, version 1",
    ...schema,
    $defs: { ...Object.fromEntries(quantities), ...schema.$defs },
  };
}

/** What zod was told of our schemas. */
interface Known {
  readonly made: Map<Schema, z.ZodType>;
  readonly fields: Map<z.core.$ZodType, Field>;
  readonly names: z.core.$ZodRegistry<{ id?: string; description?: string }>;
}

/** The same in zod, which writes JSON Schema. */
function zodOf(schema: Schema, known: Known): z.ZodType {
  const before = known.made.get(schema);
  if (before !== undefined) return before;
  const zod = zodFrom(schema, known);
  known.made.set(schema, zod);
  if (schema instanceof Leaf && schema.given.field) known.fields.set(zod, schema.given.field);
  const label = schema instanceof Leaf ? schema.given.label : labelOf(schema);
  if (label)
    known.names.add(zod, { description: label, ...(schema instanceof Group && schema.name && { id: schema.name }) });
  return zod;
}

const labelOf = (schema: Schema): string | null =>
  schema instanceof Group || schema instanceof List || schema instanceof Pair ? schema.label : null;

function zodFrom(schema: Schema, known: Known): z.ZodType {
  const of = (inner: Schema) => zodOf(inner, known);
  if (schema instanceof Optional) return of(schema.inner).optional();
  if (schema instanceof Nullable) return of(schema.inner).nullable();
  if (schema instanceof Leaf) return leafOf(schema);
  if (schema instanceof Group)
    return z.looseObject(
      Object.fromEntries(Object.entries<Schema>(schema.members).map(([key, one]) => [key, of(one)])),
    );
  if (schema instanceof List) {
    const { exactly, atLeast } = schema.count ?? {};
    const all = z.array(of(schema.item));
    const least = atLeast === undefined ? all : all.min(atLeast);
    return exactly === undefined ? least : least.length(exactly);
  }
  if (schema instanceof Pair) return z.tuple([of(schema.both), of(schema.both)]);
  if (schema instanceof Dictionary) return z.record(z.string(), of(schema.value));
  return schema instanceof Either ? z.union(schema.options.map(of)) : z.unknown();
}

function leafOf({ given }: Leaf): z.ZodType {
  const { types, words, field } = given;
  if (field) return z.unknown();
  if (words) return words.length > 1 || given.label ? z.enum(words as readonly string[]) : z.literal(words[0]!);
  const plain = types.map((type) => ({ string: z.string(), number: z.number(), boolean: z.boolean() })[type]);
  return plain.length > 1 ? z.union(plain) : plain[0]!;
}

function quantitySchema(name: KindName): JsonSchema {
  const kind = kindOf(name);
  const text = { type: "string", pattern: quantityPattern };
  const form =
    kind.scale === "number" ? { type: "number" } : kind.scale === "share" ? { type: ["number", "string"] } : text;
  return {
    description: kind.words,
    ...form,
    examples: kind.scale === "number" ? kind.examples.map(Number) : kind.examples,
  };
}

/** The same as the text of docs/schema/project.schema.json. */
export const projectJsonSchemaText = (): string => `${JSON.stringify(projectJsonSchema(), null, 1)}\n`;
