/**
 * JSON read with the place of every value, so that one value can be replaced and every other byte stays.
 * It goes on after a trailing comma, a comment, a repeated key or NaN, and names them all in one pass.
 */
import type { Path, Problem } from "../problem.ts";

export type JsonNode =
  | (Span & { readonly kind: "object"; readonly members: readonly Member[] })
  | (Span & { readonly kind: "array"; readonly items: readonly JsonNode[] })
  | (Span & { readonly kind: "scalar"; readonly value: string | number | boolean | null });

/** Offsets into the text, end not included. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Member {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: JsonNode;
}

export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

export interface JsonReading {
  /** null: no value could be read. */
  readonly root: JsonNode | null;
  readonly problems: readonly Problem[];
}

/** The plain value of a node. Keys become own properties, "__proto__" too. */
export function plainValue(node: JsonNode): Json {
  if (node.kind === "scalar") return node.value;
  if (node.kind === "array") return node.items.map(plainValue);
  const value: Record<string, Json> = {};
  for (const member of node.members)
    Object.defineProperty(value, member.key, {
      value: plainValue(member.value),
      enumerable: true,
      writable: true,
      configurable: true,
    });
  return value;
}

/** The node at a path, or null. */
export function nodeAt(root: JsonNode, path: Path): JsonNode | null {
  let node: JsonNode | undefined = root;
  for (const step of path) {
    if (node.kind === "object") node = node.members.find(({ key }) => key === step)?.value;
    else node = node.kind === "array" && typeof step === "number" ? node.items[step] : undefined;
    if (node === undefined) return null;
  }
  return node;
}

/** "line 3, column 12", both counted from 1. */
export function placeOf(text: string, offset: number): string {
  const before = text.slice(0, offset);
  const line = before.split(/\r\n|\r|\n/).length;
  const column = offset - Math.max(before.lastIndexOf("\n"), before.lastIndexOf("\r"));
  return `line ${line}, column ${column}`;
}
