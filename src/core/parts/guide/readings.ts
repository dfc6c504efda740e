/** What the light in a guide reads of the plate: one line, or one for each of its two modes. */
import { cube } from "../../numerics/power.ts";
import type { Diaphragm } from "../diaphragm/diaphragm.ts";
import type { Guide, GuideMode } from "./guide.ts";
import { guideHeight, strainPhase } from "./photoelastic.ts";

/** Phase of one line of light: x <eps_x> + y <eps_y> of the neutral plane, xx <w_xx> + yy <w_yy> of bending. */
export interface Reading {
  /** Full width of the mode at 1/e^2 [m]; null: a line. */
  readonly width: number | null;
  /** [rad] */
  readonly x: number;
  readonly y: number;
  /** [rad m] */
  readonly xx: number;
  readonly yy: number;
}

interface Asked {
  readonly guide: Guide;
  readonly wavelength: number;
  readonly diaphragm: Pick<Diaphragm, "thickness" | "along" | "stack">;
}

/**
 * The lines whose phases add up to the guide's.
 *
 *     polarimeter, both modes alike     one line with the difference of the indices
 *     polarimeter, each mode its own    + TM at its depth and width, - TE at its own: phi ~ A_TM d_TM' - A_TE d_TE'
 *     one arm of an interferometer      that mode alone, with the whole index stretched
 *
 * In a crystal, whose single modes have no weights here, both modes share the mean depth. Derivation: docs/theory/phase.md.
 */
export function readingsOf(asked: Asked): readonly Reading[] {
  const { guide } = asked;
  const { modes, arm } = guide;
  if (arm !== undefined) return [modeReading(asked, arm, placeOf(guide, arm))];
  if (modes && guide.optics.weights === undefined) {
    const te = modeReading(asked, "TE", modes.te);
    return [modeReading(asked, "TM", modes.tm), { ...te, x: -te.x, y: -te.y, xx: -te.xx, yy: -te.yy }];
  }
  const strain = strainPhase(asked);
  return [bent(asked, strain, guide)];
}

/** What bending does to all of a guide's phase: xx <w_xx> + yy <w_yy> [rad m], its lines together. */
export function guideBending(asked: Asked): { readonly xx: number; readonly yy: number } {
  return readingsOf(asked).reduce((sum, { xx, yy }) => ({ xx: sum.xx + xx, yy: sum.yy + yy }), { xx: 0, yy: 0 });
}

const placeOf = (guide: Guide, arm: "TE" | "TM"): GuideMode =>
  (arm === "TE" ? guide.modes?.te : guide.modes?.tm) ?? {
    index: guide.optics.index,
    depth: guide.depth,
    width: guide.width,
  };

/**
 * One mode alone.
 *
 *     phi = (2 pi / lambda) b [-(n^3 / 2) (a_x eps_x + a_y eps_y) + N eps_y]
 *     TE: a_x = p11 - p12 s, a_y = p12 - p12 s;   TM: a_x = p12 - p11 s, a_y = a_x;   s = nu / (1 - nu)
 */
function modeReading(asked: Asked, mode: "TE" | "TM", place: GuideMode): Reading {
  const { index: n, p11, p12, poissonRatio: nu } = asked.guide.optics;
  const s = nu / (1 - nu);
  const [across, along] = mode === "TE" ? [p11 - p12 * s, p12 - p12 * s] : [p12 - p11 * s, p12 - p11 * s];
  const turns = ((2 * Math.PI) / asked.wavelength) * asked.diaphragm.along;
  const strain = { x: (-turns * cube(n) * across) / 2, y: turns * ((-cube(n) * along) / 2 + place.index) };
  return bent(asked, strain, place);
}

function bent(
  { guide, diaphragm }: Asked,
  strain: { readonly x: number; readonly y: number },
  { depth, width }: { readonly depth: number; readonly width: number | null },
): Reading {
  const z = guideHeight({ face: guide.face, depth }, diaphragm);
  return { width, ...strain, xx: -z.across * strain.x, yy: -z.along * strain.y };
}
