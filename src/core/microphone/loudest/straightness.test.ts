import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { phaseCurve } from "./phaseCurve.ts";
import { distortionOf, straightnessOf } from "./straightness.ts";

const edge = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null, at: 2.25e-3 });
const curve = phaseCurve(edge);

describe("the phase against pressure", () => {
  test("starts along its first terms", () => {
    const { linear, quadratic, cubic } = curve.series;
    const p = 0.01 * curve.reach;
    const series = linear * p + quadratic * p ** 2 + cubic * p ** 3;
    expect(curve.at(p) / series).toBeCloseTo(1, 6);
    expect(Math.abs(curve.at(0) / curve.at(p))).toBeLessThan(1e-6);
  });

  test("between its loads is what a load there gives", () => {
    const half = phaseCurve({ ...edge, load: { difference: 0.37 * curve.reach } });
    expect(half.atRest / curve.at(0.37 * curve.reach)).toBeCloseTo(1, 6);
  });

  test("about a static difference has the terms of the curve there", () => {
    const about = 0.2 * curve.reach;
    const there = phaseCurve({ ...edge, load: { difference: about } });
    const step = 0.005 * curve.reach;
    const slope = (curve.at(about + step) - curve.at(about - step)) / (2 * step);
    const bend = (curve.at(about + step) + curve.at(about - step) - 2 * curve.at(about)) / (2 * step ** 2);
    expect(there.series.linear / slope).toBeCloseTo(1, 3);
    expect(there.series.quadratic / bend).toBeCloseTo(1, 2);
  });

  test("harmonics of a small tone are those of the first terms", () => {
    const { linear, quadratic, cubic } = curve.series;
    const p = 0.02 * curve.reach;
    const [mean = 0, first = 0, second = 0, third = 0] = curve.harmonics(p);
    expect(first / (linear * p)).toBeCloseTo(1, 3);
    expect(mean / ((quadratic * p ** 2) / 2)).toBeCloseTo(1, 3);
    expect(second / ((quadratic * p ** 2) / 2)).toBeCloseTo(1, 3);
    expect(third / ((cubic * p ** 3) / 4)).toBeCloseTo(1, 2);
  });

  test("two guides of opposite sign at one place cancel, and have no straight line to leave", () => {
    const [guide] = edge.guides;
    const none = straightnessOf(phaseCurve({ ...edge, guides: [guide, { ...guide, weight: -1 }] }));
    expect(none.leavesLine).toBeNull();
    expect(none.limit).toBeNull();
  });
});

describe("straightness", () => {
  test("names stretch at low levels, and the pressure at which distortion is what it says", () => {
    const found = straightnessOf(curve);
    const [one, three] = found.distorted;
    expect(found.limit).toBe("stretch");
    expect(distortionOf(curve.harmonics(one?.pressure ?? 0))).toBeCloseTo(0.01, 6);
    expect(distortionOf(curve.harmonics(three?.pressure ?? 0))).toBeCloseTo(0.03, 6);
    const p = found.leavesLine ?? 0;
    expect(Math.max(...[p, -p].map((at) => Math.abs(curve.at(at) / (found.series.linear * at) - 1)))).toBeCloseTo(
      0.01,
      6,
    );
  });

  test("names stiffening where guides in both faces cancel the stretch", () => {
    const [guide] = edge.guides;
    const both = { ...edge, guides: [guide, { ...guide, face: "back" as const, weight: -1 }] as const };
    const found = straightnessOf(phaseCurve(both));
    expect(Math.abs(found.series.quadratic)).toBeLessThan(1e-9 * Math.abs(found.series.linear));
    expect(found.limit).toBe("stiffening");
  });
});
