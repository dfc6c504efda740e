/**
 * How far a reduced basis is off for one microphone, found once and kept while the microphone drifts by less than a quarter in each
 * of its numbers (docs/theory/engine.md, "How an error is noticed").
 */
import { type Complex, complex } from "../../numerics/complex.ts";
import { plateScales } from "../../parts/diaphragm/shape.ts";
import type { Microphone } from "../microphone.ts";

/** What was checked at a microphone: numbers of it that may drift, the rest, which may not, and the errors found [-]. */
export interface Checked {
  readonly numbers: readonly number[];
  readonly rest: string;
  /** "all", "few": against the whole basis at the upper end of the range; "between": few against all, at the samples of a curve. */
  readonly errors: Map<"all" | "few" | "between", number>;
}

/** Numbers may drift by so much before an answer is checked again. */
const drift = 1.25;

/** The last check where it still holds for a microphone and a range up to a frequency [Hz]; else an empty one. */
export function checkFor(last: Checked | null, microphone: Microphone, to: number): Checked {
  const { diaphragm, film, air, guides, front, back } = microphone;
  const { lambda, deflection } = plateScales(diaphragm);
  const around = looseNumbers([front, back, film?.backPlate]);
  const { density, viscosity, pressure, heatRatio, prandtl } = air;
  const numbers = [
    ...[film?.gap ?? 1, film?.relief?.heights[0] ?? 1, lambda, deflection, diaphragm.across],
    ...[density, viscosity, pressure, heatRatio, prandtl, to],
    ...around.numbers,
  ];
  const rest = `${JSON.stringify([guides, diaphragm.lossFactor])} ${around.rest}`;
  const holds = last?.rest === rest && last.numbers.every((value, i) => withinDrift(value, numbers[i]!));
  return holds ? last : { numbers, rest, errors: new Map() };
}

/** One error of a check, computed where it is not known. */
export function errorOf(checked: Checked, name: "all" | "few" | "between", found: () => number): number {
  const known = checked.errors.get(name);
  if (known !== undefined) return known;
  const error = found();
  checked.errors.set(name, error);
  return error;
}

/** Largest distance of an answer from another, relative to the other one or the floor, at frequencies [Hz]. */
export function distance(
  of: (omega: Complex) => Complex,
  from: (frequency: number) => Complex,
  { at, floor }: { readonly at: readonly number[]; readonly floor: number },
): number {
  return at.reduce((worst, frequency) => {
    const [one, other] = [of(complex(2 * Math.PI * frequency)), from(frequency)];
    const size = Math.max(Math.hypot(other.re, other.im), floor);
    return Math.max(worst, Math.hypot(one.re - other.re, one.im - other.im) / size);
  }, 0);
}

const withinDrift = (value: number, other: number): boolean =>
  value === other ||
  (value * other > 0 && Math.abs(value) < drift * Math.abs(other) && Math.abs(other) < drift * Math.abs(value));

/** Numbers of a description apart from all else in it. */
function looseNumbers(value: unknown): { readonly numbers: readonly number[]; readonly rest: string } {
  const numbers: number[] = [];
  const rest = JSON.stringify(value, (_, each: unknown) => {
    if (typeof each !== "number") return each;
    numbers.push(each);
    return "#";
  });
  return { numbers, rest };
}
