/** Large deflection of a diaphragm never seen before: prepared, the phase of a guide at forty static loads, and where it stops being straight. */
import { phaseCurve } from "../src/core/microphone/loudest/phaseCurve.ts";
import { straightnessOf } from "../src/core/microphone/loudest/straightness.ts";
import type { Repeated } from "./task.ts";
import { workedDevice } from "./workedDevice.ts";

export const vonKarman: Repeated = {
  kind: "repeated",
  name: "von Karman: phase at 40 static loads, straightness",
  asked: "50 ms",
  make: () => {
    const microphone = workedDevice();
    return (i) => {
      const { diaphragm } = microphone;
      const other = { ...microphone, diaphragm: { ...diaphragm, along: diaphragm.along * (1 + 1e-6 * i) } };
      const curve = phaseCurve(other);
      if (curve.loads !== 40) throw new Error(`Solved ${curve.loads} loads.`);
      straightnessOf(curve);
    };
  },
};
