/** The unit that an axis is written in, from a value that is typical of it. */
import { plainQuantity, printedUnit } from "../core/quantity/format.ts";
import type { KindName } from "../core/quantity/kinds.ts";
import { readQuantity, unitOf } from "../core/quantity/read.ts";

export interface DisplayUnit {
  /** As printed: "µm"; empty for plain numbers. */
  readonly name: string;
  /** Size of the unit [SI], and where its zero lies [SI]: 273.15 K for degrees Celsius. */
  readonly per: number;
  readonly zero: number;
}

export function displayUnit(kind: KindName, typical: number): DisplayUnit {
  const unit =
    kind === "length" && typical < 0.7e-3 && typical >= 0.7e-6
      ? "um"
      : unitOf(plainQuantity(typical, kind, { digits: 3 }));
  const at = (value: number) => {
    const read = unit === null ? null : readQuantity(`${value} ${unit}`, kind, []);
    return read?.ok ? read.value : value;
  };
  const zero = kind === "temperature" ? at(0) : 0;
  return { name: unit === null ? "" : printedUnit(unit), per: at(1) - zero, zero };
}

export const unitLabel = (label: string, { name }: DisplayUnit): string => (name === "" ? label : `${label} (${name})`);
