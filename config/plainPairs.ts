/**
 * Writes `const [a, b] = [x, y]` as `const a = x, b = y` when it bundles. They mean the same; but until its compiler has come to a
 * function, V8 makes the list and walks it, which a short run spends most of its time before.
 */
import { type Plugin, parseSync } from "vite";

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** The text without its plain pairs; null where there are none. */
export function withoutPairs(file: string, text: string): string | null {
  const edits: { readonly start: number; readonly end: number; readonly by: string }[] = [];
  walk(parseSync(file, text).program, (node) => {
    if (node.type !== "VariableDeclarator") return;
    const names = namesOf(node["id"]);
    const values = valuesOf(node["init"]);
    if (names === null || values === null || names.length !== values.length) return;
    let from = (node["id"] as Node).start;
    values.forEach((value, i) => {
      edits.push({ start: from, end: value.start, by: `${i === 0 ? "" : ", "}${names[i]} = ` });
      from = value.end;
    });
    edits.push({ start: from, end: (node["init"] as Node).end, by: "" });
  });
  if (edits.length === 0) return null;
  let [result, at] = ["", 0];
  for (const { start, end, by } of edits.sort((a, b) => a.start - b.start)) {
    result += text.slice(at, start) + by;
    at = end;
  }
  return result + text.slice(at);
}

/** [a, b] without more: names alone, at least one. */
function namesOf(id: unknown): readonly string[] | null {
  if (!isNode(id) || id.type !== "ArrayPattern" || id["typeAnnotation"]) return null;
  const elements = id["elements"] as readonly (Node | null)[];
  const names = elements.flatMap((one) => (one?.type === "Identifier" ? [one["name"] as string] : []));
  return names.length === elements.length && names.length > 0 ? names : null;
}

/** [x, y] without holes and spreads. */
function valuesOf(init: unknown): readonly Node[] | null {
  if (!isNode(init) || init.type !== "ArrayExpression") return null;
  const elements = init["elements"] as readonly (Node | null)[];
  const values = elements.flatMap((one) => (one === null || one.type === "SpreadElement" ? [] : [one]));
  return values.length === elements.length ? values : null;
}

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null && "type" in value;

function walk(value: unknown, visit: (node: Node) => void): void {
  if (Array.isArray(value)) for (const item of value) walk(item, visit);
  else if (typeof value === "object" && value !== null) {
    if (isNode(value)) visit(value);
    for (const inner of Object.values(value)) walk(inner, visit);
  }
}

export const plainPairs: Plugin = {
  name: "plain-pairs",
  enforce: "pre",
  transform(text, id) {
    if (!/\/src\/.*\.ts$/.test(id) || !/\]\s*=\s*\[/.test(text)) return null;
    const code = withoutPairs(id, text);
    return code === null ? null : { code, map: null };
  },
};
