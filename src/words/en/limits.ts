/** Words for noise, loudest sound, strength, surroundings and precautions, as the command answers them; the page has more in limitsPage.ts. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import type { Limits } from "../../core/tasks/predict/limits.ts";
import type { LimitCompared } from "../../core/tasks/predict/precautionLimits.ts";
import type { Losses, Loudest, Noise, NoiseSource, StrengthAnswer } from "../../core/tasks/predict/prediction.ts";
import { asGiven } from "../asGiven.ts";
import { hanging, wrap } from "../wrap.ts";
import { changeWords, limitsWords, perWords } from "./limitsPage.ts";
import { magneticMaterials } from "./magnetic.ts";
import { precautions } from "./precautions.ts";
import { recoveryLines } from "./recovery.ts";

export const sourceWords: Readonly<Record<NoiseSource, string>> = {
  thermal: "heat of the device",
  shot: "shot noise",
  intensity: "laser intensity",
  resistor: "load resistor",
  voltage: "amplifier voltage",
  current: "amplifier current",
  rounding: "converter steps",
  wavelength: "laser wavelength",
};

/** Where there is no room beside a curve. */
export const shortSourceWords: typeof sourceWords = {
  thermal: "heat",
  shot: "shot",
  intensity: "intensity",
  resistor: "resistor",
  voltage: "amp. volts",
  current: "amp. current",
  rounding: "converter",
  wavelength: "wavelength",
};

export const partWords: Readonly<Record<keyof Losses, string>> = {
  structure: "diaphragm",
  filmFriction: "film, friction",
  filmHeat: "film, heat",
  wall: "holes of the back plate",
  frontHoles: "front holes",
  frontCavity: "front cavity",
  backCavity: "back cavity",
  vent: "vent",
  leak: "leak",
  radiation: "sound sent out",
};

export const causeWords = {
  readout: "readout",
  diaphragm: "stretched diaphragm",
  film: "squeezed film",
  contact: "diaphragm meets the wall",
} as const;

export const caseWords: Readonly<Record<StrengthAnswer["cases"][number]["name"], string>> = {
  overpressure: "overpressure of the site",
  "overpressure-blocked": "overpressure of the site, vent blocked",
  loudest: "loudest sound asked for",
  static: "static difference",
  barometer: "barometer of the site, nothing evens it out",
  "barometer-blocked": "barometer of the site, vent blocked",
  flight: "carried by air, cabin at 75\u00a0kPa, vent blocked",
  breath: "a breath against it, 5\u00a0kPa",
  tension: "tension in the plane",
};

const withoutLightWords = {
  "no-launched-power": "No launched power is given, so the light's noise is not known: heat alone is shown.",
  "no-bias": "The bias of the interferometer is not given, so the light's noise is not known.",
  "no-slope": "At this bias the readout has no slope: a phase is not read at all.",
} as const;

const decibels = (value: number | null): string =>
  value === null ? "none" : formatQuantity(value, "decibel", { digits: 3 });

export const shareText = (share: number): string => percent(share);

const percent = (share: number): string =>
  share > 0 && share < 1e-4 ? "under 0.01 %" : `${formatNumber(100 * share, { digits: share < 0.1 ? 2 : 3 })} %`;

/** A share that somebody asked for, as short as it is: "3 %". */
export const askedShare = (share: number): string => `${asGiven(100 * share, "number")} %`;

const shown = (value: number, kind: KindName): string => formatQuantity(value, kind, { digits: 3 });

/** "47 dB(A): shot noise 97 %, laser intensity 2 %" */
export function noiseText(noise: Noise): string {
  if (noise.withoutLight) return withoutLightWords[noise.withoutLight];
  if (noise.levelA === null) return "none as sound: nothing is put out at the frequency that it is referred to";
  const parts = [...noise.bySource].sort((a, b) => b.share - a.share).filter(({ share }) => share >= 0.005);
  const said = parts.slice(0, 3).map(({ source, share }) => `${sourceWords[source]} ${percent(share)}`);
  return `${formatNumber(noise.levelA, { digits: 3 })} dB(A), 20 Hz to 20 kHz: ${said.join(", ")}`;
}

