/** What must hold for any device: finite, passive, energy by part, reciprocity; and that its poles decay and are all found. */

import type { Microphone } from "../../src/core/microphone/microphone.ts";
import { countPoles } from "../../src/core/microphone/poles/countPoles.ts";
import { wholeModel } from "../../src/core/microphone/poles/poleModel.ts";
import { findPoles } from "../../src/core/microphone/poles/poles.ts";
import { flowsOf, lossesOf, lossParts, suppliedPower, totalLoss } from "../../src/core/microphone/response/losses.ts";
import {
  type CoupledSystem,
  coupledSystem,
  setFrequency,
  solveLoad,
} from "../../src/core/microphone/system/coupled.ts";
import { flowPerAnswer } from "../../src/core/microphone/system/coupledState.ts";
import { guideVector, prepareLine } from "../../src/core/microphone/system/line.ts";
import { inner } from "../../src/core/microphone/system/network.ts";
import { type Prepared, prepare, resolution } from "../../src/core/microphone/system/prepare.ts";
import { type DeviceState, type Drive, readState, stateAt } from "../../src/core/microphone/system/state.ts";
import { absolute, add, type Complex, complex, divide, multiply, subtract } from "../../src/core/numerics/complex.ts";
import type { ComplexVector } from "../../src/core/numerics/complexSymmetric.ts";
import { seededUniform } from "../../src/core/numerics/random.ts";
import { holeImpedance, slitImpedance, ventImpedance } from "../../src/core/parts/acoustics/tube.ts";

export interface Judged {
  /** Every number is one, and no part gives power back. */
  readonly finite: boolean;
  /** Largest |lost / supplied - 1| over frequencies and drives; power below 1e-4 of what swings to and fro counts against that. */
  readonly energy: number;
  /** Largest relative difference of the light under sound and the volume that enters under the light's load. */
  readonly reciprocity: number;
}

/** Share of what swings that counts as power: where 1e-8 is asked, 1e-12 of it may be lost to round-off, as a solution next to a resonance is. */
const roundOff = 1e-4;

/** Functions a direction: the laws hold at any resolution. */
const few = resolution({ across: 5, along: 5 });

export function judgeDevice(microphone: Microphone, seed: number): Judged {
  const prepared = prepare(microphone, few);
  return judgePrepared(prepared, microphone, seed);
}

/** `spoil` breaks a state on purpose. */
export function judgePrepared(
  prepared: Prepared,
  microphone: Microphone,
  seed: number,
  spoil: (state: DeviceState) => DeviceState = (state) => state,
): Judged {
  const uniform = seededUniform(seed);
  const system = coupledSystem(prepared, microphone);
  const line = prepareLine(prepared, microphone);
  const c = real(guideVector(prepared.plate, microphone));
  const any = { re: c.re.map(() => uniform() - 0.5), im: c.re.map(() => uniform() - 0.5) };
  const drives: readonly Drive[] = [
    { sound: complex(1) },
    { acceleration: complex(1) },
    { load: any },
    { load: any, sound: complex(0.3, -0.7), acceleration: complex(0, 2) },
  ];
  let [finite, energy, reciprocity] = [true, 0, 0];
  for (let i = 0; i < 4; i++) {
    const omega = complex(2 * Math.PI * 10 * 3000 ** uniform());
    setFrequency(system, omega);
    for (const drive of drives) {
      const state = spoil(stateAt(system, omega, drive));
      const losses = lossesOf(system, state);
      const supplied = suppliedPower(system, state);
      const read = readState(system, line, state);
      finite &&= [read.re, read.im, supplied, ...lossParts.map((part) => losses[part])].every(Number.isFinite);
      finite &&= lossParts.every((part) => losses[part] >= 0);
      const size = supplied + roundOff * swinging(system, state);
      if (size > 0) energy = Math.max(energy, Math.abs(totalLoss(losses) - supplied) / size);
    }
    const heard = spoil(stateAt(system, omega, { sound: complex(1) }));
    const loaded = spoil(stateAt(system, omega, { load: c }));
    const moved = inner(c, heard.q);
    const entered = enteredVolume(system, loaded);
    reciprocity = Math.max(
      reciprocity,
      absolute(subtract(moved, entered)) / Math.max(absolute(moved), 1e-9 * absolute(inner(c, loaded.q))),
    );
  }
  return { finite, energy, reciprocity };
}

