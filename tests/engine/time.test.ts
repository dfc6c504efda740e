/**
 * Answers in time against integrals over frequency of the whole system, which know no poles.
 *
 * The time model has the poles up to some frequency and a lump for the rest. So both sides see the same low-pass first, a
 * Gaussian G of a third of that frequency, under which one is exp(-4.5) at the last pole. What is left to differ is how the lump
 * rest / (1 + i omega / restRate)^2 turns below, to the first order 2 omega / restRate = 1/3 of `rest` at the Gaussian's width:
 * that is the tolerance.
 */
import { describe, expect, test } from "vitest";
import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { findPoles } from "../../src/core/microphone/poles/poles.ts";
import {
  impulseAnswer,
  ringDown,
  stepAnswer,
  type TimeModel,
  timeModel,
  toneBurst,
} from "../../src/core/microphone/response/timeAnswers.ts";
import { coupledSystem, responseAt } from "../../src/core/microphone/system/coupled.ts";
import { prepareLine } from "../../src/core/microphone/system/line.ts";
import { prepare } from "../../src/core/microphone/system/prepare.ts";
import { type Complex, complex } from "../../src/core/numerics/complex.ts";
import { sharesOf } from "../../src/core/tasks/predict/mainResonance.ts";
import { predictMicrophone } from "../../src/core/tasks/predict/predict.ts";
import { workedMicrophone } from "../../truth/devices.ts";

interface Device {
  readonly respond: (omega: number) => Complex;
  /** S at 1e-3 Hz: with the air that a closed film traps. */
  readonly static: number;
  readonly model: TimeModel;
  readonly poles: ReturnType<typeof findPoles>;
}

function deviceOf(microphone: Microphone): Device {
  const prepared = prepare(microphone);
  const line = prepareLine(prepared, microphone);
  const system = coupledSystem(prepared, microphone);
  const respond = (omega: number) => responseAt(system, line, complex(omega));
  const poles = findPoles(prepared, microphone);
  const { withResidues } = sharesOf(poles, microphone, line);
  const output = respond(2e-3 * Math.PI).re;
  return { respond, static: output, poles, model: timeModel(withResidues, output, 2 * poles.upTo) };
}

/** Simpson's rule over an even number of steps. */
function simpson(values: readonly number[], step: number): number {
  const last = values.length - 1;
  return (
    values.reduce((sum, value, i) => sum + value * (i === 0 || i === last ? 1 : i % 2 === 1 ? 4 : 2), 0) * (step / 3)
  );
}

const steps = 1600;

/** S times the Gaussian at equal steps of omega up to 4.5 of its widths, where it is 4e-5. */
function filtered({ respond }: Device, width: number) {
  const step = (4.5 * width) / steps;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const omega = Math.max(step * i, 1e-6 * step);
    const value = respond(omega);
    const gain = Math.exp(-((omega / width) ** 2) / 2);
    return { omega, re: gain * value.re, im: gain * value.im };
  });
}

/** A function of time, zero before 0, after the same low-pass: the mean over a Gaussian of the width 1 / `width` [s]. */
function smoothed(answer: (times: readonly number[]) => number[], times: readonly number[], width: number): number[] {
  const points = 400;
  const reach = 6 / width;
  return times.map((time) => {
    // From 0, so that the corner there is an end of the integral.
    const from = Math.max(0, time - reach);
    const step = (time + reach - from) / points;
    const at = Array.from({ length: points + 1 }, (_, i) => from + step * i);
    const values = answer(at);
    return simpson(
      values.map(
        (value, i) => (value * width * Math.exp(-(((time - at[i]!) * width) ** 2) / 2)) / Math.sqrt(2 * Math.PI),
      ),
      step,
    );
  });
}

