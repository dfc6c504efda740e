/** The order of import: the tree of src as a table, and what breaks it. */
import { builtinModules } from "node:module";
import { posix } from "node:path";
import { findImports, type Import } from "./findImports.ts";

/** From the bottom up: a room may import itself and the rooms before it. */
export const rooms = [
  "core/problem.ts",
  "core/numerics",
  "core/quantity",
  "core/material",
  "core/record",
  "core/parts",
  "core/microphone",
  "core/project",
  "core/reading",
  "core/tasks",
  "core/index.ts",
  "words",
  "figure",
  "writers",
  "worker",
  "store",
  "server",
  "cli",
  "web",
] as const;

/** Packages that know neither Node nor the DOM; core may use no other. */
const purePackages = ["d3-contour", "fft.js", "h5wasm", "ml-matrix", "pure-rand", "zod"];
/** Rooms that run in Node only; everything else also runs, or is drawn, in a page. */
const nodeRooms: readonly string[] = ["writers", "store", "server", "cli"];
/** The one file of a shared room that speaks to Node's threads. */
const nodeFiles = ["worker/nodePort.ts", "worker/nodeThread.ts"];

export interface Breach {
  /** Below src/: "core/parts/film/film.ts". */
  readonly file: string;
  readonly from: string;
  readonly why: string;
}

/** Everything that breaks the order. `files`: text by path below src/; tests beside the code may import what they judge with. */
export function breaches(files: ReadonlyMap<string, string>): readonly Breach[] {
  const list: Breach[] = [];
  for (const [file, text] of files) {
    if (/\.test\.tsx?$/.test(file)) continue;
    if (roomOf(file) === null) list.push({ file, from: "", why: "lies in no room of the tree" });
    for (const one of importsOf(file, text)) {
      const why = one.from === null ? "is computed: nobody can see where it leads" : judge(file, one.from, one, files);
      if (why !== null) list.push({ file, from: one.from ?? "(computed)", why });
    }
  }
  return list;
}

/** A style sheet or a page has no imports of ours. */
const importsOf = (file: string, text: string): readonly Import[] =>
  /\.[cm]?tsx?$/.test(file) ? findImports(file, text) : [];

function judge(file: string, from: string, one: Import, files: ReadonlyMap<string, string>): string | null {
  if (!from.startsWith(".")) return judgePackage(file, from);
  const target = posix.normalize(posix.join(posix.dirname(file), from));
  // A page shows what docs/ say, as a text: there is no code in it.
  if (file.startsWith("web/") && /^\.\.\/docs\/\w+\.md\?raw$/.test(target)) return null;
  if (target.startsWith("..")) return "leads out of src/";
  if (!files.has(target)) return "leads to no file (write the ending: ./plate.ts)";
  if (/\.test\.tsx?$/.test(target)) return "leads to a test";
  return judgeRoom(file, target, one.typeOnly);
}

function judgePackage(file: string, from: string): string | null {
  const name = from
    .split("/")
    .slice(0, from.startsWith("@") ? 2 : 1)
    .join("/");
  const room = roomOf(file) ?? "";
  const ofNode = from.startsWith("node:") || builtinModules.includes(name);
  if (ofNode) return nodeRooms.includes(room) || nodeFiles.includes(file) ? null : `${room} knows nothing of Node`;
  if (room.startsWith("core/") && !purePackages.includes(name)) return "core takes pure packages only";
  return null;
}

function judgeRoom(file: string, target: string, typeOnly: boolean): string | null {
  const [room, other] = [roomOf(file), roomOf(target)];
  if (room === null || other === null) return null; // said once, for the file itself
  if (room === "web") return judgeWeb(target, other, typeOnly);
  if (rooms.indexOf(other) > rooms.indexOf(room)) return `${room} lies below ${other} and may not see it`;
  if (room === other && room === "core/parts" && !typeOnly && part(file) !== part(target))
    return `the part ${part(file)} may use types of the part ${part(target)}, no values`;
  if (room === other && room === "core/tasks" && part(file) !== part(target) && part(target) !== "predict")
    return `the task ${part(file)} may use predict and no other neighbor`;
  return null;
}

function judgeWeb(target: string, other: string, typeOnly: boolean): string | null {
  if (["web", "words", "figure", "worker"].includes(other) || target === "core/index.ts") return null;
  if (target === "server/api.ts") return typeOnly ? null : "web takes types of server/api.ts, no values";
  return "web sees core/index.ts, words, figure, worker and types of server/api.ts";
}

/** "film" of "core/parts/film/film.ts". */
const part = (file: string): string => file.split("/")[2] ?? "";

function roomOf(file: string): (typeof rooms)[number] | null {
  return rooms.find((room) => file === room || (!room.endsWith(".ts") && file.startsWith(`${room}/`))) ?? null;
}
