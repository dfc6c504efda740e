/** A project's text with only those of its parts that a question depends on: changing any other asks nothing anew. */
import type { Project } from "../../core/index.ts";

type Part = Exclude<keyof Project["file"], "format" | "version">;

/** What a design is judged by. */
export const designParts = ["brief", "air", "materials", "microphone"] as const satisfies readonly Part[];

export function partText({ file }: Project, parts: readonly Part[]): string {
  const { format, version } = file;
  return JSON.stringify({ format, version, ...Object.fromEntries(parts.map((part) => [part, file[part]])) });
}
