/** The answer of `predict` in words: one screen, and the kind of text that one pastes into a mail. */
import type { Microphone } from "../../core/microphone/microphone.ts";
import type { Edge } from "../../core/parts/diaphragm/diaphragm.ts";
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { KindName } from "../../core/quantity/kinds.ts";
import type { Prediction, Verdict } from "../../core/tasks/predict/prediction.ts";
import { asGiven } from "../asGiven.ts";
import { dampingRatioText } from "../dampingRatioText.ts";
import { hanging } from "../wrap.ts";
import { lightText } from "./lightLines.ts";
import { loudestText, noiseText, strengthText } from "./limits.ts";
import { energyWords, influenceWords, lossWords, sharesText } from "./parts.ts";
import { counted, problemLines } from "./problems.ts";
import { requirementWords, verdictText } from "./requirements.ts";

export interface PredictText {
  readonly title: string;
  /** What the answer was computed with. */
  readonly microphone: Microphone;
  readonly prediction: Prediction;
  /** Whether frequencies were asked for: then the response at each is listed. */
  readonly listed: boolean;
}

/** Longest answer [lines] and widest line [characters]: a window of a terminal, not the 24 lines of the first ones. */
const screen = { lines: 44, width: 98 };
const labelWidth = 13;

/** The text, line by line; at most one screen unless frequencies were asked for. */
export function predictLines({ title, microphone, prediction, listed }: PredictText): string[] {
  const head = [
    title,
    "",
    ...assumedLines(microphone),
    "",
    ...sensitivityLines(prediction),
    ...labeled("Resonance", resonanceText(prediction)),
    ...labeled("Band", bandText(prediction.band)),
    ...(prediction.parts ? partsLines(prediction, prediction.parts) : []),
    ...(prediction.vibration.worst ? labeled("Vibration", vibrationText(prediction.vibration.worst)) : []),
    ...labeled("Noise", noiseText(prediction.noise)),
    ...labeled("Loudest", loudestText(prediction.loudest)),
    ...labeled("Strength", strengthText(prediction.strength)),
    ...(prediction.field ? labeled("Field", fieldText(prediction, prediction.field)) : []),
    ...straightLines(prediction),
    ...restLines(prediction),
    ...labeled("Light", lightText(prediction.light)),
    ...labeled("Film", filmText(prediction.film)),
    ...labeled("Resolved", resolutionText(prediction.resolution)),
    ...briefLines(prediction.verdict),
  ];
  const lines = [...head, ...remarkLines(prediction, screen.lines - head.length)];
  return listed ? [...lines, "", ...responseLines(prediction)] : lines;
}

const labeled = (label: string, text: string): string[] => hanging(label.padEnd(labelWidth), text, screen.width);

const shown = (value: number, kind: KindName): string => formatQuantity(value, kind, { digits: 3 });

function assumedLines({ diaphragm, guides, light, air, film }: Microphone): string[] {
  const { across, along, thickness, edges, lossFactor, stack } = diaphragm;
  const loss = lossFactor > 0 ? `, loss factor ${asGiven(lossFactor, "number")}` : "";
  const [guide] = guides;
  const more = guides.length > 1 ? ` and ${counted(guides.length - 1, "other")}` : "";
  // A depth that comes from the modes was given by nobody.
  const depth = guide.modes ? shown(guide.depth, "length") : asGiven(guide.depth, "length");
  const filmWords =
    film === null
      ? "nothing behind it"
      : `air film ${asGiven(film.gap, "length")}, ${pair(film.edges.sides, film.edges.ends)}`;
  return [
    ...labeled(
      "Diaphragm",
      `${asGiven(across, "length")} across, ${asGiven(along, "length")} along the guide, ${asGiven(thickness, "length")} thick${stack ? ` in ${stack.layers.length} layers` : ""}, ${pair(edgeWords(edges.sides), edgeWords(edges.ends))}${loss}; ${filmWords}`,
    ),
    ...labeled(
      "Guide",
      `${asGiven(guide.at, "length")} from the middle${more}, ${depth} under the ${guide.face} face; ${asGiven(light.wavelength, "length")}, index ${asGiven(guide.optics.index, "number")}, p11 − p12 ${formatNumber(guide.optics.p11 - guide.optics.p12)}`,
    ),
    ...labeled(
      "Air",
      `${asGiven(air.temperature, "temperature")}, ${asGiven(air.pressure, "pressure")}, ${asGiven(air.humidity, "fraction")}: ${formatQuantity(air.density, "density")}, ${formatQuantity(air.viscosity, "viscosity")}`,
    ),
  ];
}

/** Where harmonics come from and when stands under "Loudest". */
function straightLines({ straightness }: Prediction): string[] {
  if (straightness === null) return [];
  const { frequency, leavesLineLevel, limit } = straightness;
  const by = limit === null ? "" : limit === "stretch" ? ", by the diaphragm's stretch" : ", by its stiffening";
  const off =
    leavesLineLevel === null
      ? "as far as was looked"
      : `off the line by 1 % at ${formatQuantity(leavesLineLevel, "decibel", { digits: 4 })}${by}`;
  return labeled("Straight", `at ${asGiven(frequency, "frequency")}: ${off}`);
}

