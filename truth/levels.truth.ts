/** Frequency weightings, third octaves and levels. */
import { soundLevelDb } from "../src/core/quantity/kinds.ts";
import { thirdOctaves } from "../src/core/quantity/thirdOctaves.ts";
import { aWeightDb, cWeightDb, weightedPower } from "../src/core/quantity/weighting.ts";
import type { TruthRow } from "./row.ts";

const tabled = "[gost-17187], equal to IEC 61672-1:2002 table 2";
/** Nominal frequency, A and C as printed; taken at the exact frequency of the third octave. */
const table: readonly (readonly [number, number, number])[] = [
  [31.5, -39.4, -3.0],
  [63, -26.2, -0.8],
  [125, -16.1, -0.2],
  [250, -8.6, 0],
  [500, -3.2, 0],
  [1000, 0, 0],
  [2000, 1.2, -0.2],
  [4000, 1, -0.8],
  [8000, -1.1, -3],
  [16000, -6.6, -8.5],
];
const exactly = (nominal: number) =>
  thirdOctaves(20, 20000).find((band) => band.nominal === nominal)?.mid ?? Number.NaN;
const mids: readonly (readonly [number, number])[] = [
  [25, 25.11886],
  [500, 501.18723],
  [800, 794.32823],
  [1250, 1258.92541],
  [2000, 1995.26231],
  [20000, 19952.62315],
];

export const rows: readonly TruthRow[] = [
  ...table.flatMap(([nominal, a, c]): TruthRow[] =>
    (
      [
        ["A", a, () => aWeightDb(exactly(nominal))],
        ["C", c, () => cWeightDb(exactly(nominal))],
      ] as const
    ).map(([name, printed, got]) => ({
      what: `${name}-weighting at ${nominal} Hz, plus 100 dB [dB]`,
      // 100 dB added, so that a printed zero is held to its digit as well.
      got: () => 100 + got(),
      expected: 100 + printed,
      within: 0.0501 / (100 + printed),
      why: "half the printed digit",
      origin: "published" as const,
      source: tabled,
    })),
  ),
  {
    what: "white noise through A, 1 Hz to 1 MHz, equivalent bandwidth [Hz]",
    got: () => weightedPower({ from: 1, to: 1e6, density: () => 1 }),
    expected: 13462.1,
    within: 0.06 / 13462.1,
    why: "half the last digit",
    origin: "independent method",
    source: "formula of [iec-61672-1] integrated elsewhere",
  },
  {
    what: "white noise through A, 20 Hz to 20 kHz, equivalent bandwidth [Hz]",
    got: () => weightedPower({ from: 20, to: 20000, density: () => 1 }),
    expected: 12467.2,
    within: 0.06 / 12467.2,
    why: "half the last digit",
    origin: "independent method",
    source: "formula of [iec-61672-1] integrated elsewhere",
  },
  ...mids.map(
    ([nominal, mid]): TruthRow => ({
      what: `third octave of nominal ${nominal} Hz, exact middle [Hz]`,
      got: () => exactly(nominal),
      expected: mid,
      within: 0.6e-5 / mid,
      why: "half the last digit",
      origin: "exact",
      source: "1000 G^(x/3), G = 10^0.3, [iec-61260-1]",
    }),
  ),
  {
    what: "edges of a third octave over its middle [-]",
    got: () => {
      const [band] = thirdOctaves(1000, 1000);
      return band ? Math.sqrt((band.to / band.mid) * (band.mid / band.from)) : Number.NaN;
    },
    expected: 1.1220185,
    within: 4.5e-8,
    why: "half the last digit",
    origin: "exact",
    source: "G^(1/6), [iec-61260-1]",
  },
  {
    what: "third octaves from 20 Hz to 20 kHz [-]",
    got: () => thirdOctaves(20, 20000).length,
    expected: 31,
    within: 0,
    why: "a count",
    origin: "exact",
    source: "ten a decade, both ends",
  },
  {
    what: "1 Pa [dB re 20 uPa]",
    got: () => soundLevelDb(1),
    expected: 93.9794,
    within: 1e-7,
    why: "half the last digit",
    origin: "exact",
    source: "20 log10(50000)",
  },
];
