import { parseHTML } from "linkedom";
import { describe, expect, test } from "vitest";
import { silentLimits } from "../../tests/silentLimits.ts";
import type { Prediction } from "../core/tasks/predict/prediction.ts";
import { frequencyAxis, frequencyText, linearAxis } from "./axis.ts";
import { paperColors } from "./colors.ts";
import type { Figure } from "./curveFigure.ts";
import { placeLabels, textWidth } from "./labels.ts";
import { levelFigure, phaseFigure } from "./responseFigures.ts";
import { scanFigure } from "./scanFigure.ts";

const { document } = parseHTML("<html><body></body></html>");
const room = { document, width: 640, height: 300, colors: paperColors };

/** A second-order response with a resonance at 9 kHz; the numbers only have to be drawn. */
function prediction(dampingRatio = 0.4): Prediction {
  const frequency = Array.from({ length: 200 }, (_, i) => 20 * 1000 ** (i / 199));
  const points = frequency.map((f) => {
    const r = f / 9000;
    const [re, im] = [1 - r * r, 2 * dampingRatio * r];
    const size = re * re + im * im;
    return { re: (6e-4 * re) / size, im: (-6e-4 * im) / size };
  });
  const at = Array.from({ length: 81 }, (_, i) => (i / 80 - 0.5) * 5e-3);
  return {
    response: { frequency, re: points.map(({ re }) => re), im: points.map(({ im }) => im), groupDelay: null },
    sensitivity: {
      static: -2e-4,
      frequency: 1000,
      magnitude: 6e-4,
      scan: { at, value: at.map((x) => 1e-4 - 100 * x * x) },
      best: { at: 2.5e-3, value: -5.25e-4 },
      nulls: [-1e-3, 1e-3],
    },
    field: null,
    parts: null,
    deflection: { center: 6e-9 },
    vibration: { level: [], worst: null },
    modes: [],
    resonances: [{ frequency: 9000, dampingRatio, share: 1 }],
    decays: [],
    resonance: { frequency: 9000, dampingRatio, overdamped: false },
    band: { within: 2, reference: 1000, level: -64.4, from: 20, to: 7300 },
    film: null,
    resolution: { functions: 8, filmTerms: 28, change: 1e-7, samples: 20, curveError: 1e-8, route: "whole" },
    time: null,
    straightness: null,
    rest: null,
    bias: [],
    ...silentLimits,
    verdict: [
      { requirement: "brief.band.from", asked: 50, got: 20, met: true, margin: 30, must: true },
      { requirement: "brief.band.to", asked: 7000, got: 7300, met: true, margin: 300, must: true },
    ],
    cards: {},
    remarks: [],
  };
}

const texts = ({ svg }: Figure): string[] => [...svg.querySelectorAll("text")].map((one) => one.textContent ?? "");

describe("the level figure", () => {
  test("names what it draws: axes with units, the resonance, the requirement", () => {
    const said = texts(levelFigure(prediction(), room));
    expect(said).toContain("Level re 1 mrad/Pa (dB)");
    expect(said).toContain("Frequency (Hz)");
    expect(said.join("|")).toMatch(/9\.00.kHz, ζ 0\.400/);
    expect(said.join("|")).toMatch(/required: 50.Hz to 7.kHz within ±2.dB/);
  });

  test("needs no style sheet, and names no class or id that a page could mistake", () => {
    const { svg } = levelFigure(prediction(), room);
    expect(svg.querySelector("style")).toBeNull();
    expect(svg.getAttribute("xmlns")).toBe("http://www.w3.org/2000/svg");
    expect(svg.getAttribute("aria-label")).toContain("within ±2");
  });

  test("a null of the response is a gap, not a line to the bottom", () => {
    const { response, ...rest } = prediction();
    const [re, im] = [[...response.re], [...response.im]];
    re[100] = 0;
    im[100] = 0;
    const { svg } = levelFigure({ ...rest, response: { ...response, re, im } }, room);
    const path =
      svg.querySelector(".curve-1 path")?.getAttribute("d") ?? svg.querySelector(".curve-1")?.outerHTML ?? "";
    expect(path).not.toMatch(/NaN|Infinity/);
    expect(path.split("M").length).toBe(3);
  });

  test("an overdamped response has no marker, and still a curve", () => {
    const { svg } = levelFigure(
      {
        ...prediction(),
        resonance: { frequency: 9000, dampingRatio: 1.4, overdamped: true },
      },
      room,
    );
    expect(svg.querySelectorAll("circle").length).toBe(0);
    expect(svg.querySelector(".curve-1")).not.toBeNull();
  });

  test("the text keeps its size on a narrow page, and there are fewer ticks", () => {
    const wide = texts(levelFigure(prediction(), { ...room, width: 900 })).length;
    const narrow = levelFigure(prediction(), { ...room, width: 280 });
    expect(texts(narrow).length).toBeLessThan(wide);
    expect(narrow.svg.getAttribute("font-size")).toBe("12");
  });
});

