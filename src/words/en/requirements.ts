/** What a requirement of the brief is called, and what kind of quantity it asks for; levels are numbers of dB re 20 uPa. */
import type { KindName } from "../../core/quantity/kinds.ts";

export interface RequirementWords {
  readonly label: string;
  readonly kind: KindName;
}

const table: Readonly<Record<string, RequirementWords>> = {
  "brief.band.from": { label: "band from", kind: "frequency" },
  "brief.band.to": { label: "band to", kind: "frequency" },
  "brief.band.within": { label: "band flat within", kind: "decibel" },
  "brief.sensitivity.atLeast": { label: "sensitivity at least", kind: "phaseSensitivity" },
  "brief.sensitivity.atMost": { label: "sensitivity at most", kind: "phaseSensitivity" },
  "brief.damping.atLeast": { label: "damping ratio at least", kind: "number" },
  "brief.damping.atMost": { label: "damping ratio at most", kind: "number" },
  "brief.noise.atMost": { label: "noise at most", kind: "decibel" },
  "brief.loudest.atLeast": { label: "loudest sound at least", kind: "decibel" },
  "brief.vibration.atMost": { label: "vibration at most", kind: "decibel" },
  "brief.strength.atLeast": { label: "strength at least", kind: "number" },
};

/** Words for "brief.band.to"; an unknown requirement is called by its path. */
export function requirementWords(requirement: string): RequirementWords {
  return table[requirement] ?? { label: requirement.replace(/^brief\./, ""), kind: "number" };
}
