/** Writes docs/schema/project.schema.json from the shape of the project: npx tsx scripts/schema.ts */
import { writeFileSync } from "node:fs";
import { projectJsonSchemaText } from "../src/core/project/jsonSchema.ts";

writeFileSync(new URL("../docs/schema/project.schema.json", import.meta.url), projectJsonSchemaText());
