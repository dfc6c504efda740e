/** The response over frequency: its level with the requirement drawn in, and its phase. */
import { levelsDb, unwrappedPhase } from "../core/numerics/complexCurve.ts";
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Prediction, Verdict } from "../core/tasks/predict/prediction.ts";
import { asGiven } from "../words/asGiven.ts";
import { chartWords } from "../words/en/chartPage.ts";
import { type Axis, frequencyAxis, linearAxis } from "./axis.ts";
import type { Colors } from "./colors.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Marker, Region, View } from "./curveInput.ts";
import { margins } from "./sheet.ts";

export interface FigureRoom {
  readonly document: Document;
  /** Outer size [px]. */
  readonly width: number;
  readonly height: number;
  readonly colors: Colors;
  /** Part of the axes to look at; everything where absent. */
  readonly view?: View | undefined;
}

/** A kept design's prediction, laid over the present one under its name. */
export interface Named {
  readonly name: string;
  readonly prediction: Prediction;
}

/** What the present state is called where it is not alone. */
export const presentName = (kept: readonly Named[]): string => (kept.length > 0 ? "now" : "");

/** Points of a curve. */
export interface Points {
  readonly x: readonly number[];
  readonly y: readonly (number | null)[];
}

/** Levels are drawn re this [rad/Pa]: 1 mrad/Pa. */
const reference = 1e-3;
/** At most so far below the level at the reference frequency, so that a null does not flatten everything else [dB]. */
const deepest = 50;

/** Level over frequency [dB re 1 mrad/Pa, Hz]. */
export const levelPoints = ({ response }: Prediction): Points => ({
  x: response.frequency,
  y: levelsDb(response, reference),
});

/** Unwrapped phase over frequency [degree, Hz]. */
export const phasePoints = ({ response }: Prediction): Points => ({
  x: response.frequency,
  y: unwrappedPhase(response).map((radians) => (radians * 180) / Math.PI),
});

export function levelFigure(prediction: Prediction, room: FigureRoom, kept: readonly Named[] = []): Figure {
  const { response, band } = prediction;
  const { y: level } = levelPoints(prediction);
  const atReference = levelsDb({ re: [band.level === null ? 0 : 10 ** (band.level / 20)], im: [0] }, reference)[0] ?? 0;
  const region = bandRegion(prediction, atReference);
  const others = kept.map((one) => ({ name: one.name, ...levelPoints(one.prediction) }));
  const y = levelAxis(
    [...level, ...others.flatMap((one) => withinReach(one, response.frequency))],
    atReference,
    region,
  );
  return curveFigure({
    ...room,
    description: levelWords(prediction),
    x: sharedAxis(response.frequency, room.width),
    y,
    curves: [{ name: presentName(kept), x: response.frequency, y: level }, ...others],
    markers: resonanceMarkers(prediction, level, y),
    region,
  });
}

export function phaseFigure(prediction: Prediction, room: FigureRoom, kept: readonly Named[] = []): Figure {
  const { x, y } = phasePoints(prediction);
  const others = kept.map((one) => ({ name: one.name, ...phasePoints(one.prediction) }));
  const seen = [...y, ...others.flatMap((one) => withinReach(one, x))].filter((value) => value !== null);
  const [low, high] = extent(seen);
  const step = high - low > 720 ? 360 : high - low > 200 ? 90 : 45;
  return curveFigure({
    ...room,
    description: "Phase of the response over frequency.",
    x: sharedAxis(x, room.width),
    y: linearAxis("Phase (°)", [low, high], { count: 4, step }),
    curves: [{ name: presentName(kept), x, y }, ...others],
  });
}

/** Heights of another curve above the axis of the present one. */
function withinReach({ x, y }: Points, axis: readonly number[]): readonly (number | null)[] {
  const [low, high] = extent(axis);
  return y.filter((_, i) => (x[i] ?? 0) >= low && (x[i] ?? 0) <= high);
}

