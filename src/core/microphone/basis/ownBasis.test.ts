import { describe, expect, test } from "vitest";
import { engineDevices } from "../../../../tests/engine/engineDevices.ts";
import { complex } from "../../numerics/complex.ts";
import { createEngine, floorShare, lineOf, shapeEntry } from "../engine.ts";
import { firstOmega } from "../poles/shapePoles.ts";
import { readCurve } from "../response/curve.ts";
import { coupledSystem, responseAt } from "../system/coupled.ts";
import { ownAnswer } from "./ownBasis.ts";

const devices = engineDevices(8, 99, { tension: true, lossFactor: 1e-4 });

describe.each(devices)("a device asked for once: $says", ({ microphone }) => {
  const entry = shapeEntry(createEngine(), microphone);
  const line = lineOf(entry, microphone);
  const system = coupledSystem(entry.prepared, microphone);
  const to = (2.2 * firstOmega(entry, microphone)) / (2 * Math.PI);
  const floor = floorShare * Math.abs(line.static);

  test.each([1e-4, 1e-6])("its curve is the whole basis's to %f, the largest of its peaks included", (tolerance) => {
    const { curve, checked } = ownAnswer(system, line, { from: 10, to, floor, tolerance })!;
    expect(curve.converged && checked <= tolerance).toBe(true);
    const fine = Float64Array.from({ length: 2000 }, (_, i) => 10 + ((to - 10) * i) / 1999);
    const sizes = readCurve(curve, fine);
    const peak = fine.reduce(
      (best, frequency, i) => {
        const size = Math.hypot(sizes.re[i]!, sizes.im[i]!);
        return size > best.size ? { frequency, size } : best;
      },
      { frequency: 10, size: 0 },
    );
    const at = Float64Array.of(10, 30, 100, 300, 0.1 * to, 0.35 * to, 0.55 * to, 0.77 * to, 0.92 * to, peak.frequency);
    const read = readCurve(curve, at);
    at.forEach((frequency, i) => {
      const { re, im } = responseAt(system, line, complex(2 * Math.PI * frequency));
      const off = Math.hypot(read.re[i]! - re, read.im[i]! - im) / Math.max(Math.hypot(re, im), floor);
      expect(off, `at ${frequency.toFixed(0)} Hz`).toBeLessThanOrEqual(tolerance);
    });
  });
});
