/** The text of a new project: every default written out, so that it can be seen and changed. */
import { defaults } from "./defaults.ts";
import { formatName, formatVersion } from "./shape.ts";
import type { Json } from "./text.ts";

/** Means the same as a project that says nothing but its format and version. */
export function starterText(): string {
  const { diaphragm, guide, light, readout } = defaults.microphone;
  const project = {
    format: formatName,
    version: formatVersion,
    title: "A new microphone",
    air: defaults.air,
    microphone: { diaphragm, guide, light, film: null, readout },
  };
  return `${written(project as unknown as Json, "")}\n`;
}

/** JSON with one line for each group that fits in one. */
function written(value: Json, indent: string): string {
  const flat = oneLine(value);
  if (typeof value !== "object" || value === null || Array.isArray(value) || isShort(value, flat)) return flat;
  const inner = `${indent}  `;
  const members = Object.entries(value).map(([key, item]) => `${inner}${JSON.stringify(key)}: ${written(item, inner)}`);
  return `{\n${members.join(",\n")}\n${indent}}`;
}

const isShort = (value: object, flat: string) =>
  flat.length <= 100 && Object.values(value).every((item) => typeof item !== "object" || item === null);

function oneLine(value: Json): string {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const members = Object.entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${oneLine(item)}`);
  return members.length === 0 ? "{}" : `{ ${members.join(", ")} }`;
}