export function loudestText({ level, frequency, distortion, first, byCause, moved }: Loudest): string {
  if (moved === 0) return "none: the sound does not move the diaphragm";
  if (level === null) return "none: at this bias the readout has no linear output, or its bias is not known";
  const alone = (["readout", "diaphragm", "film"] as const)
    .flatMap((cause) => (byCause[cause] === null ? [] : [{ cause, level: byCause[cause] }]))
    .sort((a, b) => a.level - b.level)
    .map((one) => `${causeWords[one.cause]} ${decibels(one.level)}`);
  const why = first === "contact" ? `: ${causeWords.contact}` : alone.length > 1 ? ", all causes at once" : "";
  const rest = alone.length > 0 ? `; alone ${alone.join(", ")}` : "";
  return `${decibels(level)} at ${asGiven(frequency, "frequency")} for ${askedShare(distortion)} distortion${why}${rest}`;
}

/** "at the ends": where the largest bending stress lies. */
function placeText({ x, y, axis }: StrengthAnswer["largest"]): string {
  if (x === 0 && y === 0) return "in the middle";
  if (axis === "across" && y === 0) return x === 0 ? "in the middle" : "toward the sides";
  if (axis === "along" && x === 0) return "toward the ends";
  return `at ${shown(Math.abs(x), "length")} across, ${shown(Math.abs(y), "length")} along`;
}

export function strengthText(strength: StrengthAnswer | null): string {
  if (strength === null) return "not known: the sheet is no glass known here, and its material gives no strength";
  const per = `${formatNumber(strength.largest.stress / 1e3, { digits: 3 })} MPa per kPa ${placeText(strength.largest)}`;
  if (strength.factor === null) return `${per}; no load is named to hold it against`;
  const figures = strength.assumed ? "strength assumed as annealed float" : "strength as given";
  if (strength.factor <= 0)
    return `none: the tension in the plane alone, ${shown(strength.membrane, "modulus")}, is more than ${askedShare(1 - strength.fractile)} bear for long (${figures}); ${per}`;
  const by = strength.cases.find(({ counted, factor }) => counted && factor === strength.factor);
  const load = by === undefined ? "" : `, by the ${caseWords[by.name]}`;
  const blocked = strength.cases.find(({ name }) => name === "overpressure-blocked");
  const without = blocked ? `; ${factorText(blocked.factor)} with the vent blocked` : "";
  return `safety factor ${formatNumber(strength.factor, { digits: 3 })} until ${askedShare(strength.fractile)} break${load} (${figures})${without}; ${per}`;
}

/** Below it a load that nobody counts is worth a word [-]. */
const worthSaying = 10;

/** What the vent takes off, what is left when it is blocked, and what a breath does. */
export function strengthNotes({ cases }: StrengthAnswer): readonly string[] {
  const of = (name: StrengthAnswer["cases"][number]["name"]) => cases.find((one) => one.name === name);
  const [vented, blocked, breath] = [of("overpressure"), of("overpressure-blocked"), of("breath")];
  const closing = [of("barometer-blocked"), of("flight")].filter((one) => one?.factor != null && one.factor < 1);
  return [
    ...(vented && blocked
      ? [
          `The site's overpressure of ${shown(blocked.pressure, "pressure")}: while it rises the vent evens it out but for ${shown(vented.pressure, "pressure")}, factor ${factorText(vented.factor)}, which counts and assumes an open vent and a rise as slow as the brief says. With the vent blocked by dust, ice or a finger all of it bears, factor ${factorText(blocked.factor)}, which is shown and not counted.`,
        ]
      : []),
    ...(closing.length > 0
      ? [
          "With the vent blocked this diaphragm does not outlive a change of weather or of altitude: look at the vent before it is carried, and carry it in a case that keeps its pressure.",
        ]
      : []),
    ...(breath?.factor != null && breath.factor < worthSaying
      ? [
          `Cover the port, never blow to clean: a breath of ${shown(breath.pressure, "pressure")} leaves a factor of ${factorText(breath.factor)}, compressed air none.`,
        ]
      : []),
  ];
}

