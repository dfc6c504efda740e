/** Several really different answers out of all that was tried, and what each pays for the others. */
import type { Measure } from "../predict/judge.ts";
import type { Tried } from "./trials.ts";

type Aim = { readonly as: string; readonly measure: Measure; readonly sign: 1 | -1 };
const aims: readonly Aim[] = [
  { as: "most sensitive", measure: "sensitivity", sign: 1 },
  { as: "widest band", measure: "bandTo", sign: 1 },
  { as: "quietest", measure: "noise", sign: -1 },
  { as: "takes the loudest", measure: "loudest", sign: 1 },
];

/** The best, then the one that is best in each other respect; only those that really differ. */
export function variety(all: readonly Tried[], best: Tried): readonly Tried[] {
  const good = all.filter(({ violation }) => violation === 0);
  const list = [best];
  for (const { measure, sign } of aims) {
    const known = good.filter(({ measures }) => measures[measure] !== null);
    if (known.length === 0) continue;
    const most = known.reduce((a, b) => (sign * (b.measures[measure]! - a.measures[measure]!) > 0 ? b : a));
    if (list.every((other) => apart(most.point, other.point) > 0.05)) list.push(most);
  }
  return list;
}

const apart = (a: readonly number[], b: readonly number[]): number => Math.max(...a.map((x, i) => Math.abs(x - b[i]!)));

export function reasonsFor(one: Tried, designs: readonly Tried[]): readonly string[] {
  const reasons = one === designs[0] ? ["balanced"] : [];
  for (const { as, measure, sign } of aims) {
    const value = one.measures[measure];
    if (
      value !== null &&
      designs.every((other) => other === one || sign * (value - (other.measures[measure] ?? value)) >= 0)
    )
      reasons.push(as);
  }
  return reasons;
}

/** Largest number of points of the trade-off that are kept. */
const mostInFront = 60;

/** Designs that no other beats in all of sensitivity, upper band end and noise at once. */
export function front(all: readonly Tried[]): readonly Tried[] {
  const score = ({ measures: { sensitivity, bandTo, noise } }: Tried) => [sensitivity ?? 0, bandTo ?? 0, -(noise ?? 0)];
  const scored = all.map((tried) => ({ tried, score: score(tried) }));
  const kept = scored.filter(
    (one) =>
      !scored.some(
        (other) =>
          other !== one &&
          other.score.every((value, i) => value >= one.score[i]!) &&
          other.score.some((value, i) => value > one.score[i]!),
      ),
  );
  kept.sort((a, b) => a.score[0]! - b.score[0]!);
  const stride = Math.max(1, Math.ceil(kept.length / mostInFront));
  return kept.filter((_, i) => i % stride === 0).map(({ tried }) => tried);
}
