/**
 * The limits that a design comes near, number against number. Never a verdict that something is safe: which limit was compared,
 * from where it is, and that the current edition and the person responsible decide.
 */
import type { Microphone } from "../../microphone/microphone.ts";
import type { StrengthAnswer } from "../../microphone/strength.ts";
import { laserStanding } from "../../parts/readout/laserClass.ts";
import type { Brief } from "../../project/brief.ts";
import type { NamedPrecaution } from "../../project/precautions.ts";
import { dailyLimit, peakLimit, timeAllowed } from "../../quantity/exposure.ts";
import type { Surroundings } from "./surroundings.ts";

export type LimitKind = "power" | "powerPerArea" | "level" | "time" | "rate" | "pressure" | "length" | "temperature";

/** One number of the design beside one limit. */
export interface LimitCompared {
  /** Key of its words: "laser-class-1", "ignition-power". */
  readonly what: string;
  readonly kind: LimitKind;
  readonly value: number;
  /** Null: there is none; the number stands by itself. */
  readonly limit: number | null;
  /** Whether the value is above the limit; null: no limit. */
  readonly above: boolean | null;
  readonly source: string;
}

export interface PrecautionLimits {
  /** As in the brief's `precautions`, or what the design brings by itself (project/precautions.ts). */
  readonly precaution: string;
  /** Whether the brief names it. */
  readonly named: boolean;
  readonly compared: readonly LimitCompared[];
}

const compare = (
  what: string,
  kind: LimitKind,
  value: number,
  limit: number | null,
  source: string,
): LimitCompared => ({ what, kind, value, limit, above: limit === null ? null : value > limit, source });

/** What is known of the design beside its description. */
interface Given {
  readonly strength: StrengthAnswer | null;
  readonly ventCorner: number | null;
  readonly surroundings: Pick<Surroundings, "dew" | "passages"> | null;
}

export const precautionLimits = (
  precautions: readonly NamedPrecaution[],
  microphone: Microphone,
  brief: Brief,
  given: Given,
): readonly PrecautionLimits[] =>
  precautions.map(({ precaution, named }) => ({
    precaution,
    named,
    compared: comparisons(precaution, microphone, brief, given),
  }));

function comparisons(precaution: string, microphone: Microphone, brief: Brief, given: Given): readonly LimitCompared[] {
  if (precaution === "laser") return laser(microphone);
  if (precaution.startsWith("explosive")) return ignition(microphone);
  if (precaution.startsWith("loud")) return loud(brief);
  if (/pressur|vacuum/.test(precaution)) return pressed(brief, given);
  if (precaution === "outdoors") return weathered(given);
  return [];
}

/** With the fiber pulled the launched power is what an eye can meet. */
function laser({ light }: Microphone): readonly LimitCompared[] {
  if (light.launched === null) return [];
  const standing = laserStanding(light.launched, light.wavelength);
  return (standing?.limits ?? []).map(({ name, power, source }) =>
    compare(`laser-class-${name}`, "power", light.launched ?? 0, power, `IEC 60825-1, ${source}`),
  );
}

/** 35 mW or 5 mW/mm2; the fiber's mode is the smallest spot. */
function ignition({ light }: Microphone): readonly LimitCompared[] {
  if (light.launched === null) return [];
  const source = "IEC 60079-28, as [mcgeehin-1994]; its table goes lower for some gases (15 mW, from memory)";
  const area = light.fiberMode === null ? null : (Math.PI / 4) * light.fiberMode ** 2;
  return [
    compare("ignition-power", "power", light.launched, 35e-3, source),
    ...(area === null ? [] : [compare("ignition-irradiance", "powerPerArea", light.launched / area, 5e3, source)]),
  ];
}

/** A sine's peak lies 3 dB above its level. */
function loud({ loudest }: Brief): readonly LimitCompared[] {
  const level = loudest?.atLeastDb ?? null;
  if (level === null) return [];
  return [
    compare("peak-level", "level", level + 20 * Math.log10(Math.SQRT2), peakLimit, "directive 2003/10/EC [eu-2003-10]"),
    compare("daily-level", "level", level, dailyLimit, "directive 2003/10/EC [eu-2003-10], over 8 h"),
    compare("time-allowed", "time", timeAllowed(level), null, "NIOSH [niosh]"),
  ];
}

/** Pumping or filling moves the pressure by rate times the vent's time constant across the diaphragm. */
function pressed({ site, strength: asked }: Brief, { strength, ventCorner }: Given): readonly LimitCompared[] {
  if (strength?.bears == null) return [];
  // A tension that alone is too much leaves nothing.
  const left = Math.max(0, strength.bears - strength.membrane);
  const bearable = left / strength.largest.stress / (asked?.atLeast ?? 4);
  const source = "docs/theory/strength.md; the strength that is assumed or given";
  const across = site.staticOverpressure;
  return [
    ...(across === null ? [] : [compare("pressure-blocked", "pressure", across, bearable, source)]),
    ...(ventCorner === null || across === null || site.rise === null
      ? []
      : [compare("pressure-rate", "rate", across / site.rise, bearable * 2 * Math.PI * ventCorner, source)]),
  ];
}

/** Size of the dust that is tested with, and of the wire that may not enter [m]: IEC 60529, from memory. */
const testDust = 75e-6;
const testWire = 1e-3;

/** Every passage against the dust and the wire of the tests of cases; dew against the coldest place. */
function weathered({ surroundings }: Given): readonly LimitCompared[] {
  if (surroundings === null) return [];
  const source = "IEC 60529, from memory";
  const { dew, passages } = surroundings;
  return [
    ...passages
      .filter(({ what }) => what !== "gap")
      .flatMap(({ what, size }) => [
        compare(`dust-${what}`, "length", size, testDust, `${source}: dust of the tests for the digits 5 and 6`),
        compare(`wire-${what}`, "length", size, testWire, `${source}: wire of the test for the digit 4`),
      ]),
    ...(dew === null ? [] : [compare("dew-point", "temperature", dew.point, dew.coldest, "humid air as [cipm-2007]")]),
  ];
}
