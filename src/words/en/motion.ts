/** What the view of the moving diaphragm says. */
import { formatNumber, formatQuantity, thinSpace } from "../../core/quantity/format.ts";

export const motionWords = {
  title: "Deflection",
  hint: "how the diaphragm moves, and the pressure in the film behind it",
  show: "show it",
  what: "the deflection",
  of: "Moved by",
  forced: "1 Pa of sound",
  mode: (number: number) => `mode ${number} in vacuum`,
  frequency: "at",
  frequencySlide: "Frequency, low to high",
  atResonance: "at the resonance",
  phase: "Phase",
  run: "let it run",
  stop: "hold it",
  color: "Color shows",
  colors: { deflection: "deflection", pressure: "film pressure" },
  seen: "Seen as",
  seenAs: { solid: "a solid body", map: "a map" },
  turn: "Turn",
  tilt: "Tilt",
  cut: "Cut at",
  cutSlide: "Cut along the guide, from one end to the other",
  noCut: "whole",
  cutChart: "Along the cut",
  bodyKeys: "Drag turns it; arrow keys turn and tilt it, space lets it run or holds it.",
  noWebgl: "This browser draws no solid bodies (WebGL is missing), so it is shown as a map; the numbers are the same.",
  toDevice: "down is into the device",
  table: "Deflection and film pressure over the diaphragm",
  noFilm: "no film",
  badFrequency: "Needed: a frequency greater than zero, such as",
  columns: {
    x: "Across (mm)",
    y: "Along (mm)",
    deflection: "Deflection, size",
    deflectionPhase: "its phase (°)",
    pressure: "Film pressure, size (Pa/Pa)",
    pressurePhase: "its phase (°)",
  },
} as const;

/** "largest 12.3 nm/Pa, drawn 40 000 times": what is exaggerated says so. */
export function motionScale(largest: number, drawn: number, mode: boolean): string {
  if (mode) return "a shape only; a mode has no size of its own";
  const size = formatQuantity(largest, "length", { digits: 3 });
  return `largest ${size} per Pa, drawn ${formatNumber(drawn, { digits: 2 })}${thinSpace}times`;
}

/** Ends of the color scale. */
export const colorEnd = (value: number, of: "deflection" | "pressure", mode: boolean): string =>
  of === "pressure"
    ? `${formatNumber(value, { digits: 2 })}${thinSpace}Pa/Pa`
    : mode
      ? formatNumber(value, { digits: 2 })
      : `${formatQuantity(value, "length", { digits: 2 })}/Pa`;

/** What the picture shows, in a sentence. */
export function motionSays(given: {
  readonly frequency: number;
  readonly mode: number | null;
  readonly largest: number;
  readonly phase: number;
}): string {
  const frequency = formatQuantity(given.frequency, "frequency", { digits: 3 });
  if (given.mode !== null) return `Shape of mode ${given.mode} of the diaphragm in vacuum, ${frequency}.`;
  const size = formatQuantity(given.largest, "length", { digits: 3 });
  return `Diaphragm moved by 1 Pa of sound at ${frequency}: largest deflection ${size}, shown at phase ${Math.round(given.phase)}°.`;
}
