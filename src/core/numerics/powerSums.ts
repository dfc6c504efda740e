/** A few numbers from the sums of their powers. */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "./complex.ts";
import { cos, sin } from "./sine.ts";

/**
 * The n numbers z with sums s_k = sum z^k, k = 1 .. n, by the polynomial that has them as zeros:
 *
 *     k e_k = sum over i = 1 .. k of (-1)^(i - 1) e_(k - i) s_i,   sum over k of (-1)^k e_k z^(n - k) = 0
 *
 * and the Weierstrass (Durand and Kerner) iteration for all of them at once. Twins come out apart by about the root of the sums' error.
 * Source: Newton's identities, Weierstrass 1891 (from memory, to be confirmed).
 */
export function fromPowerSums(sums: readonly Complex[]): readonly Complex[] {
  const n = sums.length;
  const elementary: Complex[] = [complex(1)];
  for (let k = 1; k <= n; k++) {
    let sum = complex(0);
    for (let i = 1; i <= k; i++)
      sum = add(sum, scale(multiply(elementary[k - i]!, sums[i - 1]!), i % 2 === 1 ? 1 : -1));
    elementary.push(scale(sum, 1 / k));
  }
  const value = (z: Complex) =>
    elementary.reduce((sum, e, k) => add(multiply(sum, z), scale(e, k % 2 === 0 ? 1 : -1)), complex(0));
  const mean = scale(sums[0] ?? complex(0), 1 / n);
  // A circle about the mean, turned so that no start lies on a line of symmetry.
  const radius = Math.max(
    1e-3,
    Math.sqrt(absolute(subtract(scale(sums[1] ?? complex(0), 1 / n), multiply(mean, mean)))),
  );
  const roots = sums.map((_, i) => {
    const angle = 0.4 + (2 * Math.PI * i) / n;
    return add(mean, complex(radius * cos(angle), radius * sin(angle)));
  });
  if (n === 1) return [mean];
  for (let step = 0; step < 60; step++) {
    let moved = 0;
    for (let i = 0; i < n; i++) {
      let others = complex(1);
      for (let k = 0; k < n; k++) if (k !== i) others = multiply(others, subtract(roots[i]!, roots[k]!));
      const change = divide(value(roots[i]!), others);
      if (!Number.isFinite(change.re + change.im)) continue;
      roots[i] = subtract(roots[i]!, change);
      moved = Math.max(moved, absolute(change));
    }
    if (moved < 1e-10 * radius) break;
  }
  return roots;
}
