import { describe, expect, test } from "vitest";
import { levelsDb, unwrappedPhase } from "./complexCurve.ts";

describe("levels", () => {
  test("a factor of ten is 20 dB whatever the phase, and nothing has no level", () => {
    const levels = levelsDb({ re: [1e-3, 0, 6e-3, 0], im: [0, -1e-2, 8e-3, 0] }, 1e-3);
    expect(levels[0]).toBeCloseTo(0, 12);
    expect(levels[1]).toBeCloseTo(20, 12);
    expect(levels[2]).toBeCloseTo(20, 12);
    expect(levels[3]).toBeNull();
  });
});

describe("unwrapped phase", () => {
  test("a delay is a straight line through many turns", () => {
    const turns = Array.from({ length: 200 }, (_, i) => -0.3 * i);
    const phase = unwrappedPhase({ re: turns.map(Math.cos), im: turns.map(Math.sin) });
    for (const [i, expected] of turns.entries()) expect(phase[i]).toBeCloseTo(expected, 10);
  });

  test("an inverted start stays within half a turn", () => {
    expect(unwrappedPhase({ re: [-1, -1], im: [1e-9, -1e-9] }).map((p) => Math.round(p * 1e6))).toEqual([
      3141593, 3141593,
    ]);
  });
});
