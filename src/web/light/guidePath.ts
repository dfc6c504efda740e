/** The first guide of a project: the one that is made here. */
import type { Project } from "../../core/index.ts";

const path = "microphone.guide";

const isList = (project: Project): boolean => Array.isArray(project.file.microphone?.guide);

/** "microphone.guide", or "microphone.guide[0]" of several. */
export const guidePath = (project: Project): string => (isList(project) ? `${path}[0]` : path);

export function firstGuide(project: Project) {
  const said = project.file.microphone?.guide;
  return Array.isArray(said) ? said[0] : said;
}