/** "1.02 kHz: −2.41 dB" */
export const sayLevel = (frequency: number, level: number | null): string =>
  `${formatQuantity(frequency, "frequency", { digits: 4 })}: ${formatNumber(level, { digits: 4 })} dB re 1 mrad/Pa`;

/** "1.02 kHz: 178.3°" */
export const sayPhase = (frequency: number, degrees: number | null): string =>
  `${formatQuantity(frequency, "frequency", { digits: 4 })}: ${formatNumber(degrees, { digits: 4 })}°`;

function sharedAxis(frequency: readonly number[], width: number): Axis {
  const [low, high] = extent(frequency);
  return frequencyAxis([low, high > low ? high : low * 10], width - margins.left - margins.right);
}

function levelAxis(level: readonly (number | null)[], atReference: number, region: Region | null): Axis {
  const [low, high] = extent(level.filter((value) => value !== null));
  const [floor, ceiling] = region === null ? [low, high] : [Math.min(low, region.y[0]), Math.max(high, region.y[1])];
  const from = Math.max(floor, atReference - deepest);
  // 30 dB at least, so that a flat response looks flat.
  const to = Math.max(ceiling + 1, from + 30);
  return linearAxis("Level re 1 mrad/Pa (dB)", [from, to], { count: 5, step: to - from > 70 ? 20 : 10 });
}

/** The band that was asked for, round the level at the reference; null where none was asked for. */
function bandRegion({ verdict, band }: Prediction, atReference: number): Region | null {
  const from = asked(verdict, "brief.band.from");
  const to = asked(verdict, "brief.band.to");
  if (from === null || to === null) return null;
  const written = (value: number) => asGiven(value, "frequency");
  return {
    x: [from, to],
    y: [atReference - band.within, atReference + band.within],
    text: `required: ${written(from)} to ${written(to)} within ±${asGiven(band.within, "decibel")}`,
    shorter: chartWords.required,
  };
}

const asked = (verdict: readonly Verdict[], requirement: string): number | null =>
  verdict.find((line) => line.requirement === requirement)?.asked ?? null;

/** The resonance, where it oscillates and lies inside the drawing. */
function resonanceMarkers({ resonance, response }: Prediction, level: readonly (number | null)[], y: Axis): Marker[] {
  const { frequency, dampingRatio, overdamped } = resonance;
  if (frequency === null || dampingRatio === null || overdamped) return [];
  const height = between(response.frequency, level, frequency);
  if (height === null || height < y.domain[0]) return [];
  const text = `${formatQuantity(frequency, "frequency", { digits: 3 })}, ζ ${formatNumber(dampingRatio, { digits: 3 })}`;
  return [{ x: frequency, y: height, text, dropped: true }];
}

/** Height of a drawn curve at x, on the straight line between its points as drawn over a logarithmic axis. */
function between(x: readonly number[], y: readonly (number | null)[], at: number): number | null {
  const i = x.findIndex((value) => value >= at);
  const [x0, x1, y0, y1] = [x[i - 1], x[i], y[i - 1], y[i]];
  if (x0 === undefined || x1 === undefined || y0 == null || y1 == null) return null;
  return y0 + ((y1 - y0) * Math.log(at / x0)) / Math.log(x1 / x0);
}

export function extent(values: readonly number[]): [number, number] {
  return values.reduce<[number, number]>(
    ([low, high], value) => [Math.min(low, value), Math.max(high, value)],
    [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
  );
}

function levelWords({ band, response }: Prediction): string {
  const [low, high] = extent(response.frequency);
  const hertz = (value: number | null) => (value === null ? "no edge" : formatQuantity(value, "frequency"));
  return `Level of the response from ${hertz(low)} to ${hertz(high)}; within ±${formatNumber(band.within)} dB from ${hertz(band.from)} to ${hertz(band.to)}.`;
}
