/** A device in a span of shapes, at single frequencies, against the whole basis made for it alone. */
import { expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { absolute, complex, subtract } from "../../numerics/complex.ts";
import { floorShare } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem, responseAt } from "../system/coupled.ts";
import { prepareLine } from "../system/line.ts";
import { firstFrequency, prepare } from "../system/prepare.ts";
import { type Passage, passingAnswer, passingDevice, spanPassage } from "./passage.ts";

/** A guide 2.4 mm from the middle: next to the edge of the narrowest diaphragm, half way to it on the widest. */
const wide = (across: number): Microphone =>
  workedMicrophone({ across, along: 5e-3, thickness: 30e-6, gap: 50e-6, at: 2.4e-3, lossFactor: 1e-3 });

const [low, high] = [5e-3, 7.5e-3];
const between = (share: number) => low * (high / low) ** share;
const firstHertz = ({ diaphragm }: Microphone) => (1.2 * firstFrequency(diaphragm)) / (2 * Math.PI);

function spanned(): Passage {
  const members = Array.from({ length: 6 }, (_, k) => wide(between((1 - Math.cos((Math.PI * (k + 0.5)) / 6)) / 2)));
  const beside = Array.from({ length: 10 }, (_, k) => wide(between(k / 9)));
  const steps = spanPassage(members, beside, (one) => 4 * firstHertz(one));
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value!;
  }
}

test("a guide that comes near the edge is read at every frequency as the whole basis reads it, and the estimate sees the error", () => {
  const passage = spanned();
  for (const share of [0.12, 0.33, 0.61]) {
    const microphone = wide(between(share));
    const device = passingDevice(passage, microphone)!;
    const first = device.firstOmega / (2 * Math.PI);
    const question = { from: 10, to: 2.2 * first, tolerance: 1e-6, polesTo: 2.2 * first, near: [], slow: null };
    const { respond, estimate } = passingAnswer(passage.span, device, microphone, question)!;
    const prepared = prepare(microphone);
    const [whole, line] = [coupledSystem(prepared, microphone), prepareLine(prepared, microphone)];
    const floor = floorShare * Math.abs(line.static);
    let worst = 0;
    for (let i = 0; i <= 40; i++) {
      const frequency = question.from + (question.to - question.from) * (i / 40);
      const expected = responseAt(whole, line, complex(2 * Math.PI * frequency));
      const off = absolute(subtract(respond(frequency), expected)) / Math.max(absolute(expected), floor);
      worst = Math.max(worst, off);
    }
    expect(worst, `${1e3 * between(share)} mm`).toBeLessThan(1e-5);
    expect(worst, `${1e3 * between(share)} mm`).toBeLessThan(5 * Math.max(estimate, 2e-7));
  }
});