describe("the phase figure", () => {
  test("a lag of half a turn is drawn from 0 to −180°", () => {
    const said = texts(phaseFigure(prediction(0.05), room));
    expect(said).toContain("−180");
    expect(said).toContain("Phase (°)");
  });
});

describe("the scan figure", () => {
  test("marks where the guide lies and where the best position is", () => {
    const said = texts(scanFigure(prediction(), { at: [1.7e-3], reach: 2.5e-3 }, room)).join("|");
    expect(said).toContain("Guide position (mm)");
    expect(said).toContain("Static sensitivity (µrad/Pa)");
    expect(said).toMatch(/best −525.µrad\/Pa/);
    expect(said).toMatch(/−200.µrad\/Pa/);
    expect(said).toContain("guide");
  });

  test("a guide at the best position is marked once", () => {
    const said = texts(scanFigure(prediction(), { at: [2.5e-3], reach: 2.5e-3 }, room)).join("|");
    expect(said).not.toContain("best");
  });
});

describe("axes", () => {
  test("frequencies read as people say them", () => {
    expect([20, 500, 1000, 2500, 20000, 2e6].map(frequencyText)).toEqual(["20", "500", "1k", "2.5k", "20k", "2M"]);
  });

  test("a short axis labels decades, a long one 1, 2, 5", () => {
    expect(frequencyAxis([10, 10000], 600).ticks).toEqual([10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000]);
    expect(frequencyAxis([10, 10000], 160).ticks).toEqual([10, 100, 1000, 10000]);
  });

  test("a linear axis ends on ticks and drops empty zeros", () => {
    const axis = linearAxis("", [-0.0021, 0.0007], { count: 4, per: 1e-3 });
    expect(axis.ticks.map(axis.tickText)).toEqual(["−3", "−2", "−1", "0", "1"]);
  });

  test("a range to its very ends has at least three labels", () => {
    expect(linearAxis("Pressure (kPa)", [-4.9, 4.9], { count: 4, tight: true }).ticks).toEqual([-4, -2, 0, 2, 4]);
    expect(linearAxis("Time (µs)", [0, 330], { count: 3, tight: true }).ticks).toEqual([0, 100, 200, 300]);
  });

  test("a range of no width still has an axis", () => {
    expect(linearAxis("", [2, 2], { count: 4 }).domain).toEqual([1, 3]);
  });
});

describe("labels", () => {
  const frame = { left: 0, top: 0, right: 400, bottom: 200 };
  const flat = [Array.from({ length: 41 }, (_, i) => ({ x: i * 10, y: 100 }))];

  test("never lie on the curve, nor on each other", () => {
    const wanted = [100, 110, 120].map((x) => ({ text: "8.6 kHz", x, y: 100, size: 12, sides: ["right"] as const }));
    const boxes = placeLabels(wanted, { frame, traces: flat }).map(({ box }) => box);
    for (const [i, a] of boxes.entries()) {
      expect(a.bottom < 100 || a.top > 100).toBe(true);
      for (const b of boxes.slice(i + 1))
        expect(a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top).toBe(true);
    }
  });

  test("stay inside the frame at its corner", () => {
    const [one] = placeLabels([{ text: "8.6 kHz, ζ 0.66", x: 396, y: 4, size: 12, sides: ["right"] }], {
      frame,
      traces: [],
    });
    expect(one?.box.right).toBeLessThanOrEqual(400);
    expect(one?.box.top).toBeGreaterThanOrEqual(0);
  });

  test("a longer text is wider", () => {
    expect(textWidth("resonance", 12)).toBeGreaterThan(textWidth("band", 12));
  });
});
