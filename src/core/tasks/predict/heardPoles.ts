/**
 * Poles with their shares in the output, and none of those that carry it left out: the shares of all poles add up to 1. Where those
 * listed are far from it something creeps or hardly turns among the singularities of holes and cavities, and is searched there.
 */

import type { Microphone } from "../../microphone/microphone.ts";
import { type Poles, withAxisPoles } from "../../microphone/poles/poles.ts";
import type { Line } from "../../microphone/system/line.ts";
import { hasNetwork } from "../../microphone/system/network.ts";
import type { Prepared } from "../../microphone/system/prepare.ts";
import { type PoleShares, sharesOf } from "./mainResonance.ts";

/** So much of the output at rest, or of the strongest share, may be that of poles above the range. */
const spare = 0.1;

export function heardPoles(
  prepared: Prepared,
  poles: Poles,
  microphone: Microphone,
  line: Line,
): { readonly poles: Poles; readonly shares: PoleShares } {
  const shares = sharesOf(poles, microphone, line);
  const all = [...shares.resonances, ...shares.decays].map(({ share }) => share);
  const left = 1 - all.reduce((sum, share) => sum + share, 0);
  const strongest = all.reduce((most, share) => Math.max(most, Math.abs(share)), 1);
  if (!hasNetwork(microphone) || Math.abs(left) <= spare * strongest) return { poles, shares };
  const whole = withAxisPoles(prepared, poles, microphone);
  return { poles: whole, shares: sharesOf(whole, microphone, line) };
}
