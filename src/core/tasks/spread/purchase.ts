/** Which tolerance to buy: the cheapest halvings that bring the yield to what is wanted. */

import { pow } from "../../numerics/power.ts";
import { reserve } from "../predict/judge.ts";
import type { Plan } from "./specimens.ts";

export interface Purchase {
  /** What to halve, how often, and what that costs in the project's units of cost. */
  readonly halve: readonly {
    readonly path: string;
    readonly times: number;
    readonly width: number;
    readonly cost: number;
  }[];
  readonly cost: number;
  /** Yield with these tolerances, computed again with the whole model [-]. */
  readonly yield: number;
  /** Whether that reaches what is wanted. */
  readonly reached: boolean;
  /** What halving each one alone, once, would do; the best buy first. */
  readonly alone: readonly { readonly path: string; readonly yield: number; readonly cost: number | null }[];
}

/** Specimens that each trial is judged with, the same points every time: differences are the tolerances' alone. */
const trial = 128;
const mostHalvings = 6;

/** Greedy: at each step the halving with the most yield for its cost. null where no tolerance has a price. */
export function purchase(plan: Plan, wanted: number, before: number): Purchase | null {
  const { tolerances } = plan.spreads;
  const forSale = tolerances.flatMap(({ costOfHalving, from }, i) =>
    from === "tolerance" ? [{ i, cost: costOfHalving }] : [],
  );
  if (forSale.length === 0) return null;
  const yieldWith = (times: readonly number[]): number => {
    const factors = times.map((t) => pow(0.5, t));
    let passed = 0;
    for (let k = 0; k < trial; k++) {
      const judged = plan.judgeAt(plan.point(k), factors);
      if (!judged.ok) continue;
      const left = judged.value.verdict.map(reserve);
      if (left.every((value) => value === null || value >= 0)) passed++;
    }
    return passed / trial;
  };
  const none = tolerances.map(() => 0);
  const once = (i: number, times: readonly number[]) => times.map((t, k) => (k === i ? t + 1 : t));
  const alone = forSale
    .map(({ i, cost }) => ({ path: tolerances[i]!.path.text, yield: yieldWith(once(i, none)), cost }))
    .sort((a, b) => (b.yield - before) / (b.cost ?? 1) - (a.yield - before) / (a.cost ?? 1));
  let [times, reached, cost] = [none as readonly number[], before, 0];
  for (let step = 0; step < mostHalvings && reached < wanted; step++) {
    const tried = forSale.map(({ i, cost: price }) => {
      const next = once(i, times);
      // Without a price one halving counts as one.
      return {
        next,
        price: price ?? 1,
        got: step === 0 ? alone.find(({ path }) => path === tolerances[i]!.path.text)!.yield : yieldWith(next),
      };
    });
    const best = tried.reduce((a, b) => ((b.got - reached) / b.price > (a.got - reached) / a.price ? b : a));
    if (best.got <= reached) break;
    [times, reached, cost] = [best.next, best.got, cost + best.price];
  }
  return {
    halve: times.flatMap((t, i) =>
      t === 0
        ? []
        : [
            {
              path: tolerances[i]!.path.text,
              times: t,
              width: tolerances[i]!.width * pow(0.5, t),
              cost: t * (tolerances[i]!.costOfHalving ?? 1),
            },
          ],
    ),
    cost,
    yield: reached,
    reached: reached >= wanted,
    alone,
  };
}
