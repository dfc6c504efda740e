/** Requirements that contradict each other, in words. */
import { formatQuantity } from "../../core/quantity/format.ts";
import type { Contradiction } from "../../core/tasks/check/contradictions.ts";
import { requirementWords } from "./requirements.ts";

/** "sensitivity at least 1 mrad/Pa: with band to 16 kHz at most 0.11 mrad/Pa." and the law. */
export function contradictionText({ requirement, asked, nearest, against, law }: Contradiction): string {
  const { label, kind } = requirementWords(requirement);
  const shown = (value: number) => formatQuantity(value, kind, { digits: 2 });
  const others = against.map((one) => requirementWords(one).label).join(" and ");
  const given = others === "" ? "of this sheet" : `together with what is asked as “${others}”`;
  return `${label} ${formatQuantity(asked, kind, { digits: 3 })} is out of reach: ${given} it can be about ${shown(nearest)}. ${law}`;
}
