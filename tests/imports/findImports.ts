/** Every import of a TypeScript file, found in its syntax: strings and comments that look like imports are none. */
import { parseSync } from "vite";

export interface Import {
  /** As written: "../film/film.ts", "zod", "node:fs"; null: computed when the program runs. */
  readonly from: string | null;
  /** Gone after compilation: `import type`, `export type`, `import("x").Y` in a type. */
  readonly typeOnly: boolean;
}

interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

/** Throws where the text is not TypeScript. */
export function findImports(file: string, text: string): readonly Import[] {
  const { program, errors } = parseSync(file, text);
  const error = errors[0];
  if (error !== undefined) throw new Error(`${file}: ${error.message}`);
  const found: Import[] = [];
  walk(program, (node) => {
    const one = importOf(node);
    if (one !== null) found.push(one);
  });
  return found;
}

function importOf(node: Node): Import | null {
  switch (node.type) {
    case "ImportDeclaration":
    case "TSImportEqualsDeclaration":
      if (node.type === "TSImportEqualsDeclaration" && !isNode(node["moduleReference"])) return null;
      return {
        from: literal(node["source"] ?? (node["moduleReference"] as Node)["expression"]),
        typeOnly: node["importKind"] === "type",
      };
    case "ExportNamedDeclaration":
    case "ExportAllDeclaration":
      if (!isNode(node["source"])) return null;
      return { from: literal(node["source"]), typeOnly: node["exportKind"] === "type" };
    case "TSImportType":
      return { from: literal(node["source"]), typeOnly: true };
    case "ImportExpression":
      return { from: literal(node["source"]), typeOnly: false };
    case "CallExpression":
      return name(node["callee"]) === "require" ? { from: literal(first(node)), typeOnly: false } : null;
    case "NewExpression": {
      // new URL("./nodeThread.js", import.meta.url): how a worker's module is named, in Node by its compiled name.
      const from = literal(first(node));
      if (name(node["callee"]) !== "URL" || from === null || !/^\.{1,2}\/.*\.[jt]sx?$/.test(from)) return null;
      return { from: from.replace(/\.js$/, ".ts"), typeOnly: false };
    }
    default:
      return null;
  }
}

const first = (node: Node): unknown => (node["arguments"] as readonly unknown[])[0];
const name = (node: unknown): unknown => (isNode(node) ? node["name"] : undefined);

function literal(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === "Literal" && typeof node["value"] === "string") return node["value"];
  if (node.type !== "TemplateLiteral" || (node["expressions"] as readonly unknown[]).length > 0) return null;
  const [quasi] = node["quasis"] as readonly { readonly value: { readonly cooked: string } }[];
  return quasi?.value.cooked ?? null;
}

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null && "type" in value;

function walk(value: unknown, visit: (node: Node) => void): void {
  if (Array.isArray(value)) for (const item of value) walk(item, visit);
  else if (typeof value === "object" && value !== null) {
    if (isNode(value)) visit(value);
    for (const inner of Object.values(value)) walk(inner, visit);
  }
}
