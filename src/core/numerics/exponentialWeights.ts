/** Weights of steps in time that are exact in a linear part: z' = a z + u(t), u a polynomial through its last values. */
import { add, type Complex, complex, divide, multiply, scale, subtract } from "./complex.ts";
import { cos, sin } from "./sine.ts";

/** e^z. */
export function exponential({ re, im }: Complex): Complex {
  const size = Math.exp(re);
  return { re: size * cos(im), im: size * sin(im) };
}

/**
 * z(t + h) = grown z(t) + sum over j of weights[j] u(t + (1 - j) h), with u's values at the step's end and its beginning, and as many
 * before as the order has beyond one.
 *
 *     weight_j = h sum over m of l_jm m! phi_{m+1}(a h),   phi_{k+1}(z) = (phi_k(z) - 1 / k!) / z,   phi_0 = e^z
 *
 * l: Lagrange's polynomials on the nodes 1, 0, -1, -2. Source: Cox and Matthews 2002 for the functions (from memory, to be
 * confirmed). Holds: error h^(order + 2) of u's next derivative a step.
 */
export function exponentialWeights(
  a: Complex,
  h: number,
  order: 1 | 2 | 3,
): { readonly grown: Complex; readonly weights: readonly Complex[] } {
  const z = scale(a, h);
  const phi = phiFunctions(z);
  return {
    grown: exponential(z),
    weights: nodes[order].map((coefficients) =>
      scale(
        coefficients.reduce((sum, l, m) => add(sum, scale(phi[m + 1]!, l * factorials[m]!)), complex(0)),
        h,
      ),
    ),
  };
}

const factorials = [1, 1, 2, 6] as const;

/** Coefficients of 1, theta, theta^2, theta^3 of the polynomial that is 1 at one node and 0 at the others. */
const nodes: Readonly<Record<1 | 2 | 3, readonly (readonly number[])[]>> = {
  1: [
    [0, 1],
    [1, -1],
  ],
  2: [
    [0, 1 / 2, 1 / 2],
    [1, 0, -1],
    [0, -1 / 2, 1 / 2],
  ],
  3: [
    [0, 1 / 3, 1 / 2, 1 / 6],
    [1, 1 / 2, -1, -1 / 2],
    [0, -1, 1 / 2, 1 / 2],
    [0, 1 / 6, 0, -1 / 6],
  ],
};

/** phi_0 .. phi_4; by their series where the quotients would cancel. */
function phiFunctions(z: Complex): readonly Complex[] {
  if (Math.hypot(z.re, z.im) < 1) return [0, 1, 2, 3, 4].map((k) => phiSeries(z, k));
  const phi = [exponential(z)];
  let factorial = 1;
  for (let k = 0; k < 4; k++) {
    if (k > 0) factorial *= k;
    phi.push(divide(subtract(phi[k]!, complex(1 / factorial)), z));
  }
  return phi;
}

/** sum z^j / (j + k)! */
function phiSeries(z: Complex, k: number): Complex {
  let factorial = 1;
  for (let i = 2; i <= k; i++) factorial *= i;
  let term = complex(1 / factorial);
  let sum = term;
  for (let j = 1; j < 20; j++) {
    term = scale(multiply(term, z), 1 / (j + k));
    sum = add(sum, term);
  }
  return sum;
}
