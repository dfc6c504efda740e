/** What core takes from the engine's own mathematics, found in its syntax. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseSync } from "vite";

/**
 * Functions that round the same in Node 20 and in the test browser: tests/browser/sameNumbers.test.ts compares them bit by bit.
 * Not among them: `sin`, `cos` and powers, which core has in numerics/sine.ts and numerics/power.ts.
 */
export const sameFunctions = [
  "acos",
  "asin",
  "asinh",
  "atan",
  "atan2",
  "cbrt",
  "cosh",
  "exp",
  "expm1",
  "hypot",
  "log",
  "log10",
  "log1p",
  "log2",
  "sinh",
  "tan",
  "tanh",
] as const;

/** Exact by IEEE 754 or by what they are. */
const exactMembers = ["abs", "ceil", "floor", "imul", "max", "min", "round", "sign", "sqrt", "trunc"];
const allowed = new Set<string>([...sameFunctions, ...exactMembers]);
/** Where powers of zero and of infinity are left to the engine. */
const own = "src/core/numerics/power.ts";

type Node = { readonly type: string; readonly [key: string]: unknown };

function walk(value: unknown, visit: (node: Node) => void): void {
  if (Array.isArray(value)) for (const item of value) walk(item, visit);
  else if (typeof value === "object" && value !== null) {
    if (typeof (value as { type?: unknown }).type === "string") visit(value as Node);
    for (const inner of Object.values(value)) walk(inner, visit);
  }
}

/** Each use that may round otherwise elsewhere: "Math.sin in src/core/…", "** in src/core/…". */
export function engineMathIn(file: string, text: string): readonly string[] {
  const found: string[] = [];
  walk(parseSync(file, text).program, (node) => {
    const of = node["object"] as Node | undefined;
    const name = (node["property"] as Node | undefined)?.["name"] as string | undefined;
    if (node.type === "MemberExpression" && of?.["name"] === "Math") {
      // Constants are capitals.
      if (name === undefined || (!allowed.has(name) && !/^[A-Z]/.test(name))) found.push(`Math.${name} in ${file}`);
    } else if (node.type === "VariableDeclarator" && (node["init"] as Node | null)?.["name"] === "Math")
      found.push(`Math taken apart in ${file}`);
    else if (/^(Binary|Assignment)Expression$/.test(node.type) && /^\*\*=?$/.test(String(node["operator"]))) {
      const right = node["right"] as Node;
      if (right["value"] !== 2 && file !== own) found.push(`** in ${file}`);
    }
  });
  return found;
}

/** Over all of core but its tests. */
export function engineMathInCore(): readonly string[] {
  const root = fileURLToPath(new URL("../", import.meta.url));
  return readdirSync(join(root, "src/core"), { recursive: true, encoding: "utf8" })
    .map((name) => `src/core/${name.replaceAll("\\", "/")}`)
    .filter((name) => name.endsWith(".ts") && !/\.(test|d)\.ts$/.test(name))
    .flatMap((name) => engineMathIn(name, readFileSync(join(root, name), "utf8")));
}
