import { describe, expect, test } from "vitest";
import { wholeDevice, workedMicrophone } from "../../../../truth/devices.ts";
import { add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { createEngine, shapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { fitMotion } from "../poles/fitMotion.ts";
import { type MotionModel, outputOf, termsAt } from "../poles/motionModel.ts";
import { balanceTone, samples } from "./harmonicBalance.ts";
import { amplitudeOf } from "./loudest.ts";
import { motionSteps } from "./motionSteps.ts";
import { deviceAnswers, partsOf, toneAt } from "./tone.ts";

/** Duffing's spring without friction: w'' + w = N, N = -0.8 w^3. */
const swinging: MotionModel = (() => {
  const pole = complex(0, 1);
  const none = { residues: [complex(0)], constant: 0 };
  const moved = { residues: [divide(complex(1), complex(0, 2))], constant: 0 };
  const nothing = { sound: none, plate: none };
  return { poles: [pole], moved: { sound: moved, plate: moved }, slow: nothing, spring: nothing, phases: [] };
})();
const spring = 0.8;

/** Let go at w = 1. */
function released(step: number) {
  const steps = motionSteps(swinging, { stiffening: { square: 0, cube: spring }, closing: 0 }, step);
  steps.release([divide(complex(0.5), swinging.moved.sound.residues[0]!)]);
  return steps;
}

describe("steps in time", () => {
  test("keep the energy of a spring without friction", () => {
    const steps = released(0.02);
    const energy = () => {
      const { free, forced } = steps.states();
      const all = [add(free[0]!, forced[0]!)];
      const speed = outputOf(swinging.poles, swinging.moved.sound, [multiply(all[0]!, complex(0, 1))]);
      const w = steps.moved();
      return speed ** 2 / 2 + w ** 2 / 2 + (spring * w ** 4) / 4;
    };
    const before = energy();
    for (let i = 0; i < 15_000; i++) steps.advance();
    expect(energy() / before).toBeCloseTo(1, 6);
  });

  test("come closer with the third power of the step at least: the first one after a beginning is a straight line", () => {
    const at = (step: number) => {
      const steps = released(step);
      while (steps.time() < 20 - step / 2) steps.advance();
      return steps.moved();
    };
    const exact = at(0.005);
    const ratio = Math.abs(at(0.1) - exact) / Math.abs(at(0.05) - exact);
    expect(ratio).toBeGreaterThan(7);
  });

  test("end where the film closes", () => {
    const slow = { ...swinging, poles: [complex(-0.1, 1)] };
    const steps = motionSteps(slow, { stiffening: { square: 0, cube: 0 }, closing: 2 }, 0.05);
    steps.sound({ omega: 1, amplitude: complex(1) });
    let open = true;
    for (let i = 0; i < 1000 && open; i++) open = steps.advance();
    expect(open).toBe(false);
  });
});

describe("a device as a sum over poles", () => {
  const hole = { re: -2 * Math.PI * 5470.9 * 0.06886, im: 2 * Math.PI * 5470.9 };
  const plate = { re: -2 * Math.PI * 11938 * 0.13809, im: 2 * Math.PI * 11938 };
  const made = (microphone: Microphone, known: readonly Complex[]) => {
    const entry = shapeEntry(createEngine(), microphone);
    return { entry, microphone, fitted: fitMotion(entry, microphone, { from: 0.02, to: 50e3, known }) };
  };
  const whole = made(wholeDevice(0), [hole, plate]);

  test("answers as the device itself between the frequencies that it was fitted to, and has its poles", () => {
    const { entry, microphone, fitted } = whole;
    expect(fitted.error).toBeLessThan(3e-6);
    const answers = deviceAnswers(entry, microphone, partsOf(entry, microphone));
    for (const frequency of [0.3, 7, 333, 4321, 17e3]) {
      const s = complex(0, 2 * Math.PI * frequency);
      const exact = answers.at(s.im).bySound().phase[0]!;
      const got = termsAt(fitted.model.poles, fitted.model.phases[0]!.sound, s);
      expect(Math.hypot(got.re - exact.re, got.im - exact.im) / Math.hypot(exact.re, exact.im)).toBeLessThan(3e-6);
    }
    // The two of the worked case: 5.4709 kHz, 0.06886 and 11.938 kHz, 0.13809 (independent codes, eta = 0).
    for (const [frequency, ratio] of [
      [5470.9, 0.06886],
      [11938, 0.13809],
    ] as const) {
      const sizes = fitted.model.poles.map(({ re, im }) => ({
        size: Math.hypot(re, im) / (2 * Math.PI),
        ratio: -re,
        im,
      }));
      const [near] = sizes.sort((a, b) => Math.abs(a.size - frequency) - Math.abs(b.size - frequency));
      expect(near!.size / frequency).toBeCloseTo(1, 4);
      expect(near!.ratio / (2 * Math.PI * near!.size) / ratio).toBeCloseTo(1, 3);
    }
  });

  test("rings down, when the sound is faint, as the sum of its poles and residues says", () => {
    const { model } = whole.fitted;
    const omega = 2 * Math.PI * 1000;
    const steps = motionSteps(model, { stiffening: { square: 0, cube: 1e-9 }, closing: 1e-6 }, 1e-6);
    steps.stand({ omega, amplitude: complex(1e-3) }, []);
    for (let i = 0; i < 1000; i++) steps.advance();
    steps.sound(null);
    for (let i = 0; i < 500; i++) steps.advance();
    // R e^{a t} / (i omega - a), the tone at its peak; mirror images included.
    const { residues } = model.phases[0]!.sound;
    const time = 500e-6;
    const expected = model.poles.reduce((sum, pole, k) => {
      const grown = scale(complex(Math.cos(pole.im * time), Math.sin(pole.im * time)), Math.exp(pole.re * time));
      const of = (turn: number) => divide(complex(1e-3), subtract(complex(0, turn * omega), pole));
      const state = scale(add(of(1), of(-1)), 0.5);
      return sum + (pole.im === 0 ? 1 : 2) * multiply(multiply(residues[k]!, state), grown).re;
    }, 0);
    expect(steps.phases()[0]! / expected).toBeCloseTo(1, 6);
  });

  test("moves under a loud tone as the balance of its multiples says, to a hundred thousandth", () => {
    const devices = [
      { ...whole, loud: 160 },
      { ...made(workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 25e-6, at: 2.4e-3 }), []), loud: 155 },
    ];
    for (const { entry, microphone, fitted, loud } of devices) {
      const frequency = 1000;
      const parts = partsOf(entry, microphone);
      const tone = toneAt(entry, microphone, parts, frequency, 12);
      const balance = { multiples: tone.multiples, stiffening: parts.stretch.stiffening, closing: tone.closing };
      const quieter = balanceTone(balance, amplitudeOf(loud - 6), null);
      const balanced = balanceTone(balance, amplitudeOf(loud), quieter!.forces)!;
      const period = 4 * samples;
      const steps = motionSteps(fitted.model, balance, 1 / (frequency * period));
      steps.stand({ omega: 2 * Math.PI * frequency, amplitude: complex(amplitudeOf(loud)) }, balanced.forces);
      const size = Math.max(...balanced.moved.map(Math.abs));
      // Far from a straight line: a tenth of the gap and more.
      expect(balance.closing * size).toBeGreaterThan(0.08);
      let off = 0;
      for (let i = 1; i <= 2 * period; i++) {
        steps.advance();
        if (i % 4 === 0) off = Math.max(off, Math.abs(steps.moved() - balanced.moved[(i / 4) % samples]!));
      }
      expect(off / size).toBeLessThan(1e-5);
    }
  });
});