// No structural loss: a constant loss factor is not causal.
const devices = [
  {
    says: "open 30 um, guide at the center",
    microphone: workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 30e-6 }),
  },
  {
    says: "open 100 um, guide at 0.45 a",
    microphone: workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 100e-6, at: 2.25e-3 }),
  },
  {
    says: "open 15 um, overdamped",
    microphone: workedMicrophone({ across: 5e-3, thickness: 30e-6, gap: 15e-6 }),
  },
  {
    says: "closed 50 um, 60 um of glass",
    microphone: workedMicrophone({ across: 5e-3, thickness: 60e-6, gap: 50e-6, edges: "closed" }),
  },
].map(({ says, microphone }) => ({ says, microphone, device: deviceOf(microphone) }));

describe("a step", () => {
  test.each(devices)("begins at zero and ends at the static output: $says", ({ device }) => {
    const [first, last] = stepAnswer(device.model, [0, 1]);
    expect(Math.abs(first! / device.static)).toBeLessThan(1e-12);
    expect(Math.abs(last! / device.static - 1)).toBeLessThan(1e-12);
  });

  test.each(devices)("equals the inverse Fourier integral of the response: $says", ({ device }) => {
    const { model, poles } = device;
    const width = (2 * Math.PI * poles.upTo) / 3;
    const response = filtered(device, width);
    const step = response[1]!.omega - response[0]!.omega;
    const times = [0.3, 1, 2, 3, 5, 8, 13, 21, 34, 55].map((multiple) => multiple / width);
    const ours = smoothed((at) => stepAnswer(model, at), times, width);
    const largest = Math.max(
      ...times.map((time, i) => {
        // For a real h with all its memory: y = S(0) / 2 + (1 / pi) integral (S_re sin + S_im cos)(omega t) / omega.
        const integrand = response.map(({ omega, re, im }, k) =>
          k === 0
            ? re * time + response[1]!.im / response[1]!.omega
            : (re * Math.sin(omega * time) + im * Math.cos(omega * time)) / omega,
        );
        const theirs = device.static / 2 + simpson(integrand, step) / Math.PI;
        return Math.abs(ours[i]! - theirs);
      }),
    );
    expect(largest / Math.abs(device.static)).toBeLessThan(Math.abs(model.rest / device.static) / 3);
  });
});

test("the step of a prediction over a closed film ends where the trapped air lets it", () => {
  const { microphone, device } = devices.at(-1)!;
  const { time } = predictMicrophone(microphone, plainBrief, {}, []);
  expect(Math.abs(time!.step.value.at(-1)! / device.static - 1)).toBeLessThan(0.01);
});

describe("the energy of the impulse response is that of the response over frequency", () => {
  test.each(devices)("$says", ({ device }) => {
    const { model, poles } = device;
    const width = (2 * Math.PI * poles.upTo) / 3;
    const response = filtered(device, width);
    const overFrequency =
      simpson(
        response.map(({ re, im }) => re * re + im * im),
        response[1]!.omega - response[0]!.omega,
      ) / Math.PI;
    const slowest = Math.min(...model.poles.map(({ omega }) => omega.im));
    const end = 8 / slowest;
    const count = 2 * Math.ceil((end * width) / 0.5);
    const from = -6 / width;
    const times = Array.from({ length: count + 1 }, (_, i) => from + ((end - from) * i) / count);
    const impulse = smoothed((at) => impulseAnswer(model, at), times, width);
    const overTime = simpson(
      impulse.map((value) => value * value),
      (end - from) / count,
    );
    // Energy goes with the square: twice the tolerance of the amplitude.
    expect(Math.abs(overTime / overFrequency - 1)).toBeLessThan((2 * Math.abs(model.rest / device.static)) / 3);
  });
});

