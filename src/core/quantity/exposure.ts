/** How long one may be where it is loud. */
import { pow } from "../numerics/power.ts";

/**
 * Time a day at a steady level [s].
 *
 *     t = 8 h 2^(-(L - 85 dB(A)) / 3 dB)
 *
 * Source: [niosh]. A recommendation for hearing that is not damaged yet, at work; your country's rule decides.
 */
export const timeAllowed = (levelA: number): number => 8 * 3600 * pow(2, -(levelA - 85) / 3);

/** Peak level that nobody may be exposed to, ears protected: 200 Pa, dB(C) [eu-2003-10]. */
export const peakLimit = 140;
/** Daily exposure that may not be exceeded under the protection, dB(A) over 8 h [eu-2003-10]. */
export const dailyLimit = 87;
