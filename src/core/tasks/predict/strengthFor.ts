/** Strength against what the brief names. */
import { assumedGlass } from "../../material/strengths.ts";
import type { ShapeEntry } from "../../microphone/engine.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import {
  type NamedLoad,
  type StrengthAnswer,
  type StrengthQuestion,
  strengthFactor,
  strengthOf,
} from "../../microphone/strength.ts";
import type { StressedArea } from "../../parts/diaphragm/weibull.ts";
import type { Brief } from "../../project/brief.ts";

/** Figures that the strength is counted with: those of the project, or assumed of glass; null: neither. */
export const testedOf = ({ strength, glass }: Microphone) =>
  strength ?? (glass ? { ...assumedGlass, area: null } : null);

interface Given {
  readonly moved: number;
  /** Corner of the vent [Hz]; asked for only where the site's overpressure takes time. */
  readonly corner: () => number | null;
  /** Where the sheet is stressed, known from elsewhere. */
  readonly stressed?: StressedArea | null;
}

/** Null: the sheet is not glass and its material gives no strength. */
export function strengthFor(
  entry: Pick<ShapeEntry, "stressed">,
  microphone: Microphone,
  brief: Brief,
  given: Given,
): StrengthAnswer | null {
  const question = questionOf(microphone, brief, given);
  return question && strengthOf(entry, microphone, question);
}

/** `StrengthAnswer.factor` alone, where the sheet is stressed known or computed for this device. */
export function strengthFactorFor(microphone: Microphone, brief: Brief, given: Given): number | null {
  const question = questionOf(microphone, brief, given);
  return question && strengthFactor({ stressed: null }, microphone, question);
}

function questionOf(microphone: Microphone, { site, loudest: asked }: Brief, given: Given): StrengthQuestion | null {
  const tested = testedOf(microphone);
  if (tested === null) return null;
  const vented = site.staticOverpressure !== null && site.rise !== null;
  return {
    tested,
    assumed: !microphone.strength,
    overpressure: site.staticOverpressure,
    rise: site.rise,
    ventCorner: vented ? given.corner() : null,
    loudest: asked && asked.atLeastDb !== null ? { level: asked.atLeastDb, moved: given.moved } : null,
    others: otherLoads(microphone, site),
    ...(given.stressed && { stressed: given.stressed }),
  };
}

/** Pressure in the cabin of an airplane [Pa], and of a breath against the diaphragm [Pa]: both from memory. */
const cabin = 75e3;
const breath = 5e3;
const day = 86400;
const minute = 60;

/**
 * Weather, carriage and hands. Counted is only the barometer on a device that is sealed behind: a vent evens the others out, or
 * nobody asked for them.
 */
function otherLoads({ back, air }: Microphone, { pressure }: Brief["site"]): readonly NamedLoad[] {
  const closed = back?.cavity != null;
  const sealed = closed && !back?.vent && !back?.leak;
  const swing = pressure ? Math.max(Math.abs(pressure[0] - air.pressure), Math.abs(pressure[1] - air.pressure)) : 0;
  return [
    ...(closed && swing > 0
      ? [
          {
            name: sealed ? ("barometer" as const) : ("barometer-blocked" as const),
            pressure: swing,
            time: day,
            counted: sealed,
          },
        ]
      : []),
    ...(closed
      ? [{ name: "flight" as const, pressure: Math.abs(air.pressure - cabin), time: day / 2, counted: false }]
      : []),
    { name: "breath", pressure: breath, time: minute, counted: false },
  ];
}