describe("a ring-down of a lightly damped plate", () => {
  const device = deviceOf(workedMicrophone({ across: 10e-3, thickness: 0.22e-3, gap: 0.2e-3 }));
  const pole = device.poles.oscillating[0]!;
  const omega = 2 * Math.PI * pole.frequency;
  const decay = pole.dampingRatio * omega;
  const tone = { omega, response: device.respond(omega) };

  test("begins at 1", () => {
    // What is missing are the modes above the listed ones, which follow the tone at once.
    expect(Math.abs(ringDown(device.model, tone, [0])[0]! - 1)).toBeLessThan(1e-3);
  });

  test("falls by exp(-zeta omega_0 t)", () => {
    const period = (2 * Math.PI) / pole.omega.re;
    /** Part at the pole's frequency over five periods, begun after ten, when the film's own mode, 2 per cent at first, is gone. */
    const part = (start: number) => {
      const times = Array.from({ length: 1001 }, (_, i) => start + (5 * period * i) / 1000);
      const value = ringDown(device.model, tone, times);
      const against = (turn: (angle: number) => number) =>
        simpson(
          times.map((time, i) => value[i]! * turn(pole.omega.re * time)),
          period / 200,
        );
      return Math.hypot(against(Math.cos), against(Math.sin));
    };
    for (const periods of [5, 10, 20]) {
      const fall = Math.log(part((10 + periods) * period) / part(10 * period));
      expect(Math.abs(fall / (-decay * periods * period) - 1)).toBeLessThan(2e-3);
    }
  });
});

/** What a brief says that asks for nothing; 1 kHz is the reference. */
const plainBrief = {
  band: null,
  sensitivity: null,
  reference: 1000,
  damping: null,
  noise: null,
  loudest: null,
  vibration: null,
  strength: null,
  site: { temperature: null, pressure: null, humidity: null, staticOverpressure: null, rise: null, precautions: [] },
} as const;

describe("group delay of a prediction", () => {
  test.each(devices)("equals the slope of the whole system's phase: $says", ({ microphone, device }) => {
    const frequencies = Array.from({ length: 60 }, (_, i) => 50 * 400 ** (i / 59));
    const { response } = predictMicrophone(microphone, plainBrief, { frequencies }, []);
    const largest = Math.max(...response.groupDelay!.map(Math.abs));
    frequencies.forEach((frequency, i) => {
      const omega = 2 * Math.PI * frequency;
      const slope = (share: number) => {
        const [a, b] = [device.respond(omega * (1 - share)), device.respond(omega * (1 + share))];
        return -Math.atan2(b.im * a.re - b.re * a.im, b.re * a.re + b.im * a.im) / (2 * share * omega);
      };
      // Richardson: the error of the fourth order only.
      const delay = (4 * slope(1e-3) - slope(2e-3)) / 3;
      // The curve is good to 1e-7 and its steps are 2e-4 wide: 1e-7 / 2e-4 rad over omega, and 1e-5 of the largest delay.
      expect(Math.abs(response.groupDelay![i]! - delay)).toBeLessThan(5e-4 / omega + 1e-5 * largest);
    });
  });
});

test("a burst of a tone is the impulse answer added up over the burst", () => {
  const { model, respond, poles } = deviceOf(workedMicrophone({ across: 10e-3, thickness: 0.22e-3, gap: 60e-6 }));
  const omega = Math.PI * poles.oscillating[0]!.frequency;
  const length = (6 * Math.PI) / omega;
  const response = respond(omega);
  const times = [0.4, 0.9, 1.1, 1.5].map((share) => share * length);
  const burst = toneBurst(model, { omega, response, length }, times);
  const size = Math.hypot(response.re, response.im);
  const added = times.map((time) => {
    const end = Math.min(time, length);
    const count = 8000;
    const begun = Array.from({ length: count + 1 }, (_, i) => (end * i) / count);
    const impulse = impulseAnswer(
      model,
      begun.map((at) => time - at),
    );
    return (
      simpson(
        impulse.map((value, i) => value * Math.sin(omega * begun[i]!)),
        end / count,
      ) / size
    );
  });
  burst.forEach((value, i) => {
    // While it lasts the lump turns a little, as above; after it both are the same decaying poles, to the rule's error.
    const within = times[i]! < length ? Math.abs(model.rest) / size / 3 : 1e-8;
    expect(Math.abs(value - added[i]!)).toBeLessThan(within);
  });
});
