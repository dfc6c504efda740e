/** A device with every part at once: two front holes and a cavity, open film with a perforated wall, volume, vent and leak behind. */

import { createEngine, engineAnswer } from "../src/core/microphone/engine.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import { readCurve } from "../src/core/microphone/response/curve.ts";
import { settled } from "../src/core/microphone/rest/rest.ts";
import { wholeDevice } from "../truth/devices.ts";
import { gridTo, knownShape } from "./knownShape.ts";
import type { Repeated } from "./task.ts";

function device(i: number): Microphone {
  const base = wholeDevice(0.001);
  const change = 1 + 1e-6 * i;
  const hole = { diameter: 0.5e-3 * change, length: 0.5e-3, ends: "piston" } as const;
  return {
    ...base,
    film: {
      ...base.film!,
      gap: 40e-6 * change,
      backPlate: { kind: "holes", holes: { diameter: 0.2e-3, pitch: 1e-3, length: 0.3e-3, ends: "piston" } },
    },
    front: {
      holes: [
        { ...hole, at: [-1e-3, 0] },
        { ...hole, at: [1e-3, 0] },
      ],
      cavity: { volume: 15e-9 * change, surface: 80e-6 },
    },
    back: {
      cavity: { volume: 400e-9 * change, surface: 350e-6 },
      vent: { shape: "round", diameter: 0.1e-3 * change, length: 2e-3, exposed: true },
      leak: { height: 5e-6, width: 3e-3, length: 1e-3, from: "front" },
    },
  };
}

const known: Repeated = {
  kind: "repeated",
  name: "all parts: whole response of a known shape at 400 frequencies; gap, holes, cavities and vent new",
  asked: "2 ms",
  make: () => {
    const { engine, question } = knownShape(device(0));
    engineAnswer(engine, device(0), question);
    const frequencies = gridTo(question.to, 400);
    return (i) => {
      const { curve, route } = engineAnswer(engine, device(i), { ...question, tolerance: 3e-7 });
      if (route !== "reduced" || !curve.converged) throw new Error(`By the ${route} basis, ${curve.samples} samples.`);
      readCurve(curve, frequencies);
    };
  },
};

/** The same about a static pressure that presses the film by a sixth of its gap in the middle: a gap of its own at each place. */
const loaded = (i: number): Microphone => {
  const stands = settled({ ...device(i), load: { difference: 2500 } });
  if (!stands.ok) throw new Error(stands.problems.map(({ message }) => message).join(" "));
  return stands.value;
};

const aboutLoad: Repeated = {
  kind: "repeated",
  name: "all parts about a static load: whole response of a known shape at 400 frequencies; gap, holes, cavities and vent new",
  asked: "as fast as without",
  make: () => {
    const { question } = knownShape(device(0));
    const engine = createEngine();
    for (let k = 0; k < 2; k++) engineAnswer(engine, loaded(0), question);
    const frequencies = gridTo(question.to, 400);
    const rest = loaded(0);
    return (i) => {
      const { film, front, back } = device(i);
      const one = { ...rest, film: { ...rest.film!, ...film, gap: rest.film!.gap * (1 + 1e-6 * i) }, front, back };
      const { curve, route } = engineAnswer(engine, one, { ...question, tolerance: 3e-7 });
      if (route !== "reduced" || !curve.converged) throw new Error(`By the ${route} basis, ${curve.samples} samples.`);
      readCurve(curve, frequencies);
    };
  },
};

const fresh = (tolerance: number, says: string, asked: string): Repeated => ({
  kind: "repeated",
  name: `all parts: new shape, ${says}`,
  asked,
  make: () => {
    const { question } = knownShape(device(0));
    const frequencies = gridTo(question.to, 400);
    return (i) => {
      const one = device(i);
      const along = one.diaphragm.along * (1 + 1e-6 * i);
      const other = { ...one, diaphragm: { ...one.diaphragm, along } };
      const { curve } = engineAnswer(createEngine(), other, { ...question, tolerance });
      if (!curve.converged) throw new Error(`Not converged with ${curve.samples} samples.`);
      readCurve(curve, frequencies);
    };
  },
});

export const allParts: readonly Repeated[] = [
  known,
  aboutLoad,
  fresh(1e-4, "first answer to 1e-4", "20 ms"),
  fresh(1e-6, "final answer to 1e-6", "80 ms"),
];
