/** The JSON Schema of a project file, made from the shape that validates. */
import * as z from "zod";
import { type KindName, kindOf, kinds } from "../quantity/kinds.ts";
import { fields, quantityPattern } from "./fields.ts";
import { projectShape } from "./shape.ts";

type JsonSchema = Readonly<Record<string, unknown>>;

/**
 * JSON Schema (draft 2020-12) of a project file, for editors that complete and check while one types. Each value refers to its kind
 * (`quantity.length`) and carries its bounds in SI as `x-bounds`. It says less than `loadProject`: units, bounds and paths are checked there.
 */
export function projectJsonSchema(): JsonSchema {
  const schema = z.toJSONSchema(projectShape, {
    target: "draft-2020-12",
    override: ({ zodSchema, jsonSchema }) => {
      const field = fields.get(zodSchema as unknown as z.ZodType);
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
