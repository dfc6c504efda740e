/** Limits that a reader compares with: laser classes, time under loud sound. Each standard's current edition decides. */
import { accessibleLimit } from "../src/core/parts/readout/laserClass.ts";
import { timeAllowed } from "../src/core/quantity/exposure.ts";
import type { TruthRow } from "./row.ts";

const limits: readonly (readonly [number, "1" | "2" | "3R" | "3B", number, number, string])[] = [
  [633, "1", 0.39e-3, 1e-9, "[laser-classes]"],
  [633, "2", 1e-3, 1e-9, "[laser-classes]"],
  [633, "3R", 5e-3, 1e-9, "[laser-classes]"],
  [633, "3B", 0.5, 1e-9, "[laser-classes]"],
  [840, "1", 0.743e-3, 1e-3, "[kolesar-2000]"],
  [1310, "1", 15.6e-3, 1e-3, "edition of 2007, C4 = 5, C7 = 8 (from memory, to be confirmed)"],
  [1550, "1", 10e-3, 1e-9, "from memory, to be confirmed"],
];

export const rows: readonly TruthRow[] = [
  ...limits.map(
    ([nanometers, name, expected, within, source]): TruthRow => ({
      what: `small continuous source at ${nanometers} nm, limit of class ${name} [W]`,
      got: () => accessibleLimit(nanometers * 1e-9, name)?.power ?? Number.NaN,
      expected,
      within,
      why: "digits printed",
      origin: "published",
      source,
    }),
  ),
  ...(
    [
      [85, 8],
      [94, 1],
      [100, 0.25],
    ] as const
  ).map(
    ([level, hours]): TruthRow => ({
      what: `time a day at ${level} dB(A) [h]`,
      got: () => timeAllowed(level) / 3600,
      expected: hours,
      within: 1e-9,
      why: "85 dB(A) for 8 h, halved per 3 dB",
      origin: "published",
      source: "[niosh]",
    }),
  ),
];
