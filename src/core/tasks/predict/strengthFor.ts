/** Strength against what the brief names. */
import { assumedGlass } from "../../material/strengths.ts";
import type { ShapeEntry } from "../../microphone/engine.ts";
import { heatSystem } from "../../microphone/heatSystem.ts";
import type { Loudest } from "../../microphone/loudest.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { type StrengthAnswer, strengthOf } from "../../microphone/strength.ts";
import { ventCorner } from "../../microphone/ventCorner.ts";
import type { Brief } from "../../project/brief.ts";

/** Null: the sheet is not glass and its material gives no strength. */
export function strengthFor(
  entry: ShapeEntry,
  microphone: Microphone,
  { site, loudest: asked }: Brief,
  loudest: Loudest,
): StrengthAnswer | null {
  const { strength, glass } = microphone;
  if (!strength && !glass) return null;
  const vented = site.staticOverpressure !== null && site.rise !== null;
  return strengthOf(entry, microphone, {
    tested: strength ?? { ...assumedGlass, area: null },
    assumed: !strength,
    overpressure: site.staticOverpressure,
    rise: site.rise,
    ventCorner: vented ? ventCorner(heatSystem(entry, microphone).even.system) : null,
    loudest: asked && asked.atLeastDb !== null ? { level: asked.atLeastDb, moved: loudest.moved } : null,
  });
}
