/** One value of a JSON text replaced, added or removed; every other character stays. */
import { answer, type Outcome, type Path, pathText, refuse } from "../problem.ts";
import { type JsonNode, nodeAt } from "./text.ts";

type ObjectNode = JsonNode & { readonly kind: "object" };
type ArrayNode = JsonNode & { readonly kind: "array" };

/**
 * The text with the value at `path` written as `value` (JSON text). A missing key is added, in the layout of its neighbors;
 * missing or null objects on the way are made.
 *
 * Problems: `not-a-group` where a value on the way has no keys, `no-such-item` where a list is too short.
 */
export function writeAt(text: string, root: JsonNode, path: Path, value: string): Outcome<string> {
  let node = root;
  for (let depth = 0; depth < path.length; depth++) {
    const step = path[depth] as string | number;
    const rest = () => wrapped(path.slice(depth + 1), value);
    const next = nodeAt(node, [step]);
    if (next !== null) node = next;
    else if (node.kind === "object" && typeof step === "string")
      return answer(insert(text, node, { key: step, value: rest() }));
    else if (node.kind === "array" && step === node.items.length)
      return answer(insert(text, node, { key: null, value: rest() }));
    else if (node.kind === "scalar" && node.value === null && typeof step === "string")
      return answer(splice(text, node, wrapped(path.slice(depth), value)));
    else return refuse(unreachable(node, path.slice(0, depth), step));
  }
  return answer(splice(text, node, value));
}

/** The text without the key or item at `path`; a path that is not there leaves the text as it is. */
export function removeAt(text: string, root: JsonNode, path: Path): string {
  const parent = nodeAt(root, path.slice(0, -1));
  if (parent === null || parent.kind === "scalar") return text;
  const parts = partsOf(parent);
  const index =
    parent.kind === "object" ? parent.members.findIndex(({ key }) => key === path.at(-1)) : Number(path.at(-1) ?? -1);
  const part = parts[index];
  if (part === undefined) return text;
  const after = parts[index + 1];
  const before = parts[index - 1];
  if (after !== undefined) return splice(text, { start: part.start, end: after.start }, "");
  if (before !== undefined) return splice(text, { start: before.end, end: part.end }, "");
  return splice(text, { start: parent.start + 1, end: parent.end - 1 }, "");
}

const splice = (text: string, span: { start: number; end: number }, by: string) =>
  text.slice(0, span.start) + by + text.slice(span.end);

/** { "film": { "gap": value } } for the steps that are missing. */
function wrapped(steps: Path, value: string): string {
  return steps.reduceRight<string>(
    (inner, step) => (typeof step === "number" ? `[${inner}]` : `{ ${JSON.stringify(step)}: ${inner} }`),
    value,
  );
}

/** From the start of the key, or of the item, to the end of its value. */
function partsOf(node: ObjectNode | ArrayNode): { start: number; end: number }[] {
  if (node.kind === "array") return node.items.map(({ start, end }) => ({ start, end }));
  return node.members.map(({ keySpan, value }) => ({ start: keySpan.start, end: value.end }));
}

/** Adds after the last part, with the white space that stands before that one. */
function insert(text: string, node: ObjectNode | ArrayNode, part: { key: string | null; value: string }): string {
  const last = partsOf(node).at(-1);
  const lastMember = node.kind === "object" ? node.members.at(-1) : undefined;
  const colon = lastMember ? text.slice(lastMember.keySpan.end, lastMember.value.start) : ": ";
  const written = part.key === null ? part.value : `${JSON.stringify(part.key)}${colon}${part.value}`;
  if (last === undefined) return splice(text, node, node.kind === "object" ? `{ ${written} }` : `[${written}]`);
  const space = /[ \t\r\n]*$/.exec(text.slice(node.start, last.start))?.[0] ?? "";
  return splice(text, { start: last.end, end: last.end }, `,${space}${written}`);
}

function unreachable(node: JsonNode, path: Path, step: string | number) {
  if (node.kind === "array")
    return {
      code: "no-such-item",
      path,
      message: `"${pathText(path)}" is a list of ${node.items.length}; write ${pathText(path)}[0] for its first item, ${pathText(path)}[${node.items.length}] to add one.`,
    };
  return {
    code: "not-a-group",
    path,
    message: `"${pathText(path)}" has no ${typeof step === "number" ? "items" : "keys"}, so "${pathText([step])}" cannot be set in it.`,
  };
}
