/** The plane as the two power laws of a thin plate would have it, from the present design: to show where they fail. */
import type { ChartPlane, Prediction } from "../../core/index.ts";

const side = "microphone.diaphragm.across";
const thickness = "microphone.diaphragm.thickness";

/** Sensitivity ~ side^3 / thickness^2, resonance ~ thickness / side^2; null where the axes are other values. */
export function lawPlane(plane: ChartPlane, { sensitivity, modes }: Prediction): ChartPlane | null {
  const [x, y] = [plane.x, plane.y];
  const [here, there] = [plane.here.x, plane.here.y];
  const first = modes[0]?.frequency;
  if (x.path !== side || y.path !== thickness || here === null || there === null || first === undefined) return null;
  const over = (law: (a: number, h: number) => number) =>
    y.values.flatMap((h) => x.values.map((a) => law(a / here, h / there)));
  const none = over(() => 0).map(() => null);
  return {
    ...plane,
    measures: {
      bandFrom: none,
      bandTo: none,
      damping: none,
      noise: none,
      loudest: none,
      vibration: none,
      strength: none,
      sensitivity: over((a, h) => (sensitivity.magnitude * a ** 3) / h ** 2),
      resonance: over((a, h) => (first * h) / a ** 2),
    },
  };
}
