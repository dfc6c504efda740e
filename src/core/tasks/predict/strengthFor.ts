/** Strength against what the brief names. */
import { assumedGlass } from "../../material/strengths.ts";
import type { ShapeEntry } from "../../microphone/engine.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { type StrengthAnswer, strengthOf } from "../../microphone/strength.ts";
import type { Brief } from "../../project/brief.ts";

/** Null: the sheet is not glass and its material gives no strength. */
export function strengthFor(
  entry: Pick<ShapeEntry, "stressed">,
  microphone: Microphone,
  { site, loudest: asked }: Brief,
  given: {
    readonly moved: number;
    /** Corner of the vent [Hz]; asked for only where the site's overpressure takes time. */
    readonly corner: () => number | null;
  },
): StrengthAnswer | null {
  const { strength, glass } = microphone;
  if (!strength && !glass) return null;
  const vented = site.staticOverpressure !== null && site.rise !== null;
  return strengthOf(entry, microphone, {
    tested: strength ?? { ...assumedGlass, area: null },
    assumed: !strength,
    overpressure: site.staticOverpressure,
    rise: site.rise,
    ventCorner: vented ? given.corner() : null,
    loudest: asked && asked.atLeastDb !== null ? { level: asked.atLeastDb, moved: given.moved } : null,
  });
}
