/**
 * Are all poles found? The search against the argument principle on the whole system, which knows nothing of starts and bases;
 * the engine's poles, read from the shape's own basis, against the polished ones. All forty devices are in tests/deep.
 */
import { afterAll, describe, expect, test } from "vitest";
import { createEngine, shapeEntry } from "../../src/core/microphone/engine.ts";
import { polesInside } from "../../src/core/microphone/poles/countPoles.ts";
import { oscillatingPoles } from "../../src/core/microphone/poles/oscillatingPoles.ts";
import { reducedModel, wholeModel } from "../../src/core/microphone/poles/poleModel.ts";
import { findPoles } from "../../src/core/microphone/poles/poles.ts";
import { enginePoles, poleBasisOf } from "../../src/core/microphone/poles/shapePoles.ts";
import { prepare } from "../../src/core/microphone/system/prepare.ts";
import { absolute, complex, subtract } from "../../src/core/numerics/complex.ts";
import { bendingStiffness } from "../../src/core/parts/diaphragm/shape.ts";
import { workedMicrophone } from "../../truth/devices.ts";
import { engineDevices } from "./engineDevices.ts";
import { firstFrequency } from "./judgeEngine.ts";
import { countedBelow, type JudgedPoles, judgePoles, polesSummary } from "./judgePoles.ts";

describe("the search finds as many poles as the contour counts, and the engine has them to 1e-6", () => {
  const judged: JudgedPoles[] = [];

  afterAll(() => console.log(polesSummary(judged)));

  // Every fifth goes through all four kinds of film.
  test.each(engineDevices(40, 11).filter((_, i) => i % 5 === 0))("$says", ({ microphone }) => {
    const result = judgePoles(microphone);
    judged.push(result);
    expect(result.found).toBe(result.counted);
    for (const off of [...result.engineOff, ...result.realOff]) expect(off).toBeLessThanOrEqual(1e-6);
    expect(result.more).toBe(0);
  });
});

describe("a pole that is missed is noticed", () => {
  const { microphone } = engineDevices(1, 11)[0]!;
  const prepared = prepare(microphone);

  test("taken out of the list, the contour counts it, and its sum says where it lies", () => {
    const { oscillating, upTo, basis } = findPoles(prepared, microphone);
    expect(oscillating.length).toBeGreaterThan(3);
    // In the basis of the search, as the search does: hundreds of film factors blur the sum of the whole system, not its count.
    const inside = polesInside(reducedModel(prepared, basis, microphone), { upTo, below: countedBelow });
    expect(inside.count).toBe(oscillating.length);
    for (const left of oscillating) {
      const rest = oscillating
        .filter((pole) => pole !== left)
        .reduce((sum, { omega }) => subtract(sum, omega), inside.sum);
      // "To about a per cent of the sector's size": countPoles.ts.
      expect(absolute(subtract(rest, left.omega))).toBeLessThan(0.02 * 2 * Math.PI * upTo);
    }
  });

  test("left without starts, the search misses some; counting finds all of them", () => {
    const engine = createEngine();
    const entry = shapeEntry(engine, microphone);
    const top = 2 * Math.PI * 3.99 * firstFrequency(engine, microphone);
    const model = reducedModel(entry.prepared, poleBasisOf(entry, microphone), microphone);
    const expected = findPoles(prepared, microphone).oscillating.filter(({ omega }) => absolute(omega) < top);
    const sparse = oscillatingPoles(model, top, { density: 0.25 });
    const counted = oscillatingPoles(model, top, { density: 0.25, counted: true });
    expect(sparse.length).toBeLessThan(expected.length);
    expect(counted.length).toBe(expected.length);
  });
});

/** Clamped square in vacuum, even in both directions, omega a^2 sqrt(m / D); Leissa 1969 prints 35.99, 131.64 and 132.25 (from memory). */
const square = [35.9852, 131.5808, 132.2048];

describe("twins of the square", () => {
  test("in vacuum they are half a per cent apart, and both are found by either route", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: null });
    const { diaphragm } = microphone;
    const entry = shapeEntry(createEngine(), microphone);
    const unit =
      diaphragm.across ** 2 * Math.sqrt((diaphragm.density * diaphragm.thickness) / bendingStiffness(diaphragm).d11);
    for (const { oscillating } of [
      findPoles(entry.prepared, microphone),
      enginePoles(entry, microphone, { upTo: 0 }),
    ]) {
      const found = oscillating.map(({ omega }) => absolute(omega) * unit);
      expect(found.length).toBe(3);
      // Half a unit of the last digit printed.
      square.forEach((value, i) => {
        expect(Math.abs(found[i]! - value)).toBeLessThan(1e-4);
      });
    }
  });

  test("an open film leaves them two, and gives them different damping", () => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 100e-6 });
    const prepared = prepare(microphone);
    const { oscillating, upTo } = findPoles(prepared, microphone);
    const twins = oscillating.filter(({ frequency }) => frequency > 0.85 * upTo && frequency < 0.95 * upTo);
    expect(twins.length).toBe(2);
    expect(polesInside(wholeModel(prepared, microphone), { upTo, below: countedBelow }).count).toBe(oscillating.length);
    expect(absolute(subtract(twins[0]!.omega, twins[1]!.omega))).toBeGreaterThan(1e-3 * absolute(twins[0]!.omega));
  });
});

describe("where an open film overdamps the plate, the pair has met on the imaginary axis: between 27 and 28 um", () => {
  const gaps = [28.2e-6, 27e-6, 20e-6, 10e-6];
  const engine = createEngine();

  test.each(gaps)("gap %f m, by the search and by the engine", (gap) => {
    const microphone = workedMicrophone({ across: 5e-3, thickness: 30e-6, gap });
    const entry = shapeEntry(engine, microphone);
    const model = wholeModel(entry.prepared, microphone);
    const slow = findPoles(entry.prepared, microphone);
    const fast = enginePoles(entry, microphone, { upTo: 0 });
    for (const { oscillating, real } of [slow, fast]) {
      const lowest = oscillating[0];
      if (gap > 28e-6) expect(lowest?.dampingRatio).toBeGreaterThan(0.9);
      else {
        expect((lowest?.dampingRatio ?? 0) < 0.9 && real.length > 0).toBe(true);
        // At the pole the whole system is singular: its smallest pivot changes sign there.
        const rate = real[0]!.rate;
        const sign = (at: number) => {
          model.set(complex(0, at));
          return model.work.pivotRe.filter((pivot) => pivot < 0).length;
        };
        expect(Math.abs(sign(rate * (1 + 1e-5)) - sign(rate * (1 - 1e-5)))).toBe(1);
      }
    }
    slow.real.slice(0, 2).forEach(({ rate }, i) => {
      expect(Math.abs(fast.real[i]!.rate / rate - 1)).toBeLessThan(1e-6);
    });
  });
});
