/** What is asked of a frequency response, and the points that answer: those in the part to fit, in order of frequency. */
import { answer, type Outcome, refuse } from "../problem.ts";
import type { SectionData } from "./sectionModel.ts";

export interface ResponseQuestion {
  /** [Hz] */
  readonly frequency: ArrayLike<number>;
  /** Real parts, or magnitudes where `im` is absent; in the unit of the output per that of the input. */
  readonly re: ArrayLike<number>;
  readonly im?: ArrayLike<number>;
  /** Standard uncertainty of each part; alike and from the residuals where absent. */
  readonly standard?: ArrayLike<number>;
  /** Part to fit [Hz]; all where absent. */
  readonly from?: number;
  readonly to?: number;
  /** Number of sections; one, or two where the data demand it, where absent. */
  readonly sections?: number;
  /** Terms beside the sections: 0 to 2; as the data demand where absent. */
  readonly rest?: number;
  /** Where the resonance lies, about [Hz]; the highest point where absent. */
  readonly near?: number;
  /** What a fit of a resonance that the points do not show becomes; refused where absent. A response of its own is worth having without. */
  readonly unshown?: "refused" | "remarked";
}

export interface Taken {
  readonly data: SectionData;
  /** [Hz] */
  readonly scale: number;
  /** Index of the highest point. */
  readonly peak: number;
}

export function pointsOf({ frequency, re, im, standard, from, to, near }: ResponseQuestion): Outcome<Taken> {
  for (const [name, list] of [
    ["re", re],
    ["im", im],
    ["standard", standard],
  ] as const)
    if (list !== undefined && list.length !== frequency.length)
      return refuse({
        code: "columns-unequal",
        path: [name],
        message: `${name} has ${list.length} numbers for ${frequency.length} frequencies; needed: one for each.`,
      });
  const order = Array.from({ length: frequency.length }, (_, i) => i)
    .filter(
      (i) => [frequency[i]!, re[i]!, im?.[i] ?? 0, standard?.[i] ?? 1].every(Number.isFinite) && frequency[i]! > 0,
    )
    .filter((i) => frequency[i]! >= (from ?? 0) && frequency[i]! <= (to ?? Number.POSITIVE_INFINITY))
    .sort((a, b) => frequency[a]! - frequency[b]!);
  if (order.length < 6)
    return refuse({
      code: "too-few-points",
      path: ["frequency"],
      message: `Points with a number in the part to fit: ${order.length} of ${frequency.length}; needed: 6 or more, several of them within the width of the peak.`,
    });
  const size = order.map((i) => Math.hypot(re[i]!, im?.[i] ?? 0));
  if (size.every((value) => value === size[0]))
    return refuse({
      code: "silent",
      path: ["re"],
      message: `All ${size.length} points are ${size[0]}; needed: a response. Is it the right column?`,
    });
  let peak = size.indexOf(Math.max(...size));
  if (near !== undefined)
    peak = order.reduce(
      (best, i, k) => (Math.abs(frequency[i]! - near) < Math.abs(frequency[order[best]!]! - near) ? k : best),
      0,
    );
  const scale = near ?? frequency[order[peak]!]!;
  const list = (values: ArrayLike<number>) => Float64Array.from(order, (i) => values[i]!);
  return answer({
    scale,
    peak,
    data: {
      x: list(frequency).map((value) => value / scale),
      re: im === undefined ? Float64Array.from(size) : list(re),
      im: im === undefined ? null : list(im),
      weight:
        standard === undefined ? new Float64Array(order.length).fill(1) : list(standard).map((value) => 1 / value),
    },
  });
}
