/** A specimen of a batch: sides, thickness, tension, gap, guide and air vary at once; response, poles and estimate of each. */

import type { Microphone } from "../src/core/microphone/microphone.ts";
import { type Batch, prepareBatch, specimenAnswer } from "../src/core/microphone/span/batch.ts";
import { seededUniform } from "../src/core/numerics/random.ts";
import { wholeDevice } from "../truth/devices.ts";
import type { Repeated } from "./task.ts";
import { workedDevice } from "./workedDevice.ts";

function varied(design: Microphone, random: () => number, wide: number): Microphone {
  const by = (share: number) => 1 + wide * share * (2 * random() - 1);
  const { diaphragm, film, air, guides } = design;
  const [first, ...rest] = guides;
  return {
    ...design,
    diaphragm: {
      ...diaphragm,
      across: diaphragm.across * by(0.02),
      along: diaphragm.along * by(0.02),
      thickness: diaphragm.thickness * by(0.1),
      tension: { across: 20 * wide * random(), along: 20 * wide * random() },
    },
    film: film && { ...film, gap: film.gap * by(0.15) },
    guides: [{ ...first, at: first.at * by(0.02) }, ...rest],
    air: { ...air, pressure: air.pressure * by(0.05), density: air.density * by(0.05) },
  };
}

function batchOf(design: Microphone): Batch {
  const random = seededUniform(3);
  const some = Array.from({ length: 24 }, () => varied(design, random, 1.1));
  const steps = prepareBatch(design, some, { from: 20, to: 20e3 });
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const specimen = (says: string, design: () => Microphone): Repeated => ({
  kind: "repeated",
  name: `a specimen of a batch, ${says}`,
  asked: "4 ms",
  make: () => {
    const batch = batchOf(design());
    const random = seededUniform(4);
    return () => {
      const answer = specimenAnswer(batch, varied(design(), random, 1));
      if (answer?.route !== "reduced") throw new Error("Not answered in the span.");
    };
  },
});

export const specimens: readonly Repeated[] = [
  specimen("open film", workedDevice),
  specimen("air in front and behind", () => wholeDevice(0.001)),
];
