import { describe, expect, test } from "vitest";
import { wholeDevice } from "../../../../truth/devices.ts";
import { absolute, add, type Complex, complex, subtract } from "../../numerics/complex.ts";
import type { Microphone } from "../microphone.ts";
import { readMotion } from "../poles/motionResidue.ts";
import { findPoles } from "../poles/poles.ts";
import { settled } from "../rest/rest.ts";
import { prepareLine } from "../system/line.ts";
import { lumpedParts, portMatrix } from "../system/network.ts";
import { prepare } from "../system/prepare.ts";
import {
  reducedPortState,
  reducedResponseAt,
  reducedSides,
  reducedState,
  reducedSystem,
  reduceLine,
  setReducedFrequency,
} from "./reduced.ts";

const base = wholeDevice(0.01);
const holes = { diameter: 2e-4, pitch: 8e-4, length: 3e-4, ends: "piston" } as const;
const perforated: Microphone = { ...base, film: { ...base.film!, backPlate: { kind: "holes", holes } } };
const hole = { diameter: 3e-4, length: 3e-4, at: [3e-4, 5e-4], ends: "piston" } as const;
const withHole: Microphone = { ...base, film: { ...base.film!, backPlate: { kind: "hole", hole } } };

function under(difference: number, from: Microphone) {
  const outcome = settled({ ...from, load: { difference } });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  const microphone = outcome.value;
  const prepared = prepare(microphone);
  const { basis } = findPoles(prepared, microphone);
  return { microphone, basis, line: reduceLine(basis, prepareLine(prepared, microphone)) };
}

const apart = (a: Complex, b: Complex) => absolute(subtract(a, b)) / absolute(b);
const omegas = [
  complex(2 * Math.PI * 50),
  complex(2 * Math.PI * 9e3),
  complex(2 * Math.PI * 7e3, 4e3),
  complex(0, 3e3),
];

describe("plate and uneven film in one matrix", () => {
  test.each([
    ["with all around it", perforated],
    ["nothing before or behind", { ...perforated, front: null, back: null }],
    [
      "in tension, too",
      { ...perforated, diaphragm: { ...perforated.diaphragm, tension: { across: 200, along: 100 } } },
    ],
    ["one hole in the wall, off the middle", withHole],
    ["a volume behind, no loss in the glass", { ...wholeDevice(0), front: null }],
  ] as const)("say of the sound what the motion, solved and then read, says: %s", (_, device) => {
    const { microphone, basis, line } = under(3000, device);
    const system = reducedSystem(basis, microphone);
    for (const omega of omegas) {
      const fast = reducedResponseAt(system, line, omega);
      expect(system.bent).not.toBeNull();
      const read = readMotion({ omega, ...reducedState(system, omega) }, microphone, line);
      expect(apart(fast, read)).toBeLessThan(1e-9);
    }
  });

  test.each([
    ["many holes", perforated],
    ["one hole", withHole],
  ])("take the flows that each pressure's own answer takes: %s", (_, device) => {
    const { microphone, basis, line } = under(-3000, device);
    const system = reducedSystem(basis, microphone);
    for (const omega of omegas) {
      const { ports } = reducedSides(system, line, omega);
      const fast = portMatrix(lumpedParts(microphone, omega, basis.nearField), ports);
      setReducedFrequency(system, omega);
      const solved = reducedPortState(system, omega)!;
      expect(apart(fast.front!, solved.front!)).toBeLessThan(1e-9);
      expect(apart(fast.mixed, solved.mixed)).toBeLessThan(1e-9);
      expect(apart(fast.back!, solved.back!)).toBeLessThan(1e-9);
      // What the film keeps and what moves the plate, apart.
      expect(apart(add(ports.film, ports.backBack), ports.film)).toBeGreaterThan(1e-3);
    }
  });
});
