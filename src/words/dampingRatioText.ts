/** A damping ratio with the digits that it deserves. */
import { formatNumber } from "../core/quantity/format.ts";

/** Poles are known to some 1e-11 of their size: less damping than this is none. */
const least = 1e-9;

/** "0.538"; "0" where nothing damps. */
export const dampingRatioText = (ratio: number | null): string =>
  ratio !== null && Math.abs(ratio) < least ? "0" : formatNumber(ratio, { digits: 3 });
