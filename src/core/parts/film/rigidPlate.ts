/** Film under a plate that moves as a whole: the case with closed forms, for checks. */
import type { Air } from "../../material/air.ts";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import { filmCoefficients } from "./coefficients.ts";
import type { Film } from "./film.ts";
import { pressureTerms } from "./pressureTerms.ts";

/**
 * Mean pressure on a rigid plate per deflection toward the film [Pa/m].
 *
 *     p / w = i omega sum_mn (1_m 1_n)^2 / (4 d_mn),   d = Psi k^2 + chi
 *
 * Derivation: docs/theory/film.md. `terms` functions a direction; the sum converges like 1 / terms^3.
 */
export function rigidPlatePressure(given: {
  readonly film: Pick<Film, "gap" | "edges">;
  readonly air: Air;
  readonly across: number;
  readonly along: number;
  readonly omega: Complex;
  readonly terms: number;
}): Complex {
  const { film, air, across, along, omega, terms } = given;
  const { psi, chi } = filmCoefficients({ gap: film.gap, air, omega });
  const x = pressureTerms(film.edges.sides, "even", terms);
  const y = pressureTerms(film.edges.ends, "even", terms);
  let sum = complex(0);
  for (let m = 0; m < terms; m++) {
    for (let n = 0; n < terms; n++) {
      const kSquared = ((2 * x.wavenumbers[m]!) / across) ** 2 + ((2 * y.wavenumbers[n]!) / along) ** 2;
      const share = (x.integrals[m]! * y.integrals[n]!) ** 2 / 4;
      sum = add(sum, divide(complex(share), add(scale(psi, kSquared), chi)));
    }
  }
  return multiply(multiply(complex(0, 1), omega), sum);
}
