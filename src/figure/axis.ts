/** Axes: ticks for the room there is, written with the digits they need. */
import { formatNumber } from "../core/quantity/format.ts";

export interface Axis {
  readonly label: string;
  readonly scale: "linear" | "log";
  readonly domain: readonly [number, number];
  /** Ticks with a label; all ticks have a grid line. */
  readonly ticks: readonly number[];
  /** Grid lines without a label. */
  readonly minor: readonly number[];
  readonly tickText: (value: number) => string;
  /** The same axis over another range, to its very ends. */
  readonly over: (domain: readonly [number, number]) => Axis;
}

/** Width that one label of a logarithmic axis needs [px]. */
const labelRoom = 34;

/**
 * Logarithmic axis of frequencies [Hz] for an axis `length` [px] long.
 * Frequencies must be positive: the caller has refused others.
 */
export const frequencyAxis = (domain: readonly [number, number], length: number): Axis =>
  logAxis("Frequency (Hz)", domain, { length, text: frequencyText });

/** Logarithmic axis of positive values; `per`: size of the axis' unit in that of the values. */
export function logAxis(
  label: string,
  domain: readonly [number, number],
  options: { readonly length: number; readonly per?: number; readonly text?: (value: number) => string },
): Axis {
  const { length, per = 1, text = trimmed } = options;
  const [low, high] = [domain[0] / per, domain[1] / per];
  const decades = Math.log10(high / low);
  const perDecade = length / Math.max(decades, 1e-9);
  const labeled = perDecade * Math.log10(2) >= labelRoom ? [1, 2, 5] : perDecade >= 2 * labelRoom ? [1, 3] : [1];
  const within = (digits: readonly number[]): number[] => {
    const values: number[] = [];
    for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++)
      for (const digit of digits) {
        const value = digit * 10 ** power;
        if (value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9)) values.push(value);
      }
    return values;
  };
  // Less than half a decade holds too few of the round ones.
  const round = within(labeled);
  const ticks = round.length > 1 ? round : stepsBetween(low, high, length);
  const minor = within([1, 2, 3, 4, 5, 6, 7, 8, 9]).filter((value) => !ticks.includes(value));
  return {
    label,
    scale: "log",
    domain,
    ticks: ticks.map((value) => value * per),
    minor: minor.map((value) => value * per),
    tickText: (value) => text(value / per),
    over: (other) => logAxis(label, other, options),
  };
}

/** At equal distances, and two of them at least. */
function stepsBetween(low: number, high: number, length: number): number[] {
  const wanted = Math.max(2, Math.floor(length / 90));
  const between = (step: number) => {
    const first = Math.ceil(low / step - 1e-9);
    const last = Math.floor(high / step + 1e-9);
    return Array.from({ length: Math.max(last - first + 1, 0) }, (_, i) => (first + i) * step);
  };
  const usual = between(niceStep((high - low) / wanted));
  return usual.length > 1 ? usual : between(niceStep((high - low) / (2.5 * wanted)));
}

/** 20, 500, 1k, 20k, 2M. */
export function frequencyText(value: number): string {
  if (value >= 1e6) return `${trimmed(value / 1e6)}M`;
  return value >= 1e3 ? `${trimmed(value / 1e3)}k` : trimmed(value);
}

/**
 * Linear axis over at least the given range, ending on ticks. `per`: size of the axis' unit in that of the values
 * (1e-3 for millimeters where the values are meters). `step`: a fixed distance of ticks. `tight`: to the very ends.
 */
export function linearAxis(
  label: string,
  range: readonly [number, number],
  options: { readonly count: number; readonly per?: number; readonly step?: number; readonly tight?: boolean },
): Axis {
  const { count, per = 1, tight = false } = options;
  const [low, high] = range[0] === range[1] ? [range[0] - per, range[1] + per] : range;
  const wanted = niceStep((high - low) / count);
  // A range to its very ends may hold fewer round values than it has room for; two labels at least say a scale.
  const held = tight ? Math.floor(high / wanted + 1e-9) - Math.ceil(low / wanted - 1e-9) + 1 : fewest;
  const step = options.step ?? (held < fewest ? niceStep(wanted / 2.5) : wanted);
  // 5e-3: less than a line is wide is no reason for another tick.
  const first = tight ? Math.ceil(low / step - 1e-9) : Math.floor(low / step + 5e-3);
  const last = tight ? Math.floor(high / step + 1e-9) : Math.ceil(high / step - 5e-3);
  const ticks = Array.from({ length: Math.max(last - first + 1, 0) }, (_, i) => (first + i) * step);
  const domain: readonly [number, number] = tight ? [low, high] : [first * step, last * step];
  return {
    label,
    scale: "linear",
    domain,
    ticks,
    minor: [],
    tickText: (value) => trimmed(value / per),
    over: (other) => linearAxis(label, other, { count, per, tight: true }),
  };
}

/** Ticks below which an axis gets the next finer step. */
const fewest = 3;

/** 1, 2 or 5 times a power of ten, not below the wanted distance. */
export function niceStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  const digit = [1, 2, 5, 10].find((one) => one * power >= wanted * (1 - 1e-9)) ?? 10;
  return digit * power;
}

/** Without the zeros that say nothing. */
function trimmed(value: number): string {
  const text = formatNumber(Math.abs(value) < 1e-12 ? 0 : value, { digits: 6 });
  return text.includes(".") && !text.includes("×") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}
