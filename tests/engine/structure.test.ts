/** What the reduced basis must keep: reciprocity, passivity; and how shapes are kept, dropped and sent to workers. */
import { describe, expect, test } from "vitest";
import { reducedSystem, setReducedFrequency, solveReduced } from "../../src/core/microphone/basis/reduced.ts";
import { bytesOf, createEngine, type Engine, engineAnswer, shapeEntry } from "../../src/core/microphone/engine.ts";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { enginePoles, poleBasisOf } from "../../src/core/microphone/poles/shapePoles.ts";
import { coupledSystem, setFrequency, solveLoad } from "../../src/core/microphone/system/coupled.ts";
import { type Complex, complex } from "../../src/core/numerics/complex.ts";
import type { ComplexVector } from "../../src/core/numerics/complexSymmetric.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { engineDevices, withGap } from "./engineDevices.ts";
import { firstFrequency } from "./judgeEngine.ts";

/** One of each kind of film, the first of them stretched. */
const devices = engineDevices(4, 21, { tension: true });

function knownEngine(microphone: Microphone): Engine {
  const engine = createEngine();
  engineAnswer(engine, microphone, question(engine, microphone, "exact"));
  engineAnswer(engine, microphone, question(engine, microphone, "quick"));
  return engine;
}

const question = (engine: Engine, microphone: Microphone, manner: "exact" | "quick") => ({
  from: 10,
  to: 2.2 * firstFrequency(engine, microphone),
  tolerance: 1e-7,
  manner,
});

const along = (force: Float64Array, { re, im }: ComplexVector): Complex =>
  force.reduce((sum, value, i) => complex(sum.re + value * re[i]!, sum.im + value * im[i]!), complex(0));

const real = (force: Float64Array): ComplexVector => ({ re: force, im: new Float64Array(force.length) });

describe.each(devices)("at fifty random gaps, frequencies and forces: $says", ({ microphone }) => {
  const engine = knownEngine(microphone);
  const entry = shapeEntry(engine, microphone);
  const first = 2 * Math.PI * firstFrequency(engine, microphone);
  const bases = [
    { name: "of the response", basis: entry.response!.basis },
    { name: "of the poles", basis: poleBasisOf(entry, microphone) },
  ];

  test.each(bases)("the basis $name answers at A to a force at B as at B to a force at A", ({ basis }) => {
    const uniform = seededUniform(5);
    for (let i = 0; i < 50; i++) {
      const system = reducedSystem(basis, withGap(microphone, 5e-6 * 100 ** uniform()));
      const a = Float64Array.from({ length: basis.count }, () => uniform() - 0.5);
      const b = Float64Array.from({ length: basis.count }, () => uniform() - 0.5);
      setReducedFrequency(system, complex(first * 3 * uniform()));
      const toA = solveReduced(system, real(a));
      const toB = solveReduced(system, real(b));
      const [there, back] = [along(b, toA), along(a, toB)];
      const size = Math.sqrt(
        Math.hypot(along(a, toA).re, along(a, toA).im) * Math.hypot(along(b, toB).re, along(b, toB).im),
      );
      expect(Math.hypot(there.re - back.re, there.im - back.im)).toBeLessThan(1e-9 * size);
    }
  });

  test.each(bases)("the basis $name takes power from every force, with loss in the plate and without", ({ basis }) => {
    const uniform = seededUniform(6);
    for (let i = 0; i < 50; i++) {
      const lossFactor = i % 2 === 0 ? 0 : 0.02 * uniform();
      const there = withGap(microphone, 5e-6 * 100 ** uniform());
      const system = reducedSystem(basis, { ...there, diaphragm: { ...there.diaphragm, lossFactor } });
      const force = Float64Array.from({ length: basis.count }, () => uniform() - 0.5);
      setReducedFrequency(system, complex(first * 3 * uniform()));
      const { re, im } = along(force, solveReduced(system, real(force)));
      // Power is Re(i omega v^T q) / 2 = -omega Im(v^T q) / 2; round-off of the whole may be left.
      expect(im).toBeLessThan(1e-12 * Math.hypot(re, im));
      expect(Number.isFinite(re)).toBe(true);
    }
  });

  test("and so does the whole basis", () => {
    const uniform = seededUniform(7);
    const size = entry.prepared.plate.size;
    for (let i = 0; i < 10; i++) {
      const system = coupledSystem(entry.prepared, withGap(microphone, 5e-6 * 100 ** uniform()));
      const force = Float64Array.from({ length: size }, () => uniform() - 0.5);
      setFrequency(system, complex(first * 3 * uniform()));
      const { re, im } = along(force, solveLoad(system, force));
      expect(im).toBeLessThan(1e-12 * Math.hypot(re, im));
    }
  });
});

describe("kept shapes", () => {
  const [one, two, three] = devices.map(({ microphone }) => microphone) as [Microphone, Microphone, Microphone];

  test("stay below the byte limit: the one that was not asked for longest is dropped", () => {
    const sizes = [one, two, three].map((microphone) => {
      const engine = createEngine();
      shapeEntry(engine, microphone);
      return bytesOf(engine);
    });
    const total = sizes.reduce((sum, size) => sum + size, 0);
    const engine = createEngine({ limit: total - 1 });
    const [first, second] = [shapeEntry(engine, one), shapeEntry(engine, two)];
    // Asked for again, the first is younger than the second.
    expect(shapeEntry(engine, one)).toBe(first);
    const third = shapeEntry(engine, three);
    expect(bytesOf(engine)).toBeLessThan(total);
    expect([...engine.shapes.values()]).toEqual([first, third]);
    expect(shapeEntry(engine, two)).not.toBe(second);
  });

  test("a shape larger than the limit is kept alone", () => {
    const engine = createEngine({ limit: 1 });
    shapeEntry(engine, one);
    shapeEntry(engine, two);
    expect(engine.shapes.size).toBe(1);
  });

  test("bases made later count as well, at the next question", () => {
    const engine = createEngine();
    shapeEntry(engine, one);
    const before = bytesOf(engine);
    engineAnswer(engine, one, question(engine, one, "quick"));
    poleBasisOf(shapeEntry(engine, one), one);
    const { response, poles } = shapeEntry(engine, one);
    expect(bytesOf(engine)).toBeGreaterThan(
      before + response!.basis.plate.byteLength + poles!.all.plate.byteLength + poles!.all.film.byteLength,
    );
  });

  test("a copy that a worker would get answers the same, digit by digit", () => {
    const engine = knownEngine(one);
    poleBasisOf(shapeEntry(engine, one), one);
    const sent: Engine = structuredClone(engine);
    const moved = withGap(one, 33e-6);
    const ours = engineAnswer(engine, moved, question(engine, moved, "quick"));
    const theirs = engineAnswer(sent, moved, question(sent, moved, "quick"));
    expect(theirs.route).toBe("reduced");
    expect(theirs.curve).toEqual(ours.curve);
    expect(enginePoles(theirs.entry, moved, { upTo: 0 }).oscillating).toEqual(
      enginePoles(ours.entry, moved, { upTo: 0 }).oscillating,
    );
  });

  test("copied before any basis was made, too", () => {
    const engine = createEngine();
    shapeEntry(engine, two);
    const sent = structuredClone(engine);
    expect(engineAnswer(sent, two, question(sent, two, "exact")).curve).toEqual(
      engineAnswer(engine, two, question(engine, two, "exact")).curve,
    );
  });
});
