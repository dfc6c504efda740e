/**
 * Where a continuous small source stands among the laser classes, by the power that can be reached.
 *
 * Source: IEC 60825-1; figures as [laser-classes] and [kolesar-2000] print them, rounded, and from memory beyond 1050 nm. A class is
 * given by the manufacturer of the product from the current edition, with pulses, spot and instruments counted: this only says
 * which limit a power was compared with.
 */
import { pow } from "../../numerics/power.ts";

export type LaserClass = "1" | "2" | "3R" | "3B";

export interface LaserLimit {
  readonly name: LaserClass;
  /** Largest accessible power [W]. */
  readonly power: number;
  readonly source: string;
  readonly sure: "seen" | "from memory";
}

const classOne = 0.39e-3;

/** Accessible emission limit of a class; null: the class does not exist at this wavelength, or no figure is known here. */
export function accessibleLimit(wavelength: number, name: LaserClass): LaserLimit | null {
  const nanometers = wavelength * 1e9;
  if (nanometers < 400 || nanometers > 4000) return null;
  const visible = nanometers < 700;
  const limit = (power: number, source: string, sure: LaserLimit["sure"]): LaserLimit => ({
    name,
    power,
    source,
    sure,
  });
  if (name === "3B") return limit(0.5, "[laser-classes]", "seen");
  if (name === "2") return visible ? limit(1e-3, "[laser-classes]", "seen") : null;
  if (name === "3R") {
    if (visible) return limit(5e-3, "[laser-classes]", "seen");
    const one = accessibleLimit(wavelength, "1");
    // Five times class 1 outside the visible.
    return one && limit(5 * one.power, `${one.source}; five times class 1, from memory`, "from memory");
  }
  if (visible) return limit(classOne, "[laser-classes]", "seen");
  if (nanometers <= 1050) return limit(classOne * pow(10, 0.002 * (nanometers - 700)), "[kolesar-2000]", "seen");
  if (nanometers < 1150) return limit(5 * classOne, "C4 = 5 of the edition of 2007, from memory", "from memory");
  if (nanometers < 1200)
    return limit(
      5 * classOne * pow(10, 0.018 * (nanometers - 1150)),
      "C7 of the edition of 2007, from memory",
      "from memory",
    );
  if (nanometers < 1400)
    return limit(
      40 * classOne,
      "C4 = 5, C7 = 8 of the edition of 2007, from memory; that of 2014 is higher",
      "from memory",
    );
  return limit(10e-3, "from memory", "from memory");
}

export interface LaserStanding {
  /** The lowest class whose limit the power stays under; "4": above all. */
  readonly name: LaserClass | "4";
  /** Limits of the classes at this wavelength, lowest first. */
  readonly limits: readonly LaserLimit[];
}

/** Where a power [W] stands; null: no figures for this wavelength here. */
export function laserStanding(power: number, wavelength: number): LaserStanding | null {
  const names: readonly LaserClass[] = ["1", "2", "3R", "3B"];
  const limits = names.map((name) => accessibleLimit(wavelength, name)).filter((limit) => limit !== null);
  if (limits.length === 0) return null;
  return { name: limits.find((limit) => power <= limit.power)?.name ?? "4", limits };
}
