/** Whether in-plane compression has bent the diaphragm out of its plane, now or at another temperature. */
import type { Diaphragm } from "../../parts/diaphragm/diaphragm.ts";
import { isBuckled } from "../../parts/diaphragm/modes.ts";
import { answer, type Outcome, refuse } from "../../problem.ts";

const functions = 8;

/** The diaphragm, or why it has no linear response: the compression present and the share of it that the plate can bear. */
export function notBuckled(diaphragm: Diaphragm): Outcome<Diaphragm> {
  if (!isBuckled(diaphragm, functions)) return answer(diaphragm);
  const { across, along } = diaphragm.tension;
  const stable = boundary(0, 1, (share) =>
    isBuckled({ ...diaphragm, tension: { across: share * across, along: share * along } }, functions),
  );
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

/** The diaphragm with the tension of another temperature, a step of so many kelvins away. */
export function atStep(diaphragm: Diaphragm, step: number): Diaphragm {
  const { tension, tensionPerKelvin: slope } = diaphragm;
  if (!slope) return diaphragm;
  return {
    ...diaphragm,
    tension: { across: tension.across + step * slope.across, along: tension.along + step * slope.along },
  };
}

/** Step in temperature at which a flat diaphragm buckles on the way to `step` [K]; null: it stays flat. */
export function bucklingStep(diaphragm: Diaphragm, step: number): number | null {
  const buckled = (share: number) => isBuckled(atStep(diaphragm, share * step), functions);
  return buckled(1) ? step * boundary(0, 1, buckled) : null;
}

/** Where a statement becomes true between a place where it is not and one where it is, to a millionth of their distance. */
function boundary(from: number, to: number, holds: (at: number) => boolean): number {
  let [no, yes] = [from, to];
  while (Math.abs(yes - no) > 1e-6 * Math.abs(to - from)) {
    const middle = (no + yes) / 2;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return no;
}
