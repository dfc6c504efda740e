/** The stories run, say something, and end with numbers that other programs found. */
import { describe, expect, test } from "vitest";
import { chooseGap } from "../../examples/chooseGap.ts";
import { fitRingDown } from "../../examples/fitRingDown.ts";
import { placeGuide } from "../../examples/placeGuide.ts";
import { readResponse } from "../../examples/readResponse.ts";

/** Runs a story and keeps what it says. */
function told<T>(story: (say: (line: string) => void) => T): { readonly result: T; readonly lines: readonly string[] } {
  const lines: string[] = [];
  const result = story((line) => lines.push(line));
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) expect(line).not.toMatch(/NaN|undefined|null|Infinity/);
  return { result, lines };
}

const off = (got: number, expected: number) => Math.abs(got / expected - 1);

describe("examples", () => {
  test("the gap for a damping ratio of 0.707 is the one that spectral and finite-element solutions found", () => {
    const { result } = told(chooseGap);
    // 31.33 um: independent method, truth/poles.truth.ts, with the same air and glass. Four digits given: 5e-6 / 31.33.
    // The damping ratio 0.7071 against 0.707 moves the gap by 4e-5 of itself.
    expect(off(result.gap, 31.33e-6)).toBeLessThan(3e-4);
    expect(off(result.dampingRatio, Math.SQRT1_2)).toBeLessThan(1e-4);
  });

  test("the best place is the clamped edge, 3.03 times the center, with a null at 0.317 of the side", () => {
    const { result } = told(placeGuide);
    // <w_xx> D / (q a^2) of the clamped square, edge 0.0290580 and center -0.009578: independent method, digits given.
    expect(off(-result.best.value / result.center, 0.029058 / 0.009578)).toBeLessThan(1e-4);
    expect(result.best.at).toBeCloseTo(2.5e-3, 7);
    // Zero of the even polynomial through the same table at 0, 0.1, 0.2, 0.3, 0.4, 0.45 and 0.5 of the side: -0.009578, -0.008957,
    // -0.006672, -0.001383, 0.009367, 0.017884, 0.029058. Its own error is some 1e-4.
    expect(Math.abs(result.silent / 5e-3 - 0.31732)).toBeLessThan(3e-4);
    // Falls by 8.6 % per 1 % of the side next to the edge: 0.86 % in 5 um of 5 mm, two digits given.
    expect(off(result.lost, 0.0086)).toBeLessThan(0.006);
  });

  test("an invented ring-down reads the damping ratio that it was made with, within its interval, and is kept in a specimen", () => {
    const { result } = told(fitRingDown);
    // 0.0312 and 9,140 Hz: what the file was made with, by code that shares nothing with the fit.
    const { dampingRatio, frequency } = result.reading.values;
    for (const [{ low, high }, made] of [
      [dampingRatio, 0.0312],
      [frequency, 9140],
    ] as const)
      expect([(low ?? made) < made, made < (high ?? made)]).toEqual([true, true]);
    const kept = result.project.file.specimens?.[0]?.records?.[0]?.readings?.["dampingRatio"]?.value;
    expect(off(Number(kept), dampingRatio.value)).toBeLessThan(1e-3);
  });

  test("a project file's response rings where a third program's does", () => {
    const { result } = told(readResponse);
    // Pole of 10 mm, 0.22 mm over 0.2 mm, air of 23 degC, 50 %, no slip: independent method, truth/poles.truth.ts, digits given.
    expect(off(result.resonance.frequency ?? 0, 18654.1)).toBeLessThan(1e-4);
    expect(off(result.resonance.dampingRatio ?? 0, 0.01753)).toBeLessThan(3e-4);
    // +0.244 mrad/Pa of the 5 mm, 30 um plate (truth/phase.truth.ts, three digits), times side^3 (h / 2 - d) / h^3.
    expect(off(result.sensitivity.static, 2.44e-4 * 2 ** 3 * ((110 - 3) / (15 - 3)) * (30 / 220) ** 3)).toBeLessThan(
      2.2e-3,
    );
  });
});
