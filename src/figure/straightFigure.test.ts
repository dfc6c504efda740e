import { parseHTML } from "linkedom";
import { expect, test } from "vitest";
import { paperColors } from "./colors.ts";
import { type Straight, sayStraight, straightFigure, straightTable } from "./straightFigure.ts";

const { document } = parseHTML("<html><body></body></html>");
const pressure = [-2000, -1000, 0, 1000, 2000];
const straight: Straight = {
  series: { linear: 1e-3, quadratic: 1e-7, cubic: 0 },
  leavesLine: 100,
  leavesLineLevel: 131,
  distorted: [
    { share: 0.01, pressure: 200 },
    { share: 0.03, pressure: 600 },
  ],
  distortedLevel: [137, 146.5],
  limit: "stretch",
  center: 3e-6,
  reach: 2000,
  curve: { pressure, phase: pressure.map((p) => 1e-3 * p + 1e-7 * p * p), line: pressure.map((p) => 1e-3 * p) },
  frequency: 1000,
};

test("the curve and its line are named, and the two places where it is no longer straight are marked", () => {
  const { svg } = straightFigure(straight, { document, width: 500, height: 280, colors: paperColors });
  const said = svg.textContent ?? "";
  for (const text of [
    "phase",
    "line",
    "1 % off",
    "3 % distortion",
    "Pressure across the diaphragm (kPa)",
    "Phase (rad)",
  ])
    expect(said).toContain(text);
});

test("a curve that stays straight has no marks", () => {
  const none = { ...straight, leavesLine: null, distorted: [{ share: 0.03, pressure: null }] };
  const { svg } = straightFigure(none, { document, width: 500, height: 280, colors: paperColors });
  expect(svg.textContent).not.toContain("distortion");
});

test("its numbers can be read", () => {
  expect(sayStraight(300, 0.0979).replace(/\u202f/g, " ")).toBe("300 Pa: 97.9 mrad");
  expect(straightTable(straight).map(({ values }) => values[4])).toEqual([2000, 2.4, 2]);
});