/** One limit of a precaution, number against number. */
export function comparedText({ what, kind, value, limit, above, source }: LimitCompared): string {
  const words = comparedWords[what] ?? what;
  const text = (number: number) =>
    kind === "powerPerArea"
      ? `${formatNumber(number / 1e3, { digits: 3 })} mW/mm²`
      : kind === "rate"
        ? `${formatNumber(number, { digits: 3 })} Pa/s`
        : shown(number, kind === "level" ? "decibel" : kind);
  const against = limit === null ? "" : ` ${above ? "is above" : "is at or under"} ${text(limit)}`;
  // Keys of docs/sources.md say nothing to a reader of the page.
  const read = source.replace(/,? ?\[[a-z0-9-]+\]/g, "").trim();
  return `${words}: ${text(value)}${against} (${read}).`;
}

const comparedWords: Readonly<Record<string, string>> = {
  "laser-class-1": "Launched power against class 1",
  "laser-class-2": "Launched power against class 2",
  "laser-class-3R": "Launched power against class 3R",
  "laser-class-3B": "Launched power against class 3B",
  "ignition-power": "Launched power against the power that was found not to ignite",
  "ignition-irradiance": "Power over the fiber's mode against the irradiance that was found not to ignite",
  "peak-level": "Peak of the loudest sound asked for against the peak limit, dB(C)",
  "daily-level": "That sound against the daily limit under the protection, dB(A)",
  "time-allowed": "Time a day that a recommendation leaves at that level",
  "pressure-blocked": "Overpressure with the vent blocked against what the asked safety factor leaves",
  "dust-hole": "Front hole against the dust of a test",
  "wire-hole": "Front hole against a wire",
  "dust-vent": "Vent against the dust of a test",
  "wire-vent": "Vent against a wire",
  "dust-leak": "Leak against the dust of a test",
  "wire-leak": "Leak against a wire",
  "dew-point": "Dew point of the site's most humid air against its coldest temperature",
  "pressure-rate": "Rate of the site's overpressure against the rate that the vent follows within that safety factor",
};

const signed = (value: number, digits = 2): string =>
  `${value > 0 ? "+" : ""}${formatNumber(Math.abs(value) < 1e-12 ? 0 : value, { digits })}`;

/** "+0.24 dB" */
export const levelChange = (value: number): string =>
  value !== 0 && Math.abs(value) < 5e-4 ? "under 0.001 dB" : `${signed(value)} dB`;

/** "−0.12 %", or a dash. */
export const shareChange = (value: number | null): string => (value === null ? "–" : `${signed(100 * value)} %`);

/** Widest line of the command's answer [characters]. */
const width = 98;

