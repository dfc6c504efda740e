/** What a requirement of the brief is called, and what kind of quantity it asks for; levels are numbers of dB re 20 uPa. */
import { formatQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import type { Verdict } from "../../core/tasks/predict/prediction.ts";
import { asGiven } from "../asGiven.ts";

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

/** A verdict in words: "7 kHz", "6.88 kHz", ", short by 115 Hz" (empty where it is met or not computed). */
export function verdictText({ requirement, asked, got, orFarther, met, margin }: Verdict) {
  const { kind } = requirementWords(requirement);
  // A pole without damping leaves round-off.
  const shown = (value: number | null) =>
    formatQuantity(kind === "number" && value !== null && Math.abs(value) < 1e-12 ? 0 : value, kind, { digits: 3 });
  const bound = orFarther ? (requirement.endsWith(".from") ? "≤ " : "≥ ") : "";
  // A limit from above is exceeded, any other one is not reached.
  const miss = /\.(atMost|from)$/.test(requirement) ? "over by" : "short by";
  return {
    asked: asGiven(asked, kind),
    got: `${bound}${shown(got)}`,
    missing: met === false && margin !== null ? `, ${miss} ${shown(Math.abs(margin))}` : "",
  };
}
