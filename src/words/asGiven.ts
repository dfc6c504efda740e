/** Values that somebody gave, written with the digits that they were given with. */
import { plainQuantity, printedUnit, thinSpace } from "../core/quantity/format.ts";
import type { KindName } from "../core/quantity/kinds.ts";

/** "7 kHz", "0.4", "−2.6 mm": no zeros added, six digits at most. */
export function asGiven(value: number, kind: KindName): string {
  const [number = "", ...unit] = plainQuantity(value, kind, { digits: 6 }).split(" ");
  return [number.replace("-", "\u2212"), ...(unit.length === 0 ? [] : [printedUnit(unit.join(" "))])].join(thinSpace);
}
