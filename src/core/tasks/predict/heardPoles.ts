/**
 * Poles with their shares in the output, and none of those that carry it left out: the shares of all poles add up to 1. Where those
 * listed are far from it something creeps or hardly turns among the singularities of holes and cavities, and is searched there; where
 * it still is not found, next to another or after many slower ones, the curve of the response itself shows it.
 */

import { alikeSystem, reducedResponseAt, reducedSystem, reduceLine } from "../../microphone/basis/reduced.ts";
import type { Microphone } from "../../microphone/microphone.ts";
import { ownMotion } from "../../microphone/poles/ownMotion.ts";
import { modelOf } from "../../microphone/poles/poleModel.ts";
import { type Poles, withAxisPoles } from "../../microphone/poles/poles.ts";
import type { Curve } from "../../microphone/response/curve.ts";
import { polesShown } from "../../microphone/span/polesShown.ts";
import type { Line } from "../../microphone/system/line.ts";
import { hasNetwork } from "../../microphone/system/network.ts";
import type { Prepared } from "../../microphone/system/prepare.ts";
import { complex } from "../../numerics/complex.ts";
import { heard, type PoleShares, sharesOf } from "./mainResonance.ts";

/** So much of the output at rest, or of the strongest share, may be that of poles above the range. */
const spare = 0.1;

export function heardPoles(
  prepared: Prepared,
  poles: Poles,
  microphone: Microphone,
  { line, curve }: { readonly line: Line; readonly curve: Curve },
): { readonly poles: Poles; readonly shares: PoleShares } {
  const shares = sharesOf(poles, microphone, line);
  if (!hasNetwork(microphone) || !isLacking(shares)) return { poles, shares };
  const walked = withAxisPoles(prepared, poles, microphone);
  const sharesWalked = sharesOf(walked, microphone, line);
  if (!isLacking(sharesWalked)) return { poles: walked, shares: sharesWalked };
  const whole = withCreepShown(walked, microphone, { line, curve, atRest: shares.atRest });
  return { poles: whole, shares: sharesOf(whole, microphone, line) };
}

function isLacking({ resonances, decays }: PoleShares): boolean {
  const all = [...resonances, ...decays].map(({ share }) => share);
  const left = 1 - all.reduce((sum, share) => sum + share, 0);
  return Math.abs(left) > spare * all.reduce((most, share) => Math.max(most, Math.abs(share)), 1);
}

/** Poles with those that creep besides and carry something, as the curve shows them, each from its own motion. */
function withCreepShown(
  poles: Poles,
  microphone: Microphone,
  { line, curve, atRest }: { readonly line: Line; readonly curve: Curve; readonly atRest: number },
): Poles {
  const system = reducedSystem(poles.basis, microphone);
  const lossless = alikeSystem(system, { ...microphone, diaphragm: { ...microphone.diaphragm, lossFactor: 0 } });
  const reduced = reduceLine(poles.basis, line);
  const { decays } = polesShown(
    curve,
    {
      respond: (omega) => reducedResponseAt(system, reduced, omega),
      lossless: (rate) => reducedResponseAt(lossless, reduced, complex(0, rate)).re,
    },
    atRest === 0 ? 1 : atRest,
  );
  const { form } = modelOf(lossless, new Float64Array(0));
  const rates = poles.real.map(({ rate }) => rate);
  for (const { rate, share } of decays) {
    if (Math.abs(share) < heard) continue;
    const motion = ownMotion(form, complex(0, rate), { within: 1e-9 });
    if (motion === null || Math.abs(motion.omega.re) > 1e-6 * motion.omega.im) continue;
    if (!rates.some((known) => Math.abs(known - motion.omega.im) < 1e-5 * known)) rates.push(motion.omega.im);
  }
  return { ...poles, real: rates.sort((a, b) => a - b).map((rate) => ({ rate })) };
}
