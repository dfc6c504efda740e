/** One hole in the wall behind the film: what the flow to it costs. */
import { prepare } from "../src/core/microphone/system/prepare.ts";
import { restImpedance, wallHoleOf } from "../src/core/microphone/system/wallHole.ts";
import { complex } from "../src/core/numerics/complex.ts";
import { workedMicrophone } from "./devices.ts";
import type { TruthRow } from "./row.ts";

/** Mean pressure over a closed square film without compression, its plate moving as a whole, over that at the hole: B of p = v R^2 B / Psi. */
function squareB(share: number): number {
  const side = 5e-3;
  const bare = workedMicrophone({ across: side, thickness: 30e-6, gap: 10e-6, edges: "closed" });
  const hole = { diameter: 2 * side * Math.sqrt(share / Math.PI), length: 1e-3, at: [0, 0], ends: "none" } as const;
  const microphone = { ...bare, film: { ...bare.film!, backPlate: { kind: "hole", hole } as const } };
  const { film } = prepare(microphone);
  const prepared = wallHoleOf(film, microphone)!;
  let own = 0;
  film!.across.wavenumbers.forEach((x, m) => {
    film!.along.wavenumbers.forEach((y, n) => {
      if (m + n > 0) own += prepared.means[m * film!.along.count + n]! ** 2 / (x * x + y * y);
    });
  });
  const rest = restImpedance(prepared, microphone.diaphragm, { psi: complex(1), chi: complex(0) });
  // U = v side^2, R^2 = side^2 / pi; a sum over 1 / k^2 in units of the half side is the same for every side.
  return Math.PI * (own + rest.re);
}

const row = (share: number): TruthRow => ({
  what: `closed square film, hole of ${100 * share} % in the middle: mean pressure over v R^2 / Psi [-]`,
  got: () => squareB(share),
  expected: (-Math.log(share) - 1.476336 + 2 * share - share ** 2 / 2) / 4,
  within: (0.3 * share) / ((-Math.log(share) - 1.476) / 4),
  why: "the even sink also takes the volume above the hole itself, a quarter of the share",
  origin: "published",
  source:
    "[drummond-tahir-1984], flow along a square array of cylinders, the same equation (from memory, to be confirmed)",
});

export const rows: readonly TruthRow[] = [row(0.0005), row(0.0025), row(0.01)];
