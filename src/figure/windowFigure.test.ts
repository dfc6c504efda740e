import { parseHTML } from "linkedom";
import { expect, test } from "vitest";
import type { Held, ModeWindow } from "../core/tasks/light/modeWindow.ts";
import { paperColors } from "./colors.ts";
import { windowColumns, windowFigure } from "./windowFigure.ts";

const { document } = parseHTML("<html><body></body></html>");
const words = {
  size: "Depth (µm)",
  wavelength: "Wavelength (nm)",
  held: { 0: "no mode", 1: "one mode", 2: "several modes" },
  now: "now",
  description: "modes",
} as const;

/** One mode on a band from corner to corner, two cells wide; `known` rows from the bottom are counted. */
function band(known: number): ModeWindow {
  const axis = Array.from({ length: 20 }, (_, i) => i);
  const kind = (row: number, column: number): Held => (column > row + 1 ? 0 : column < row ? 2 : 1);
  return {
    wavelength: axis.map((i) => 400e-9 * 1.08 ** i),
    kind: "depth",
    size: axis.map((i) => 1e-6 * 1.2 ** i),
    present: { wavelength: 633e-9, size: 3e-6 },
    held: axis.flatMap((row) => axis.map((column) => (row < known ? kind(row, column) : null))),
  };
}

const drawn = (window: ModeWindow) =>
  windowFigure(window, words, { document, width: 320, height: 240, colors: paperColors }).svg;

test("each kind is named once, and no name lies on another or on the present guide's", () => {
  const texts = [...drawn(band(20)).querySelectorAll("text")].map((text) => ({
    says: text.textContent ?? "",
    x: Number(text.getAttribute("x")),
    y: Number(text.getAttribute("y")),
  }));
  const names = texts.filter(({ says }) => /mode/.test(says) || says === "now");
  expect(names.map(({ says }) => says).sort()).toEqual(["no mode", "now", "one mode", "several modes"]);
  for (const [i, a] of names.entries())
    for (const b of names.slice(i + 1)) expect(Math.hypot((a.x - b.x) / 60, (a.y - b.y) / 14)).toBeGreaterThan(0.9);
});

test("what is not counted yet is left empty, in the drawing and in the table", () => {
  expect(drawn(band(4)).querySelectorAll("[data-held]").length).toBe(2 * 4 + 6);
  const [, , held] = windowColumns(band(4), words);
  expect(held?.values.map((value) => held.text(value)).filter((text) => text === "").length).toBe(16 * 20);
});
