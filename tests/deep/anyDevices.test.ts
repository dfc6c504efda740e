/** Four hundred devices of any parts by every law, and the poles of eighty of them by interpolant and contour. */
import { describe, expect, test } from "vitest";
import { anyBentDevice, anyDevices } from "../whole/anyDevice.ts";
import { judgeAnyPoles, judgeDevice } from "../whole/judgeDevice.ts";
import { limitsOf, offAtLimit } from "../whole/partLimits.ts";

const devices = anyDevices(400, 10);
const judged = devices.map(({ microphone, text }, i) => ({
  text,
  law: judgeDevice(microphone, i),
  limits: limitsOf(microphone).map((limit) => ({ says: limit.says, off: offAtLimit(limit) })),
}));
const poles = devices.slice(0, 80).map(({ microphone, text }) => ({ text, poles: judgeAnyPoles(microphone) }));
const bent = Array.from({ length: 200 }, (_, i) => {
  const { microphone, text } = anyBentDevice(500_000 + i);
  return { text, law: judgeDevice(microphone, i) };
});
const worst = (values: readonly number[]) => Math.max(...values).toExponential(1);
console.log(
  `${judged.length} devices: energy ${worst(judged.map(({ law }) => law.energy))}, ` +
    `reciprocity ${worst(judged.map(({ law }) => law.reciprocity))}, ` +
    `${judged.flatMap(({ limits }) => limits).length} limits ${worst(judged.flatMap(({ limits }) => limits.map(({ off }) => off)))}, ` +
    `${poles.reduce((sum, { poles: { counted } }) => sum + counted, 0)} poles counted`,
);

describe("any device", () => {
  test.each(judged)("keeps the laws: $text", ({ law, limits }) => {
    expect(law.finite).toBe(true);
    expect(law.energy).toBeLessThan(1e-8);
    expect(law.reciprocity).toBeLessThan(1e-8);
    for (const { says, off } of limits) expect(off, says).toBeLessThan(1e-5);
  });

  test.each(bent)("keeps the laws bent at rest: $text", ({ law }) => {
    expect(law.finite).toBe(true);
    expect(law.energy).toBeLessThan(1e-8);
    expect(law.reciprocity).toBeLessThan(1e-8);
  });

  test.each(poles)("has the poles that the contour counts, and they decay: $text", ({ poles: found }) => {
    expect(found.found).toBe(found.counted);
    expect(found.leastDamping).toBeGreaterThan(-1e-12);
    expect(found.leastRate).toBeGreaterThan(0);
  });
});
