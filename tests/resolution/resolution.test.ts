/** Is the answer resolved? Twenty devices, each solved with n functions a direction, as the program chooses n, and with n + 4. */
import { afterAll, describe, expect, test } from "vitest";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { coupledSystem, readPhase, setFrequency, solveLoad } from "../../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../../src/core/microphone/system/line.ts";
import { prepare, type Resolution, resolution, resolutionFor } from "../../src/core/microphone/system/prepare.ts";
import { absolute, type Complex, complex, subtract } from "../../src/core/numerics/complex.ts";
import type { ComplexVector } from "../../src/core/numerics/complexSymmetric.ts";
import { plateModes } from "../../src/core/parts/diaphragm/modes.ts";
import { valuesAt } from "../../src/core/parts/diaphragm/polynomials.ts";
import { seededDevices } from "./seededDevices.ts";

/** Frequencies over the first resonance in vacuum. */
const places = [0.02, 0.3, 0.7, 0.95, 1.2, 1.6, 2.2];

interface Answer {
  readonly mean: Complex;
  readonly center: Complex;
  readonly phase: Complex;
}

interface Solved {
  readonly staticPhase: number;
  readonly answers: readonly Answer[];
}

function solve(microphone: Microphone, detail: Resolution, frequencies: readonly number[]): Solved {
  const prepared = prepare(microphone, detail);
  const system = coupledSystem(prepared, microphone);
  const line = prepareLine(prepared, microphone);
  const { plate } = prepared;
  const x = valuesAt(plate.across, 0).value;
  const y = valuesAt(plate.along, 0).value;
  const center = Float64Array.from({ length: plate.size }, (_, i) => {
    const row = Math.floor(i / y.length);
    return x[row]! * y[i - row * y.length]!;
  });
  return {
    staticPhase: line.static,
    answers: frequencies.map((frequency) => {
      const omega = complex(2 * Math.PI * frequency);
      setFrequency(system, omega);
      const q = solveLoad(system, plate.load);
      return {
        mean: product(plate.load, q),
        center: product(center, q),
        phase: readPhase(system, line, q, omega),
      };
    }),
  };
}

function product(row: Float64Array, { re, im }: ComplexVector): Complex {
  let [sumRe, sumIm] = [0, 0];
  for (let i = 0; i < row.length; i++) {
    sumRe += row[i]! * re[i]!;
    sumIm += row[i]! * im[i]!;
  }
  return { re: sumRe, im: sumIm };
}

/** Largest differences over the frequencies, relative to the finer answer. */
function compare(microphone: Microphone) {
  const chosen = resolutionFor(microphone);
  const { across, along } = chosen.functions;
  const finer = resolution({ across: across + 4, along: along + 4 });
  const first = plateModes(microphone.diaphragm, { functions: 8, upTo: 1 })[0]!.omega / (2 * Math.PI);
  const frequencies = places.map((place) => place * first);
  const coarse = solve(microphone, chosen, frequencies);
  const fine = solve(microphone, finer, frequencies);
  const floor = 1e-3 * Math.abs(fine.staticPhase);
  let [mean, center, phase] = [0, 0, 0];
  fine.answers.forEach((answer, i) => {
    const other = coarse.answers[i]!;
    mean = Math.max(mean, absolute(subtract(other.mean, answer.mean)) / absolute(answer.mean));
    center = Math.max(center, absolute(subtract(other.center, answer.center)) / absolute(answer.center));
    phase = Math.max(phase, absolute(subtract(other.phase, answer.phase)) / Math.max(absolute(answer.phase), floor));
  });
  return { functions: `${across} x ${along}`, mean, center, phase };
}

describe("four more functions a direction change the deflection by less than 1e-6 and the phase by less than 1e-5", () => {
  const rows: string[] = [];

  afterAll(() => console.log(rows.join("\n")));

  test.each(seededDevices(20, 20))("$says", ({ microphone, says }) => {
    const { functions, mean, center, phase } = compare(microphone);
    const digits = (value: number) => value.toExponential(1);
    rows.push(`${says}: n ${functions}, mean w ${digits(mean)}, center w ${digits(center)}, phase ${digits(phase)}`);
    expect(mean).toBeLessThan(1e-6);
    expect(center).toBeLessThan(1e-6);
    expect(phase).toBeLessThan(1e-5);
  });
});
