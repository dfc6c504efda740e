/** The answer of `chart` in words: what the plane holds. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { ChartPlane } from "../../core/tasks/chart/plane.ts";
import { measures } from "../../core/tasks/predict/judge.ts";
import { measureText, measureWords } from "./measures.ts";

export function chartLines(plane: ChartPlane): string[] {
  const { x, y, state, least, worstEstimate, tied, route } = plane;
  const shown = (value: number, axis: ChartPlane["x"]) => formatQuantity(value, axis.kind, { digits: 3 });
  const computed = state.filter((one) => one === 1).length;
  const allowed = least.filter((value) => value !== null && value >= 0).length;
  const bestAt = least.reduce<number>(
    (best, value, i) => (value !== null && value > (least[best] ?? Number.NEGATIVE_INFINITY) ? i : best),
    0,
  );
  const n = x.values.length;
  const share = formatNumber((100 * allowed) / Math.max(1, computed), { digits: 2 });
  return [
    `${x.label} ${shown(x.from, x)} to ${shown(x.to, x)}, ${y.label.toLowerCase()} ${shown(y.from, y)} to ${shown(y.to, y)}: ${computed} microphones computed.`,
    ...(tied.length > 0 ? [`In proportion with the side: ${tied.join(", ")}.`] : []),
    allowed === 0
      ? "None of them meets the brief."
      : `${share} % of them meet the brief; most to spare at ${shown(x.values[bestAt % n]!, x)}, ${shown(y.values[Math.floor(bestAt / n)]!, y)}.`,
    "",
    "From least to most over the plane:",
    ...measures.flatMap((measure) => {
      const known = plane.measures[measure].filter((value) => value !== null);
      if (known.length === 0) return [];
      const [low, high] = known.reduce<[number, number]>(
        ([a, b], v) => [Math.min(a, v), Math.max(b, v)],
        [known[0]!, known[0]!],
      );
      return [
        `  ${measureWords[measure].label.padEnd(20)} ${measureText(measure, low)} to ${measureText(measure, high)}`,
      ];
    }),
    "",
    `${route.spanned} were answered by what spans many, ${computed - route.spanned} one by one; largest estimate of a response's error: ${formatNumber(worstEstimate, { digits: 1 })}.`,
    "Points: --csv; picture: --svg.",
  ];
}
