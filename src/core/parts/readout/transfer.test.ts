import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { idealReadout } from "./ideal.ts";
import { operatingPoint, phasePerRelativePower } from "./operating.ts";
import type { Readout } from "./readout.ts";
import { portPower, transferOf } from "./transfer.ts";

const angle = fc.double({ min: -3, max: 3, noNaN: true });
const leak = fc.double({ min: 0, max: 1, noNaN: true });
const readouts: fc.Arbitrary<Readout> = fc
  .record({
    polarizer: fc.record({ angle, leak }),
    analyzer: fc.record({ angle, leak }),
    powerRatio: fc.double({ min: 0.01, max: 100, noNaN: true }),
    wavePlate: fc.option(fc.record({ retardation: angle, angle }), { nil: null }),
    visibility: fc.double({ min: 0, max: 1, noNaN: true }),
    kind: fc.constantFrom("polarimetric" as const, "interferometric" as const),
  })
  .map((change) => ({ ...idealReadout, ...change }));

describe("transfer curve", () => {
  test("both ports hold all the light at every phase, and neither less than none", () => {
    fc.assert(
      fc.property(readouts, angle, (readout, phase) => {
        const { first, second } = transferOf(readout);
        const [one, two] = [portPower(first, phase), portPower(second, phase)];
        expect(one + two).toBeCloseTo(1, 12);
        expect(Math.min(one, two)).toBeGreaterThan(-1e-12);
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  test("slope and curvature are the derivatives of the output", () => {
    fc.assert(
      fc.property(readouts, angle, (readout, bias) => {
        const transfer = transferOf(readout);
        const output = (phase: number) => operatingPoint(transfer, "both", phase).output;
        const point = operatingPoint(transfer, "both", bias);
        expect((output(bias + 1e-5) - output(bias - 1e-5)) / 2e-5).toBeCloseTo(point.slope, 8);
        expect((output(bias + 1e-3) - 2 * output(bias) + output(bias - 1e-3)) / 1e-6).toBeCloseTo(point.curvature, 5);
      }),
      { numRuns: 100, seed: 7 },
    );
  });

  test("a readout in its null has no phase that a change of power imitates", () => {
    const point = { ...operatingPoint(transferOf(idealReadout), "both", 0), slope: 0 };
    expect(phasePerRelativePower(point, idealReadout)).toBeNull();
  });

  test("dividing by the power leaves only what the rejection leaves", () => {
    const readout = { ...idealReadout, rejection: 0.03 };
    const point = operatingPoint(transferOf(readout), "both", 1);
    const plain = phasePerRelativePower(point, readout) ?? 0;
    const divided = phasePerRelativePower(point, { ...readout, normalized: true }) ?? 0;
    expect(divided).toBeCloseTo(0.03 / Math.sin(1), 12);
    expect(plain).toBeCloseTo(Math.hypot(Math.cos(1), 0.03) / Math.sin(1), 12);
  });
});