/**
 * What round-off is measured by [W]: the power that would flow if each pressure stood at each admittance with nothing against
 * it, and what swings through the plate. Where p_s - p_f is a difference of equals, its last digits count so much.
 */
function swinging(system: CoupledSystem, { q, omega, front: pFront, back: pBack, drive, pushes }: DeviceState): number {
  const { plate, bending } = system.prepared;
  const { front, back, air } = system.microphone;
  const tone = { air, omega };
  const pressure = Math.max(
    absolute(pFront),
    absolute(pBack),
    absolute(drive.sound ?? complex(0)),
    ...pushes.holes.map(absolute),
  );
  const through = [
    ...(front?.holes ?? []).map((hole) => holeImpedance({ ...hole, ...tone })),
    ...(back?.vent ? [ventImpedance({ vent: back.vent, ...tone })] : []),
    ...(back?.leak ? [slitImpedance({ ...back.leak, ...tone })] : []),
  ].reduce((sum, impedance) => sum + pressure ** 2 / absolute(impedance), 0);
  let plateEnergy = 0;
  let swept = 0;
  for (let i = 0; i < plate.size; i++) {
    const size = Math.hypot(q.re[i]!, q.im[i]!);
    plateEnergy += Math.abs(bending[i * plate.size + i]!) * size ** 2;
    swept += Math.abs(plate.load[i]!) * size;
  }
  const alone = absolute(inner(real(plate.load), solveLoad(system, plate.load)));
  const onPlate = plateEnergy + swept * pressure + alone * pressure ** 2;
  return (through + absolute(flowPerAnswer(system, omega)) * onPlate) / 2;
}

/** Volume that enters by every way that sound has, over a quarter of the area times the plate's scale. */
function enteredVolume(system: CoupledSystem, state: DeviceState): Complex {
  const { microphone, prepared } = system;
  const { front, back } = microphone;
  const flow = flowPerAnswer(system, state.omega);
  const flows = flowsOf(system, state);
  let entering = complex(0);
  for (const hole of flows.holes) entering = add(entering, hole);
  if (!front) {
    entering = add(entering, multiply(flow, inner(real(prepared.plate.load), state.q)));
    if (back?.leak?.from === "front") entering = add(entering, flows.leak);
  }
  if (back?.vent?.exposed) entering = add(entering, flows.vent);
  return divide(entering, flow);
}

const real = (values: Float64Array): ComplexVector => ({ re: values, im: new Float64Array(values.length) });

export interface JudgedAnyPoles {
  readonly found: number;
  readonly counted: number;
  /** Least Im omega / |omega| of an oscillating pole, least rate of a real one [1/s]. */
  readonly leastDamping: number;
  readonly leastRate: number;
}

/** Poles by the interpolant against the contour, without structural loss; rings below a damping ratio of 0.95. */
export function judgeAnyPoles(microphone: Microphone): JudgedAnyPoles {
  const lossless = { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } };
  const prepared = prepare(lossless);
  const { oscillating, real: creeping, upTo } = findPoles(prepared, lossless);
  const inside = oscillating.filter(
    ({ dampingRatio, frequency }) => dampingRatio < 0.95 && frequency > upTo / 100 && frequency <= upTo,
  );
  return {
    found: inside.length,
    counted: countPoles(wholeModel(prepared, lossless), { upTo, below: 0.95 }) + 0,
    leastDamping: oscillating.reduce((least, { omega }) => Math.min(least, omega.im / absolute(omega)), 1),
    leastRate: creeping.reduce((least, { rate }) => Math.min(least, rate), Number.POSITIVE_INFINITY),
  };
}
