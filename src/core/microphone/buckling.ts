/** Whether in-plane compression has bent the diaphragm out of its plane. */
import type { Diaphragm } from "../parts/diaphragm/diaphragm.ts";
import { isBuckled } from "../parts/diaphragm/modes.ts";
import { answer, type Outcome, refuse } from "../problem.ts";

const functions = 8;

/** The diaphragm, or why it has no linear response: the compression present and the share of it that the plate can bear. */
export function notBuckled(diaphragm: Diaphragm): Outcome<Diaphragm> {
  if (!isBuckled(diaphragm, functions)) return answer(diaphragm);
  const { across, along } = diaphragm.tension;
  const scaled = (share: number) => ({ ...diaphragm, tension: { across: share * across, along: share * along } });
  let [stable, buckled] = [0, 1];
  while (buckled - stable > 1e-6) {
    const middle = (stable + buckled) / 2;
    if (isBuckled(scaled(middle), functions)) buckled = middle;
    else stable = middle;
  }
  const critical = (force: number) => (force * stable).toPrecision(4);
  return refuse({
    code: "buckled",
    path: ["microphone", "diaphragm"],
    message:
      `The diaphragm is buckled: in-plane force ${across.toPrecision(4)} N/m across and ${along.toPrecision(4)} N/m along ` +
      `(tension positive), from residual tension and thermal mismatch with the frame together. It stays flat only down to ` +
      `${critical(across)} and ${critical(along)} N/m, ${(100 * stable).toPrecision(3)} % of that. ` +
      "Make it thicker or smaller, or lower the mismatch.",
  });
}
