/** Units that are made of units: "um/(m K)", "nV/sqrt(Hz)", "kg/m^3". */
import { pow } from "../numerics/power.ts";
import { type Base, type Dimension, namedUnit, type Unit } from "./units.ts";

/** One spelling for the signs that keyboards and other programs use for the same thing. */
function plainUnitText(text: string): string {
  return text
    .replace(/[µμ]/g, "u")
    .replace(/[ΩΩ]/g, "ohm")
    .replace(/°([CF])/g, "deg$1")
    .replace(/°/g, "deg")
    .replace(/√\(?(\w+)\)?/g, "sqrt($1)")
    .replace(/⁻/g, "^-")
    .replace(/²/g, "^2")
    .replace(/³/g, "^3")
    .replace(/\^-\^/g, "^-")
    .replace(/[·*⋅\u00a0\u2009\u202f]/g, " ")
    .trim();
}

/** Reads a unit, or null where the text is none. A space multiplies; "/" divides by the one unit or bracket that follows. */
export function readUnit(text: string): Unit | null {
  const tokens = plainUnitText(text).match(/sqrt\(|[A-Za-z]+|%|\^-?\d+|[()/]|\s+|./g) ?? [];
  const reader = new Reader(tokens.filter((token) => token.trim() !== ""));
  const unit = reader.product();
  return unit !== null && reader.done() ? unit : null;
}

const one: Unit = { scale: 1, exponent: 0, dimension: {}, prefixes: "none" };

function power(unit: Unit, n: number): Unit {
  const exponent = unit.exponent * n;
  const whole = Math.floor(exponent);
  const dimension: Dimension = Object.fromEntries(Object.entries(unit.dimension).map(([base, e]) => [base, e * n]));
  return { scale: pow(unit.scale, n) * pow(10, exponent - whole), exponent: whole, dimension, prefixes: "none" };
}

function times(a: Unit, b: Unit): Unit {
  const dimension: Partial<Record<Base, number>> = { ...a.dimension };
  for (const [base, e] of Object.entries(b.dimension) as [Base, number][]) {
    const sum = (dimension[base] ?? 0) + e;
    if (sum === 0) delete dimension[base];
    else dimension[base] = sum;
  }
  return { scale: a.scale * b.scale, exponent: a.exponent + b.exponent, dimension, prefixes: "none" };
}

/** Recursive descent over the tokens of one unit. */
class Reader {
  private at = 0;
  private readonly tokens: readonly string[];
  constructor(tokens: readonly string[]) {
    this.tokens = tokens;
  }

  done(): boolean {
    return this.at === this.tokens.length;
  }

  product(): Unit | null {
    let value = this.factor();
    while (value !== null && !this.done() && this.tokens[this.at] !== ")") {
      const divides = this.take("/");
      const next = this.factor();
      if (next === null) return null;
      value = times(value, divides ? power(next, -1) : next);
    }
    return value;
  }

  private take(token: string): boolean {
    if (this.tokens[this.at] !== token) return false;
    this.at += 1;
    return true;
  }

  private factor(): Unit | null {
    const token = this.tokens[this.at];
    if (token === undefined) return null;
    this.at += 1;
    if (token === "(" || token === "sqrt(") {
      const inner = this.product();
      if (inner === null || !this.take(")")) return null;
      return this.raised(token === "(" ? inner : power(inner, 0.5));
    }
    if (token === "1") return one;
    const unit = namedUnit(token);
    return unit === null ? null : this.raised(unit);
  }

  private raised(unit: Unit): Unit {
    const token = this.tokens[this.at];
    if (!token?.startsWith("^")) return unit;
    this.at += 1;
    return power(unit, Number(token.slice(1)));
  }
}
