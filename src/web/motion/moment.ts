/** A field at one moment of its period, and the colors that show it. Values are core's; here they are only turned by the phase. */
import type { Field } from "../../core/index.ts";

/** The largest deflection is drawn as this share of the side across. */
export const drawnShare = 0.14;

export type ColorOf = "deflection" | "pressure";

/** What is shown of a field at a phase [rad]: Re(z e^{i phase}) at every point. */
export function atPhase(part: { readonly re: Float64Array; readonly im: Float64Array }, phase: number): Float64Array {
  const [cosine, sine] = [Math.cos(phase), Math.sin(phase)];
  return part.re.map((re, i) => re * cosine - part.im[i]! * sine);
}

/** Largest size of a complex field over all points and phases. */
export const largest = ({ re, im }: { readonly re: Float64Array; readonly im: Float64Array }): number =>
  re.reduce((most, value, i) => Math.max(most, Math.hypot(value, im[i]!)), 0);

export const colored = (field: Field, of: ColorOf) =>
  of === "pressure" ? (field.pressure ?? field.deflection) : field.deflection;

export type Rgb = readonly [number, number, number];

export interface Scale {
  readonly low: Rgb;
  readonly middle: Rgb;
  readonly high: Rgb;
}

/** Between low (-1), middle (0) and high (1). */
export function colorAt({ low, middle, high }: Scale, share: number): Rgb {
  const end = share < 0 ? low : high;
  const by = Math.min(Math.abs(share), 1);
  return [0, 1, 2].map((i) => middle[i]! + (end[i]! - middle[i]!) * by) as unknown as Rgb;
}

export const cssColor = ([r, g, b]: Rgb): string => `rgb(${[r, g, b].map((part) => Math.round(255 * part)).join(" ")})`;

/** The scale in the colors of the paper, which may be light or dark. */
export const paperScale = (on: Element): Scale => ({
  low: tokenColor(on, "--series-3"),
  middle: tokenColor(on, "--glass"),
  high: tokenColor(on, "--series-2"),
});

export const paperInk = (on: Element): Rgb => tokenColor(on, "--ink");

/** A token may be light-dark(): an element's own color resolves it, and a pixel gives its parts. */
function tokenColor(on: Element, name: string): Rgb {
  const pixel = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  if (pixel === null) return [0.5, 0.5, 0.5];
  const probe = document.createElement("span");
  probe.style.setProperty("color", `var(${name})`);
  (on.parentElement ?? on).append(probe);
  pixel.fillStyle = getComputedStyle(probe).color;
  probe.remove();
  pixel.fillRect(0, 0, 1, 1);
  const [r = 0, g = 0, b = 0] = pixel.getImageData(0, 0, 1, 1).data;
  return [r / 255, g / 255, b / 255];
}

/** Phase at which the center is farthest out [degrees, 0 to 359]; 0 of a mode, which has no phase of its own. */
export function phaseOfCenter(field: Field | null): number {
  if (field === null || field.parity !== null) return 0;
  const middle = (field.points ** 2 - 1) / 2;
  const lag = (-Math.atan2(field.deflection.im[middle]!, field.deflection.re[middle]!) * 180) / Math.PI;
  return Math.round((lag + 360) % 360);
}

/** An angle as -180 to 180 [degrees]. */
export const wrapped = (turn: number): number => ((((turn + 180) % 360) + 360) % 360) - 180;
