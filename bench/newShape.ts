/** A shape never seen before: prepared, sampled in the whole basis, read at 400 frequencies, to the first answer's error and the last's. */

import { createEngine, engineAnswer } from "../src/core/microphone/engine.ts";
import { readCurve } from "../src/core/microphone/response/curve.ts";
import { gridTo, knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";

const answer = (tolerance: number, says: string, asked: string): Repeated => ({
  kind: "repeated",
  name: `new shape, ${says}`,
  asked,
  make: () => {
    const { microphone, question } = knownShape(30e-6);
    const frequencies = gridTo(question.to, 400);
    return (i) => {
      const { diaphragm } = microphone;
      const along = diaphragm.along * (1 + 1e-6 * i);
      const other = { ...microphone, diaphragm: { ...diaphragm, along } };
      // An engine of its own: nothing is left of the shapes before.
      const { curve } = engineAnswer(createEngine(), other, { ...question, tolerance });
      if (!curve.converged) throw new Error(`Not converged with ${curve.samples} samples.`);
      readCurve(curve, frequencies);
    };
  },
});

export const newShapes: readonly Repeated[] = [
  answer(1e-4, "first answer to 1e-4", "15 ms"),
  answer(1e-6, "final answer to 1e-6", "60 ms"),
];
