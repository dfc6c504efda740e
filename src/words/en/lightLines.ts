/** The light at rest in one or two lines of `predict`. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { LightAnswer } from "../../core/tasks/predict/light.ts";

const angle = (value: number) => formatQuantity(value, "angle", { digits: 3 });

/** "bias 90.0 deg (given), contrast 0.95, slope 0.95 of full scale a radian; 1 dB less after 4.1 K; …" */
export function lightText({ bias, biasFrom, visibility, slope, quadrature, drift, guides }: LightAnswer): string {
  const said = [
    `bias ${angle(bias)} (${biasFrom}), contrast ${formatNumber(visibility, { digits: 3 })}, slope ${formatNumber(slope, { digits: 3 })} 1/rad (${formatNumber(100 * quadrature, { digits: 3 })} % of the best)`,
  ];
  const step = drift.stepForOneDb.temperature;
  if (step !== null)
    said.push(
      `${angle(drift.perKelvin)} a kelvin, 1 dB less slope after ${formatQuantity(step, "temperatureDifference", { digits: 2 })}`,
    );
  const [first] = guides;
  if (first?.modes) {
    const { te, tm } = first.modes;
    const length = (value: number) => formatQuantity(value, "length", { digits: 3 });
    said.push(
      `modes ${length(te.depth)} (TE) and ${length(tm.depth)} (TM) deep, index ${te.index.toFixed(5)} and ${tm.index.toFixed(5)}`,
    );
  }
  return said.join("; ");
}
