import { describe, expect, test } from "vitest";
import { workedMicrophone } from "../../../../truth/devices.ts";
import { cholesky, choleskySolve } from "../../numerics/cholesky.ts";
import { complex, scale } from "../../numerics/complex.ts";
import type { ComplexVector } from "../../numerics/complexSymmetric.ts";
import { seededUniform } from "../../numerics/random.ts";
import { boltzmann } from "../../quantity/constants.ts";
import type { Microphone } from "../microphone.ts";
import { lossesOf, totalLoss } from "../response/losses.ts";
import {
  backLoad,
  type CoupledSystem,
  coupledSystem,
  filmPressure,
  setFrequency,
  solveComplexLoad,
} from "../system/coupled.ts";
import { guideVector } from "../system/line.ts";
import { prepareClass } from "../system/prepare.ts";
import { type DeviceState, stateAt } from "../system/state.ts";
import { lossesUnderLight } from "./thermalParts.ts";

const temperature = 296.15;

/** A coupled device of any size that lets its air through: film, two volumes, hole and vent. */
function device(seed: number): Microphone {
  const random = seededUniform(seed);
  const between = (low: number, high: number) => low * (high / low) ** random();
  const across = between(3e-3, 8e-3);
  const bare = workedMicrophone({
    across,
    along: across * between(0.7, 1.5),
    thickness: between(25e-6, 80e-6),
    gap: between(15e-6, 40e-6),
    at: across * (random() - 0.5),
  });
  const diameter = between(0.3e-3, 0.8e-3);
  return {
    ...bare,
    front: {
      holes: [{ diameter, length: diameter, at: [0, 0], ends: "piston" }],
      cavity: { volume: between(3e-9, 20e-9), surface: 80e-6 },
    },
    back: {
      cavity: { volume: between(5e-9, 100e-9), surface: 100e-6 },
      vent: { shape: "round", diameter: 0.15e-3, length: 2e-3, exposed: false },
      leak: null,
    },
  };
}

const detail = { functions: { across: 3, along: 3 }, fine: { across: 3, along: 3 }, filmTerms: 6 };

/** k T c^T K^-1 c of the same functions [rad^2]: what equipartition gives. */
function byEquipartition({ prepared, microphone, scales }: CoupledSystem): number {
  const size = prepared.plate.size;
  const factor = cholesky(prepared.bending, size);
  if (!factor) throw new Error("The plate has no stiffness.");
  const c = guideVector(prepared.plate, microphone);
  const g = choleskySolve(factor, c);
  const quarter = (microphone.diaphragm.across * microphone.diaphragm.along) / 4;
  return (boltzmann * temperature * scales.deflection * c.reduce((sum, value, i) => sum + value * g[i]!, 0)) / quarter;
}

/** Integral over all frequencies of (8 k T / omega^2) times the power lost, by halving pieces until they agree. */
function integrated(power: (omega: number) => number): number {
  const perOctave = (t: number) => {
    const omega = Math.exp(t);
    return ((8 * boltzmann * temperature) / omega ** 2) * power(omega) * (omega / (2 * Math.PI));
  };
  const simpson = (a: number, fa: number, fm: number, b: number, fb: number) => ((b - a) / 6) * (fa + 4 * fm + fb);
  let sum = 0;
  const piece = (a: number, fa: number, m: number, fm: number, b: number, fb: number, whole: number, depth: number) => {
    const [l, r] = [(a + m) / 2, (m + b) / 2];
    const [fl, fr] = [perOctave(l), perOctave(r)];
    const [left, right] = [simpson(a, fa, fl, m, fm), simpson(m, fm, fr, b, fb)];
    if (depth > 14 || Math.abs(left + right - whole) < 3e-6 * Math.max(size, left + right)) {
      sum += left + right + (left + right - whole) / 15;
      return;
    }
    piece(a, fa, l, fl, m, fm, left, depth + 1);
    piece(m, fm, r, fr, b, fb, right, depth + 1);
  };
  // From well below the vent's corner to well above the last of the functions.
  const [from, to, pieces] = [Math.log(1e-3), Math.log(1e10), 40];
  const size = perOctave(Math.log(1e4));
  for (let i = 0; i < pieces; i++) {
    const [a, b] = [from + ((to - from) * i) / pieces, from + ((to - from) * (i + 1)) / pieces];
    const m = (a + b) / 2;
    const [fa, fm, fb] = [perOctave(a), perOctave(m), perOctave(b)];
    piece(a, fa, m, fm, b, fb, simpson(a, fa, fm, b, fb), 0);
  }
  return sum;
}

/** The same state with the sign wrong with which the pressure behind acts on the plate. */
function wronglyCoupled(system: CoupledSystem, state: DeviceState): DeviceState {
  const onBack = solveComplexLoad(system, backLoad(system, state.omega).load);
  const twice = scale(state.back, 2);
  const plus = (a: ComplexVector, b: ComplexVector): ComplexVector => ({
    re: a.re.map((value, i) => value + b.re[i]! * twice.re - b.im[i]! * twice.im),
    im: a.im.map((value, i) => value + b.re[i]! * twice.im + b.im[i]! * twice.re),
  });
  const { film } = system.prepared;
  return {
    ...state,
    q: plus(state.q, onBack),
    film: state.film && film ? plus(state.film, filmPressure(system, film, onBack)) : null,
  };
}

describe("heat of coupled devices", () => {
  test.each([1, 2])(
    "the power lost by all parts makes, over all frequencies, k T / 2 a degree of freedom (device %i)",
    (seed) => {
      const microphone = device(seed);
      for (const side of ["even", "odd"] as const) {
        const system = coupledSystem(prepareClass(microphone, side, detail), microphone);
        const found = integrated((omega) => totalLoss(lossesUnderLight(system, omega)));
        expect(found / byEquipartition(system)).toBeCloseTo(1, 4);
      }
    },
  );

  test("with the sign of one coupling wrong it does not", () => {
    const microphone = device(1);
    const system = coupledSystem(prepareClass(microphone, "even", detail), microphone);
    const { across, along } = microphone.diaphragm;
    const c = guideVector(system.prepared.plate, microphone).map((value) => (4 * value) / (across * along));
    const found = integrated((omega) => {
      setFrequency(system, complex(omega));
      const state = stateAt(system, complex(omega), { load: { re: c, im: new Float64Array(c.length) } });
      return totalLoss(lossesOf(system, wronglyCoupled(system, state)));
    });
    expect(Math.abs(found / byEquipartition(system) - 1)).toBeGreaterThan(1e-3);
  });
});