/** What the device is before any sound, where that is worth a line. */
function restLines({ rest, bias }: Prediction): string[] {
  const [first] = bias;
  const radian = (value: number) => `${formatNumber(value, { digits: 3 })} rad`;
  const said: string[] = [];
  if (rest) said.push(`${restCause(rest)} the diaphragm by ${shown(rest.center, "length")} at its center`);
  if (first && first.load !== 0) said.push(`phase from it ${radian(first.load)}`);
  if (first && (first.stress !== 0 || first.stressPerKelvin !== 0))
    said.push(`phase from built-in stress ${radian(first.stress)}, ${radian(first.stressPerKelvin)} a kelvin`);
  return said.length === 0 ? [] : labeled("At rest", said.join("; "));
}

const restCause = ({ difference, moment }: NonNullable<Prediction["rest"]>): string => {
  const pressure = asGiven(difference, "pressure");
  if (moment === null) return `${pressure} bends`;
  return difference === 0 ? "stress of the layers bows" : `${pressure} with stress of the layers bends`;
};

const pair = (sides: string, ends: string) => (sides === ends ? sides : `sides ${sides}, ends ${ends}`);

function edgeWords(edge: Edge): string {
  return typeof edge === "string" ? edge : `held with ${asGiven(edge.rotation, "rotationStiffness")}`;
}

function sensitivityLines({ sensitivity }: Prediction): string[] {
  const { best, nulls } = sensitivity;
  const none = nulls.length === 0 ? "no position without" : `none at ${positions(nulls)}`;
  return [
    ...labeled(
      "Sensitivity",
      `${shown(sensitivity.magnitude, "phaseSensitivity")} at ${asGiven(sensitivity.frequency, "frequency")}; plate alone, static ${shown(sensitivity.static, "phaseSensitivity")}`,
    ),
    ...labeled("", `best guide position ${positions([best.at])}: ${shown(best.value, "phaseSensitivity")}; ${none}`),
  ];
}

/** A symmetric pair reads as one position with both signs. */
function positions(at: readonly number[]): string {
  const sizes: string[] = [];
  for (const x of at) {
    const mirrored = at.some((other) => other !== x && Math.abs(other + x) <= 1e-9 * Math.abs(x));
    const size = formatQuantity(mirrored ? Math.abs(x) : x, "length", { digits: 3 });
    const text = mirrored ? `±${size}` : size;
    if (!sizes.includes(text)) sizes.push(text);
  }
  return sizes.join(", ");
}

/** A pole with less than this share of the output is not worth a word on one screen. */
const heardShare = 0.01;

function resonanceText({ resonance, resonances, decays }: Prediction): string {
  const pole = (one: { frequency: number; dampingRatio: number }) =>
    `${shown(one.frequency, "frequency")}, damping ratio ${dampingRatioText(one.dampingRatio)}`;
  const slowest = decays[0] === undefined ? "" : `, slowest decay ${formatNumber(decays[0].rate)} 1/s`;
  const { frequency, dampingRatio, overdamped } = resonance;
  if (overdamped) {
    const pair = frequency === null || dampingRatio === null ? "" : `; as a pair ${pole({ frequency, dampingRatio })}`;
    return `no oscillating pole: overdamped${slowest}${pair}`;
  }
  if (frequency === null || dampingRatio === null) return "no pole found in the range looked at";
  const others = resonances.filter((one) => one.frequency !== frequency && Math.abs(one.share) >= heardShare);
  return [pole({ frequency, dampingRatio }), ...others.slice(0, 2).map((one) => `also ${pole(one)}`)].join("; ");
}

function bandText({ within, reference, level, from, to }: Prediction["band"]): string {
  if (level === null) return `none: nothing is put out at ${asGiven(reference, "frequency")}`;
  const low = from === null ? "no lower edge found" : `from ${shown(from, "frequency")}`;
  const high = to === null ? "no upper edge found" : `up to ${shown(to, "frequency")}`;
  return `${low}, ${high}: within ±${asGiven(within, "decibel")} of ${formatQuantity(level, "decibel")} re 1 rad/Pa at ${asGiven(reference, "frequency")}`;
}

/** Where the power goes, what makes the resonance, which part the end of the band hangs on. */
function partsLines({ resonance, band }: Prediction, parts: NonNullable<Prediction["parts"]>): string[] {
  const { losses, limits, corner } = parts;
  const main = parts.resonances.find(({ frequency }) => frequency === resonance.frequency);
  const lost = [
    losses.atReference && `at ${asGiven(band.reference, "frequency")} ${sharesText(losses.atReference, lossWords)}`,
    losses.atResonance && `at the resonance ${sharesText(losses.atResonance, lossWords)}`,
  ].filter((one) => one !== null);
  const told = [
    main && `the resonance is ${sharesText(main.energy, energyWords)} of its energy`,
    limits.low && `the lower end hangs on ${influenceWords[limits.low.part]}`,
    limits.top && `the upper end hangs on ${influenceWords[limits.top.part]}`,
    corner !== null && `vent corner ${shown(corner, "frequency")}`,
  ].filter((one) => typeof one === "string");
  return [
    ...(lost.length > 0 ? labeled("Losses", lost.join("; ")) : []),
    ...(told.length > 0 ? labeled("Parts", told.join("; ")) : []),
  ];
}

