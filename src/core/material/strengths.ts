/** Strength that is assumed for glass where a project gives none, and how cracks grow. */
import { pow } from "../numerics/power.ts";
import type { Strength } from "./material.ts";

/** Modulus that goes with it [-]. */
const modulus = 7;

/**
 * Annealed float: 45 MPa break 5 % of specimens in bending tests [en-572]; modulus 7 as in ASTM E1300 (from memory, to be
 * confirmed), so that 63 % break at 45 MPa (-ln 0.95)^(-1/7). A fractile of a product in a test, not an allowable stress; thin
 * drawn or etched sheet may be several times stronger or, scratched, weaker. No credit is taken for a small area.
 */
export const assumedGlass: Omit<Strength, "area"> = {
  scale: 45e6 * pow(-Math.log(0.95), -1 / modulus),
  modulus,
  time: 60,
  source: "annealed float, 5 % break at 45 MPa [en-572]; modulus 7, 60 s from memory",
  sure: "from memory",
};

/** Exponent of slow crack growth in humid air, soda-lime glass [-]. Source: EN 16612 (from memory, to be confirmed). */
export const crackGrowth = 16;
