/** The JSON Schema of a project file, made from the shape that validates. */
import * as z from "zod";
import { fields } from "./fields.ts";
import { projectShape } from "./shape.ts";

/**
 * JSON Schema (draft 2020-12) of a project file, for editors that complete and check while one types. Values with units carry their
 * kind as `x-kind`, bounds in SI as `x-bounds`. It says less than `loadProject`: units, bounds and paths are checked there.
 */
export function projectJsonSchema(): Readonly<Record<string, unknown>> {
  const schema = z.toJSONSchema(projectShape, {
    target: "draft-2020-12",
    reused: "ref",
    override: ({ zodSchema, jsonSchema }) => {
      const field = fields.get(zodSchema as z.ZodType);
      if (field === undefined) return;
      jsonSchema["x-kind"] = field.kind;
      if (Object.keys(field.bounds).length > 0) jsonSchema["x-bounds"] = { ...field.bounds };
    },
  });
  return { title: "Glassdrum project, version 1", ...schema };
}

/** The same as the text of docs/schema/project.schema.json. */
export const projectJsonSchemaText = (): string => `${JSON.stringify(projectJsonSchema(), null, 1)}\n`;
