/** The brief, line by line, against what was predicted. */
import type { Brief } from "../../project/brief.ts";
import type { Prediction, Verdict } from "./prediction.ts";

/** What a verdict needs of a prediction; a search knows no more. */
export interface Known {
  readonly band: Pick<Prediction["band"], "from" | "to">;
  readonly resonance: Pick<Prediction["resonance"], "dampingRatio">;
  readonly sensitivity: Pick<Prediction["sensitivity"], "magnitude">;
  readonly vibration: { readonly worst: { readonly level: number } | null };
  readonly noise: { readonly levelA: number | null } | null;
  readonly loudest: { readonly level: number | null } | null;
  readonly strength: { readonly factor: number | null } | null;
  /** Range of the frequencies that were computed [Hz]. */
  readonly computed: { readonly from: number; readonly to: number };
}

/** A requirement of the kind "at least" or "at most", with what is there; null: not computed. */
function line(
  requirement: string,
  kind: "atLeast" | "atMost",
  asked: number | null | undefined,
  got: number | null,
  must: boolean,
): Verdict[] {
  if (asked === null || asked === undefined) return [];
  const margin = got === null ? null : kind === "atLeast" ? got - asked : asked - got;
  return [{ requirement, asked, got, met: margin === null ? null : margin >= 0, margin, must }];
}

/**
 * One verdict a requirement, in SI. A band that stays level to the end of what was computed gets that end.
 * A number that the project does not say enough for is null.
 */
export function verdicts(brief: Brief, known: Known): readonly Verdict[] {
  const { band, sensitivity, damping, noise, loudest, vibration, strength } = brief;
  const inBand = known.band;
  // Where nothing is put out there is no band.
  const nothing = known.sensitivity.magnitude === 0;
  const bandLine = (
    requirement: string,
    kind: "atLeast" | "atMost",
    { asked, edge, computed }: { asked: number | null | undefined; edge: number | null; computed: number },
  ) =>
    line(requirement, kind, asked, nothing ? null : (edge ?? computed), band?.must ?? false).map(
      (verdict): Verdict => (edge === null && !nothing ? { ...verdict, orFarther: true } : verdict),
    );
  return [
    ...bandLine("brief.band.from", "atMost", { asked: band?.from, edge: inBand.from, computed: known.computed.from }),
    ...bandLine("brief.band.to", "atLeast", { asked: band?.to, edge: inBand.to, computed: known.computed.to }),
    ...line(
      "brief.sensitivity.atLeast",
      "atLeast",
      sensitivity?.atLeast,
      known.sensitivity.magnitude,
      sensitivity?.must ?? false,
    ),
    ...line("brief.damping.atLeast", "atLeast", damping?.atLeast, known.resonance.dampingRatio, damping?.must ?? false),
    ...line("brief.damping.atMost", "atMost", damping?.atMost, known.resonance.dampingRatio, damping?.must ?? false),
    ...line("brief.noise.atMost", "atMost", noise?.atMostDb, known.noise?.levelA ?? null, noise?.must ?? false),
    ...line(
      "brief.loudest.atLeast",
      "atLeast",
      loudest?.atLeastDb,
      known.loudest?.level ?? null,
      loudest?.must ?? false,
    ),
    ...line(
      "brief.vibration.atMost",
      "atMost",
      vibration?.atMostDb,
      known.vibration.worst?.level ?? null,
      vibration?.must ?? false,
    ),
    ...line(
      "brief.strength.atLeast",
      "atLeast",
      strength?.atLeast,
      known.strength?.factor ?? null,
      strength?.must ?? false,
    ),
  ];
}
