/** The table of units: how each is written, what it is in SI, which prefixes it takes. */

/** Exponents of the base units. rad and dB count as units of their own, so that rad/Pa is not taken for 1/Pa. */
export type Dimension = Readonly<Partial<Record<Base, number>>>;
export type Base = "m" | "kg" | "s" | "A" | "K" | "rad" | "dB";

export interface Unit {
  /** SI value of one unit is `scale` times ten to the power of `exponent`; apart, so that "38 um" is exactly 38e-6. */
  readonly scale: number;
  readonly exponent: number;
  readonly dimension: Dimension;
  /** Only for a temperature as a point: what to add in SI [K]. */
  readonly offset?: number;
  /** Powers of ten that may stand before it. */
  readonly prefixes: "none" | "thousands" | "all";
}

const unit = (
  dimension: Dimension,
  exponent = 0,
  prefixes: Unit["prefixes"] = "thousands",
  scale = 1,
  offset?: number,
): Unit =>
  offset === undefined ? { scale, exponent, dimension, prefixes } : { scale, exponent, dimension, prefixes, offset };

const kelvin: Dimension = { K: 1 };
const pascal: Dimension = { kg: 1, m: -1, s: -2 };
const ohm: Dimension = { kg: 1, m: 2, s: -3, A: -2 };

/** Names are written as here; µ and μ read as u, Ω as ohm, ° as deg. */
export const units: Readonly<Record<string, Unit>> = {
  m: unit({ m: 1 }, 0, "all"),
  g: unit({ kg: 1 }, -3),
  s: unit({ s: 1 }),
  min: unit({ s: 1 }, 0, "none", 60),
  h: unit({ s: 1 }, 0, "none", 3600),
  A: unit({ A: 1 }),
  K: unit(kelvin),
  degC: unit(kelvin, 0, "none", 1, 273.15),
  degF: unit(kelvin, 0, "none", 5 / 9, 273.15 - (32 * 5) / 9),
  Hz: unit({ s: -1 }),
  N: unit({ kg: 1, m: 1, s: -2 }),
  Pa: unit(pascal, 0, "all"),
  bar: unit(pascal, 5),
  atm: unit(pascal, 0, "none", 101325),
  mmHg: unit(pascal, 0, "none", 133.322387415),
  J: unit({ kg: 1, m: 2, s: -2 }),
  eV: unit({ kg: 1, m: 2, s: -2 }, -19, "thousands", 1.602176634),
  W: unit({ kg: 1, m: 2, s: -3 }),
  V: unit({ kg: 1, m: 2, s: -3, A: -1 }),
  ohm: unit(ohm),
  T: unit({ kg: 1, s: -2, A: -1 }),
  L: unit({ m: 3 }, -3, "all"),
  rad: unit({ rad: 1 }),
  deg: unit({ rad: 1 }, 0, "none", Math.PI / 180),
  dB: unit({ dB: 1 }, 0, "none"),
  "%": unit({}, -2, "none"),
  ppm: unit({}, -6, "none"),
};

const thousands: Readonly<Record<string, number>> = { f: -15, p: -12, n: -9, u: -6, m: -3, k: 3, M: 6, G: 9, T: 12 };
const hundreds: Readonly<Record<string, number>> = { c: -2, d: -1, h: 2 };

/** The unit of that name, prefix included ("um", "hPa"), or null. */
export function namedUnit(name: string): Unit | null {
  if (Object.hasOwn(units, name)) return units[name] ?? null;
  const found = Object.hasOwn(units, name.slice(1)) ? units[name.slice(1)] : undefined;
  const letter = name.charAt(0);
  if (!found || found.prefixes === "none") return null;
  const power = thousands[letter] ?? (found.prefixes === "all" ? hundreds[letter] : undefined);
  return power === undefined ? null : { ...found, exponent: found.exponent + power };
}

/** Same powers of the same base units. */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  const bases = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<Base>;
  return [...bases].every((base) => (a[base] ?? 0) === (b[base] ?? 0));
}
