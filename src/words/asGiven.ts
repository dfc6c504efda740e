/** Values that somebody gave, written with the digits that they were given with. */
import { plainQuantity, unitTail } from "../core/quantity/format.ts";
import type { KindName } from "../core/quantity/kinds.ts";

/** "7 kHz", "0.4", "−2.6 mm", "45°": no zeros added, six digits at most. */
export function asGiven(value: number, kind: KindName): string {
  const [number = "", ...unit] = plainQuantity(value, kind, { digits: 6 }).split(" ");
  return number.replace("-", "\u2212") + (unit.length === 0 ? "" : unitTail(unit.join(" ")));
}