const vibrationText = ({ frequency, level }: { readonly frequency: number; readonly level: number }): string =>
  `1 m/s² of the frame reads as ${formatQuantity(level, "decibel", { digits: 3 })} of sound at most, at ${shown(frequency, "frequency")}`;

/** What the body does to the response, where it still answers: at the highest frequency inside the band. */
function fieldText({ response, band }: Prediction, field: NonNullable<Prediction["field"]>): string {
  const inside = response.frequency.map((frequency) => frequency <= (band.to ?? Number.POSITIVE_INFINITY));
  const i = Math.max(0, inside.lastIndexOf(true));
  const pressure = Math.hypot(response.re[i] ?? 0, response.im[i] ?? 0);
  const level = (value: number) => {
    const db = 20 * Math.log10(value / pressure);
    return `${db < 0 ? "−" : "+"}${Math.abs(db).toFixed(1)} dB`;
  };
  const free = Math.hypot(field.free.re[i] ?? 0, field.free.im[i] ?? 0);
  const mark = field.approximate ? " (approximate: a cylinder)" : "";
  return `at ${shown(response.frequency[i] ?? 0, "frequency")} ${level(free)} facing the sound, ${level(field.random[i] ?? 0)} from all sides${mark}, re the even pressure that all else is computed for`;
}

function filmText(film: Prediction["film"]): string {
  if (film === null) return "none";
  const { names, frequency, squeezeNumber, gapOverViscousLayer, knudsen } = film;
  const number = (value: number) => formatNumber(value, { digits: 2 });
  return `${names.join(", ")} at ${shown(frequency, "frequency")}: squeeze number ${number(squeezeNumber)}, gap ${number(gapOverViscousLayer)} viscous layers, Knudsen number ${number(knudsen)}`;
}

function resolutionText({ functions, filmTerms, change }: Prediction["resolution"]): string {
  return `${functions} plate functions and ${filmTerms} film terms a direction; refining changes it by ${formatNumber(change, { digits: 1 })}`;
}

function briefLines(verdict: readonly Verdict[]): string[] {
  if (verdict.length === 0) return [];
  const computed = verdict.filter(({ met }) => met !== null);
  const open = verdict.filter(({ met }) => met === null).map(({ requirement }) => requirementWords(requirement).label);
  const failed = computed.filter(({ met }) => met === false).length;
  const summary =
    computed.length === 0
      ? "nothing computed"
      : failed === 0
        ? "met as far as computed"
        : `${failed} of ${computed.length} not met`;
  return [
    "",
    `Brief: ${summary}`,
    ...computed.map(verdictLine),
    ...(open.length === 0 ? [] : hanging("  · ", `not known, so not judged: ${open.join(", ")}`, screen.width)),
  ];
}

function verdictLine(verdict: Verdict): string {
  const { requirement, asked, got, met, margin, must } = verdict;
  const { label, kind } = requirementWords(requirement);
  const text = (value: number | null) => (value === null ? "none" : shown(value, kind));
  return [
    `  ${met ? "✓" : "✗"} ${label.padEnd(28)}`,
    `asked ${text(asked)}`.padEnd(22),
    `got ${got === null ? "none" : verdictText(verdict).got}`.padEnd(22),
    `margin ${text(margin)}${must ? " (a must)" : ""}`,
  ].join("");
}

function remarkLines({ remarks }: Prediction, room: number): string[] {
  if (remarks.length === 0) return [];
  const heading = ["", "Remarks"];
  const blocks = remarks.map((remark) => problemLines([remark]));
  const all = [...heading, ...blocks.flat()];
  if (all.length <= room) return all;
  const kept: string[] = [];
  let count = 0;
  for (const block of blocks) {
    if (heading.length + kept.length + block.length + 1 > room) break;
    kept.push(...block);
    count += 1;
  }
  const left = counted(remarks.length - count, count === 0 ? "remark" : "more remark");
  return [...(count === 0 ? [""] : heading), ...kept, `${count === 0 ? "" : "  "}${left}: --json lists them all`];
}

function responseLines({ response }: Prediction): string[] {
  const rows = response.frequency.map((frequency, i) => {
    const re = response.re[i] ?? 0;
    const im = response.im[i] ?? 0;
    const magnitude = Math.hypot(re, im);
    const level = magnitude > 0 ? `${formatNumber(20 * Math.log10(magnitude))} dB` : "none";
    return [
      asGiven(frequency, "frequency").padStart(14),
      formatQuantity(magnitude, "phaseSensitivity").padStart(18),
      level.padStart(12),
      formatQuantity(Math.atan2(im, re), "angle").padStart(12),
    ].join("");
  });
  return [
    ["frequency".padStart(14), "|S|".padStart(18), "re 1 rad/Pa".padStart(12), "phase".padStart(12)].join(""),
    ...rows,
  ];
}
