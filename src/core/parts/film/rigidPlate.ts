/** Film under a plate that moves as a whole: the case with closed forms, for checks. */
import type { Air } from "../../material/air.ts";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import { factorSymmetric, solveFactored, symmetricWork } from "../../numerics/complexSymmetric.ts";
import { filmCoefficients } from "./coefficients.ts";
import type { Film } from "./film.ts";
import { pressureTerms } from "./pressureTerms.ts";
import { gapField, quarterPoints, reliefMatrices } from "./relief.ts";

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

/**
 * The same over a film whose gap is g + d(xi, eta) [m], even across and along, xi and eta from -1 to 1; `low` functions feel where
 * it is, the others its means.
 *
 *     p / w = i omega 1^T D^-1 1 / 4,   D_mn = integral Psi(h) grad G_m . grad G_n + chi(h) G_m G_n
 */
export function rigidPlatePressureOver(
  given: Omit<Parameters<typeof rigidPlatePressure>[0], "terms"> & {
    readonly terms: { readonly across: number; readonly along: number };
    readonly height: (xi: number, eta: number) => number;
    readonly low: number;
  },
): Complex {
  const { film, air, across, along, omega, terms, height, low } = given;
  const points = quarterPoints(12 + 2 * Math.min(low, Math.max(terms.across, terms.along)));
  const { nodes, weights } = points;
  const n = nodes.length;
  const heights = Float64Array.from({ length: n * n }, (_, i) => height(nodes[Math.floor(i / n)]!, nodes[i % n]!));
  const field = gapField(points, heights);
  const mean = heights.reduce((sum, value, i) => sum + (weights[Math.floor(i / n)]! * weights[i % n]! * value) / 4, 0);
  const x = pressureTerms(film.edges.sides, "even", terms.across);
  const y = pressureTerms(film.edges.ends, "even", terms.along);
  const sides = { across: "even", along: "even" } as const;
  const relief = reliefMatrices(field, { across: x, along: y, sides, aspect: along / across }, low);
  const unit = 4 / across ** 2;
  const at = field.heights.map((d) => filmCoefficients({ gap: film.gap + mean + d, air, omega }));
  const over = (key: "psi" | "chi") =>
    at.reduce((sum, one, j) => add(sum, scale(one[key], field.shares[j]!)), complex(0));
  const [psi, chi] = [over("psi"), over("chi")];
  const place = new Map(Array.from(relief.index, (of, a) => [of, a]));
  const size = relief.index.length;
  const [re, im] = [new Float64Array(size * size), new Float64Array(size * size)];
  for (const [j, one] of at.entries()) {
    for (let i = 0; i < re.length; i++) {
      const [k, m] = [unit * relief.kappa[j]![i]!, relief.mass[j]![i]!];
      re[i]! += one.psi.re * k + one.chi.re * m;
      im[i]! += one.psi.im * k + one.chi.im * m;
    }
  }
  const ones = { re: new Float64Array(size), im: new Float64Array(size) };
  let sum = complex(0);
  for (let m = 0; m < terms.across; m++) {
    for (let k = 0; k < terms.along; k++) {
      const kSquared = unit * (x.wavenumbers[m]! ** 2 + ((y.wavenumbers[k]! * across) / along) ** 2);
      const d = add(scale(psi, kSquared), chi);
      const one = x.integrals[m]! * y.integrals[k]!;
      const a = place.get(m * terms.along + k);
      if (a === undefined) sum = add(sum, divide(complex(one * one), d));
      else {
        re[a * size + a]! += d.re;
        im[a * size + a]! += d.im;
        ones.re[a] = one;
      }
    }
  }
  const work = symmetricWork(size);
  factorSymmetric(work, re, im);
  const answer = { re: ones.re.slice(), im: ones.im.slice() };
  solveFactored(work, answer);
  for (let a = 0; a < size; a++) sum = add(sum, scale({ re: answer.re[a]!, im: answer.im[a]! }, ones.re[a]!));
  return multiply(multiply(complex(0, 1), omega), scale(sum, 0.25));
}
