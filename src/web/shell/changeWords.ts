/** What a step of the history is called. */
import { findPath, type PartKey, type Project, partsToAdd } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { isThere, valueText } from "./valueText.ts";

/** Parts that come and go as a whole, by their path. */
const partNames: ReadonlyMap<string, string> = new Map([
  ...Object.entries(partsToAdd).map(([key, { path }]) => [path, words.partNames[key as PartKey]] as const),
  ["microphone.back", words.wholeBack],
]);

/** "Air gap 40 um": what a step did, in the words of the file. */
export function changeWords(project: Project, path: string): string {
  const found = findPath(path);
  const label = found.ok ? found.value.label : path.replace(/^microphone\./, "");
  if (path.endsWith(".backPlate")) return `${words.wall.label}: ${valueText(project, path)}`;
  if (/\.front\.holes\[\d+\]$/.test(path)) return words.frontHoles(project.file.microphone?.front?.holes?.length ?? 0);
  const part = partNames.get(path);
  if (part !== undefined) return isThere(project, path) ? words.partAdded(part) : words.partTaken(part);
  const value = valueText(project, path);
  return value === "" ? label : `${label} ${value}`;
}
