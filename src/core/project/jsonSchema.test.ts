import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { demoText } from "./demo.ts";
import { projectJsonSchema, projectJsonSchemaText } from "./jsonSchema.ts";

it("docs/schema/project.schema.json is the schema of this program (npx tsx scripts/schema.ts writes it)", () => {
  const file = new URL("../../../docs/schema/project.schema.json", import.meta.url);
  expect(readFileSync(file, "utf8") === projectJsonSchemaText()).toBe(true);
});

it("every reference of the schema leads to a definition", () => {
  const text = projectJsonSchemaText();
  const definitions = projectJsonSchema()["$defs"] as Readonly<Record<string, unknown>>;
  const references = [...text.matchAll(/"\$ref": "#\/\$defs\/([^"]+)"/g)].map(([, name]) => name ?? "");
  expect(references.length).toBeGreaterThan(100);
  for (const name of references) expect(Object.keys(definitions)).toContain(name);
});

it("the pattern of a quantity takes every physical value of the demo and no bare number", () => {
  const definitions = projectJsonSchema()["$defs"] as Readonly<Record<string, { readonly pattern?: string }>>;
  const pattern = new RegExp(definitions["quantity.length"]?.pattern ?? "$^", "u");
  const values = [...demoText.matchAll(/": "(-?[\d.]+(?:e-?\d+)? [^"]+)"/g)].map(([, value]) => value ?? "");
  expect(values.length).toBeGreaterThan(60);
  for (const value of values) expect(value).toMatch(pattern);
  for (const value of ["38", "1.5", "um", "1 500 mm", "1.500,2 mm"]) expect(value).not.toMatch(pattern);
});
