/** The answer of `spread` in words. */
import type { Problem } from "../../core/problem.ts";
import { formatNumber } from "../../core/quantity/format.ts";
import { measures } from "../../core/tasks/predict/judge.ts";
import type { Spread } from "../../core/tasks/spread/spread.ts";
import { hanging } from "../wrap.ts";
import { measureText, measureWords } from "./measures.ts";
import { problemLines } from "./problems.ts";
import { requirementWords } from "./requirements.ts";

const width = 98;
const share = (value: number) => `${formatNumber(100 * value, { digits: 3 })} %`;

export function spreadLines(spread: Spread, remarks: readonly Problem[] = []): string[] {
  const { yield: passed, count, seed, impossible } = spread;
  return [
    `${share(passed.value)} of ${count} specimens meet the brief (95 % interval ${share(passed.low)} to ${share(passed.high)}; seed ${seed}).`,
    ...(impossible > 0 ? [`${impossible} of them can't be made or computed, and count as failed.`] : []),
    "",
    "Each requirement by itself:",
    ...spread.byRequirement.map(
      ({ requirement, yield: one }) =>
        `  ${requirementWords(requirement).label.padEnd(24)} ${one === null ? "not computed" : share(one.value)}`,
    ),
    "",
    "Half, and 95 of a hundred, lie between:",
    ...measures.flatMap((measure) => {
      const found = spread.measures[measure];
      if (found === undefined) return [];
      const [low, , middle, , high] = found.at;
      return [
        `  ${measureWords[measure].label.padEnd(24)} ${measureText(measure, middle ?? null)} (${measureText(measure, low ?? null)} to ${measureText(measure, high ?? null)})`,
      ];
    }),
    ...influenceLines(spread),
    ...purchaseLines(spread),
    "",
    ...hanging(
      "",
      `${spread.route.spanned} of them were answered by what spans all, ${spread.route.alone} one by one; estimated error of a response: ${formatNumber(spread.estimate.median, { digits: 1 })} in the middle, ${formatNumber(spread.estimate.worst, { digits: 1 })} at most.`,
      width,
    ),
    ...(remarks.length > 0 ? ["", ...problemLines(remarks)] : []),
  ];
}

function influenceLines({ influence }: Spread): string[] {
  if (influence.length === 0) return [];
  return [
    "",
    "What decides (share of the variance of the scarcest requirement; alone, and with its interplay):",
    ...influence.map(
      ({ label, first, total, firstStandard, totalStandard }) =>
        `  ${label.padEnd(24)} ${percent(first, firstStandard)}, ${percent(total, totalStandard)}`,
    ),
  ];
}

const percent = (value: number, standard: number) =>
  `${formatNumber(100 * value, { digits: 2 })} % ± ${formatNumber(100 * standard, { digits: 1 })} %`;

function purchaseLines({ purchase }: Spread): string[] {
  if (purchase === null) return [];
  const best = purchase.alone[0];
  if (purchase.halve.length === 0)
    return [
      "",
      "No tolerance that can be bought lifts the yield: move the middle of the design (choose), not its spread.",
    ];
  const list = purchase.halve.map(({ path, times }) => `${path} ${times === 1 ? "halved" : `halved ${times} times`}`);
  return [
    "",
    ...hanging(
      "To buy: ",
      `${list.join(", ")} (cost ${purchase.cost}): ${share(purchase.yield)} pass${purchase.reached ? "" : ", still less than wanted"}.${best ? ` The best single buy is ${best.path}: ${share(best.yield)}.` : ""}`,
      width,
    ),
  ];
}
