/** What a project has to be careful about: what its brief names, and what the design brings by itself. */
import { fileValue, type Project } from "./load.ts";

export interface NamedPrecaution {
  /** Key of its words: "laser", "loud-sound"; any word that the brief names. */
  readonly precaution: string;
  /** Whether the brief names it. */
  readonly named: boolean;
}

/** Those of the brief first, in its order. */
export function precautionsOf(project: Project): readonly NamedPrecaution[] {
  const { microphone, brief } = project.file;
  const named = brief?.site?.precautions ?? [];
  const guides = [microphone?.guide ?? []].flat();
  const there = (...path: readonly string[]) => {
    const found = fileValue(project, path);
    return found !== undefined && found !== null;
  };
  const brought = [
    ...(there("microphone", "light", "launched") ? ["laser"] : []),
    ...(there("brief", "loudest") ? ["loud-sound"] : []),
    ...(there("brief", "site", "staticOverpressure") ? ["pressurized-glass"] : []),
    ...(guides.some(({ process }) => process?.kind === "ion-exchange") ? ["molten-salt"] : []),
  ];
  return [...new Set([...named, ...brought])].map((precaution) => ({
    precaution,
    named: named.includes(precaution),
  }));
}
