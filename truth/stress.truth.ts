/** Bending stress at the faces of a plate: E = any, a = 1, h = 1e-3 (unitPlate), read per q a^2 / h^2. */
import { bendingStress, largestBendingStress } from "../src/core/parts/diaphragm/stress.ts";
import { unitPlate } from "./devices.ts";
import type { TruthRow } from "./row.ts";

const functions = 20;
const supported = { sides: "supported", ends: "supported" } as const;
const per = 1e-6; // h^2 / (q a^2)
const largest = (along: number, edges?: typeof supported) =>
  largestBendingStress(unitPlate({ along, ...(edges ? { edges } : {}) }), { functions });

export const rows: readonly TruthRow[] = [
  {
    what: "clamped square, largest bending stress / (q a^2 / h^2) [-]",
    got: () => largest(1).stress * per,
    expected: 0.308,
    within: 3e-5,
    why: "last digit of 0.30800",
    origin: "independent method",
    source: "spectral code of another hand, 40 functions a side",
  },
  {
    what: "clamped square, largest bending stress as printed / (q a^2 / h^2) [-]",
    got: () => largest(1).stress * per,
    expected: 0.3078,
    within: 1e-3,
    why: "the print is 0.07 % below the exact 0.30800",
    origin: "published",
    source: "[roark-7] table 11.4 case 8a",
  },
  {
    what: "clamped square, largest stress lies this far from the center (middle of an edge) [a]",
    got: () => Math.hypot(largest(1).x, largest(1).y),
    expected: 0.5,
    within: 1e-9,
    why: "place found exactly, being on the edge",
    origin: "exact",
    source: "symmetry",
  },
  {
    what: "clamped b/a = 2, largest stress, 6 times the moment of the long edge / (q a^2 / h^2) [-]",
    got: () => largest(2).stress * per,
    expected: 6 * 0.082866,
    within: 3e-5,
    why: "last digit given",
    origin: "independent method",
    source: "spectral code of another hand, 40 functions a side",
  },
  {
    what: "clamped b/a = 2, largest stress lies on the long edge, x / a [-]",
    got: () => Math.abs(largest(2).x),
    expected: 0.5,
    within: 1e-9,
    why: "place found exactly, being on the edge",
    origin: "published",
    source: "[timoshenko-1959] table 35 (from memory, to be confirmed)",
  },
  ...(
    [
      [1, 0.2874],
      [1.4, 0.453],
      [2, 0.6102],
    ] as const
  ).map(
    ([along, stress]): TruthRow => ({
      what: `supported b/a = ${along}, largest stress / (q b^2 / t^2) [-]`,
      got: () => largest(along, supported).stress * per,
      expected: stress,
      within: 1e-3,
      why: "digits printed",
      origin: "published",
      source: "[roark-7] table 11.4 case 1a",
    }),
  ),
  {
    what: "clamped square under pressure from the front, stress at the front face, middle of an edge: tension [q a^2 / h^2]",
    got: () => bendingStress(unitPlate({}), { functions }).at(0.5, 0, "front").x * per,
    expected: 0.308,
    within: 3e-5,
    why: "last digit of 0.30800; the front face is the stretched one there",
    origin: "independent method",
    source: "spectral code of another hand, 40 functions a side",
  },
  {
    what: "clamped square, stress at the back face in the center: tension, 6 times 0.022905 [q a^2 / h^2]",
    got: () => bendingStress(unitPlate({}), { functions }).at(0, 0, "back").x * per,
    expected: 6 * 0.022905,
    within: 4e-5,
    why: "last digit given; nu = 0.3",
    origin: "independent method",
    source: "spectral code of another hand",
  },
];
