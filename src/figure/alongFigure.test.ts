import { parseHTML } from "linkedom";
import { expect, test } from "vitest";
import { drain } from "../core/numerics/progress.ts";
import { demoText } from "../core/project/demo.ts";
import { loadProject } from "../core/project/load.ts";
import { cut } from "../core/tasks/chart/cut.ts";
import { alongFigure, sayAlong } from "./alongFigure.ts";
import { paperColors } from "./colors.ts";
import { displayUnit } from "./displayUnit.ts";
import { planeFigure } from "./planeFigure.ts";
import { planeLines } from "./planeLines.ts";

const { document } = parseHTML("<html><body></body></html>");
const room = { document, width: 600, height: 300, colors: paperColors };
const axis = (path: string, label: string) => ({
  path,
  label,
  kind: "length" as const,
  from: 1e-3,
  to: 16e-3,
  values: [1, 2, 4, 8, 16].map((one) => one * 1e-3),
});
const columns = [0, 1, 2, 3, 4];
const over = (of: (i: number, j: number) => number) => columns.flatMap((j) => columns.map((i) => of(i, j)));
const none = over(() => 0).map(() => null);
/** Sensitivity doubles from column to column; one requirement is met right of the middle, another in the lower half. */
const plane = {
  x: axis("microphone.diaphragm.across", "Side"),
  y: axis("microphone.diaphragm.along", "Other side"),
  measures: {
    sensitivity: over((i) => 1e-3 * 2 ** i),
    resonance: none,
    damping: none,
    bandFrom: none,
    bandTo: none,
    noise: none,
    loudest: none,
    vibration: none,
    strength: none,
  },
  reserves: { "brief.sensitivity.atLeast": over((i) => i - 2), "brief.noise.atMost": over((_, j) => 2 - j) },
  least: over((i, j) => Math.min(i - 2, 2 - j)),
  state: over(() => 1) as 1[],
  tied: [],
  here: { x: 4e-3, y: 4e-3 },
  worstEstimate: 0,
  route: { spanned: 0, fallBack: 0 },
};

test("the region's edges are the limits of the requirements, and lines reach the ends of the axes", () => {
  const lines = planeLines(plane, ["sensitivity"]);
  const [ring] = lines.region;
  expect(lines.region).toHaveLength(1);
  const [u, v] = [0, 1].map((k) => ring?.map((point) => point[k as 0 | 1]) ?? []);
  expect([Math.min(...u!), Math.max(...u!), Math.min(...v!), Math.max(...v!)]).toEqual([
    expect.closeTo(0.5, 2),
    expect.closeTo(1, 2),
    expect.closeTo(0, 2),
    expect.closeTo(0.5, 2),
  ]);
  expect(lines.edges.map(({ requirement }) => requirement)).toEqual([
    "brief.sensitivity.atLeast",
    "brief.noise.atMost",
  ]);
  const level = lines.families[0]?.levels.find((one) => one.level === 5e-3)?.lines[0] ?? [];
  // 5 lies log2(5) columns from 1, of four.
  expect(level.every(([across]) => Math.abs(across - Math.log2(5) / 4) < 1e-9)).toBe(true);
  expect(Math.max(...level.map((point) => point[1]))).toBeCloseTo(1, 9);
  expect(Math.min(...level.map((point) => point[1]))).toBeCloseTo(0, 9);
});

test("a plane is drawn with its limits named and kept designs in it, and a place is read back", () => {
  const lines = planeLines(plane, ["sensitivity"]);
  const figure = planeFigure({
    ...room,
    plane,
    lines,
    here: { x: 4e-3, y: 4e-3 },
    kept: [{ name: "mine", x: 8e-3, y: 2e-3 }],
  });
  const said = [...figure.svg.querySelectorAll("text")].map((one) => one.textContent);
  expect(said).toEqual(expect.arrayContaining(["Side (mm)", "Other side (mm)", "sensitivity at least", "mine"]));
  const at = figure.placeOf(8e-3, 2e-3);
  expect(figure.valueAt(at.x, at.y)).toEqual({ x: expect.closeTo(8e-3, 9), y: expect.closeTo(2e-3, 9) });
});

test("where there is no such microphone the plane is hatched and says so", () => {
  const bent = { ...plane, state: over((i, j) => (i > 1 && j < 3 ? 2 : 1)) as (1 | 2)[] };
  const figure = planeFigure({ ...room, plane: bent, lines: planeLines(bent, []), here: null });
  expect(figure.svg.querySelector(".without")?.getAttribute("d")).toMatch(/^M/);
  expect([...figure.svg.querySelectorAll("text")].map((one) => one.textContent)).toContain("no such microphone");
});

test("a curve goes along a value in its own unit, with what is required and a kept design's curve", () => {
  const loaded = loadProject(demoText);
  if (!loaded.ok) throw new Error("the demo does not load");
  const found = drain(
    cut(loaded.value, { path: "air.temperature", from: 283.15, to: 303.15, scale: "linear", count: 3 }),
  );
  if (!found.ok) throw new Error(found.problems[0]?.message);
  const verdict = [{ requirement: "brief.damping.atLeast", asked: 0.4, got: 0.5, met: true, margin: 0.1, must: false }];
  const kept = [{ name: "mine", cut: found.value }];
  const figure = alongFigure({ cut: found.value, measure: "damping", here: null, verdict, now: "now", kept }, room);
  const said = [...figure.svg.querySelectorAll("text")].map((one) => one.textContent);
  expect(said).toEqual(expect.arrayContaining(["Air temperature (°C)", "required: at least 0.4", "now", "mine", "20"]));
  expect(figure.curve.x).toEqual([10, 20, 30].map((value) => expect.closeTo(value, 9)));
  expect(sayAlong(found.value, "damping")(20, 0.5)).toBe("20.0\u202f°C: 0.500");
});

test("an axis takes the unit that leaves a number of one or more", () => {
  expect(displayUnit("length", 38e-6)).toEqual({ name: "µm", per: expect.closeTo(1e-6, 12), zero: 0 });
  expect(displayUnit("temperature", 296.15)).toEqual({ name: "°C", per: expect.closeTo(1, 9), zero: 273.15 });
  expect(displayUnit("number", 3)).toEqual({ name: "", per: 1, zero: 0 });
});