/** The command's answer to --limits. */
export function limitsLines(limits: Limits): readonly string[] {
  const { noise, strength, surroundings, range, mixing, recovery } = limits;
  const band = (nominal: number) => `${nominal >= 1000 ? `${nominal / 1000}k` : nominal}`;
  return [
    "Noise by source, A-weighted",
    ...noise.bySource
      .filter(({ levelA }) => levelA !== null)
      .map(
        ({ source, levelA, share }) =>
          `  ${sourceWords[source].padEnd(22)} ${decibels(levelA).padStart(9)}  ${percent(share)}`,
      ),
    "Third octaves of noise as sound, dB re 20 µPa",
    ...hanging(
      "  ",
      noise.thirdOctaves
        .map(({ nominal, level }) => `${band(nominal)}\u00a0${level === null ? "–" : level.toFixed(0)}`)
        .join(", "),
      width,
    ),
    "Heat by part",
    `  ${Object.entries(noise.byPart)
      .filter(([, share]) => share >= 0.0005)
      .sort(([, a], [, b]) => b - a)
      .map(([part, share]) => `${partWords[part as keyof Losses]} ${percent(share)}`)
      .join(", ")}`,
    ...(range.dynamic === null ? [] : [`Dynamic range ${decibels(range.dynamic)} from noise to loudest sound`]),
    ...(mixing === null ? [] : wrap(mixingText(mixing), width)),
    ...(recovery === null ? [] : recoveryLines(recovery, width)),
    ...(strength === null
      ? []
      : [
          "Strength",
          ...strength.cases.map(
            ({ name, pressure, stress, factor, failure }) =>
              `  ${caseWords[name].padEnd(46)} ${shown(pressure, "pressure").padStart(9)}, ${shown(stress, "modulus").padStart(9)}, factor ${factorText(factor)}, chance of failure ${chance(failure)}`,
          ),
          ...strengthNotes(strength).flatMap((note) => hanging("  ", note, width)),
          ...(limits.touches === null
            ? []
            : hanging("  ", limitsWords.touches(shown(limits.touches, "pressure")), width)),
          ...hanging("  ", limitsWords.straight(shown(limits.straightUpTo, "pressure")), width),
        ]),
    ...(surroundings === null
      ? []
      : [
          "Surroundings: sensitivity, lower and upper band edge",
          ...(["perKelvin", "perKilopascal", "perTenPercent"] as const).flatMap((key) =>
            surroundings[key].map(
              ({ cause, sensitivity, bandFrom, bandTo }) =>
                `  ${perWords[key].padEnd(12)} ${changeWords[cause].padEnd(24)} ${levelChange(sensitivity).padStart(14)}  ${shareChange(bandFrom).padStart(9)}  ${shareChange(bandTo).padStart(9)}`,
            ),
          ),
        ]),
    ...(limits.precautions.length === 0 ? [] : ["Precautions"]),
    ...limits.precautions.flatMap(precautionLines),
    ...wrap(limitsDefer, width),
  ];
}

/** What to do, the standard to read, and every number beside its limit. */
function precautionLines({ precaution, named, compared }: Limits["precautions"][number]): readonly string[] {
  const known = precautions[precaution];
  const head = `${known?.label ?? precaution}${named ? "" : ` (${limitsWords.brought})`}`;
  const says = [known?.says, limitsWords.more[precaution], known?.standard && `Read: ${known.standard}.`];
  return [
    `  ${head}`,
    ...hanging("    ", says.filter((text) => text !== undefined && text !== null).join(" "), width),
    ...(precaution === "strong-magnet"
      ? magneticMaterials.flatMap(({ material, where, does }) =>
          hanging("    - ", `${material} (${where}): ${does}.`, width),
        )
      : []),
    ...compared.flatMap((one) => hanging("    - ", comparedText(one), width)),
  ];
}

export const limitsDefer =
  "Nothing here says that something is safe: it says which limit was compared. The current edition of the standard, local rules and licensed practice decide.";

/** "3.09", "none" where the tension alone is too much, or a dash. */
export const factorText = (factor: number | null): string =>
  factor === null ? "–" : factor <= 0 ? "none" : formatNumber(factor, { digits: 3 });

/** "0.12 %"; rare ones as a power, and none that no series of tests could show. */
export function chance(probability: number): string {
  if (probability <= 0) return "none computed";
  if (probability < 1e-9) return "under 10⁻⁹";
  if (probability > 0.01) return percent(probability);
  return formatNumber(probability, { digits: 2 });
}

/** "All causes at once: 152.9 dB, which counts; ..." */
export function mixingText({ counted, balanced, stopped, multiples, apart }: NonNullable<Limits["mixing"]>): string {
  const level = (value: number | null) =>
    value === null ? "not below 200 dB" : formatQuantity(value, "decibel", { digits: 5 });
  const second =
    stopped === "no-balance"
      ? `no steady tone was found above ${level(balanced)}, where the film closes or the state is not unique`
      : `${level(balanced)}`;
  const near =
    apart === null ? "" : ` The two first causes, each alone, lie ${formatNumber(apart, { digits: 2 })} dB apart.`;
  return `All causes at once make ${level(counted)}: that level counts in every verdict. Second opinion, the steady tone balanced with ${multiples} multiples: ${second}.${near}`;
}
