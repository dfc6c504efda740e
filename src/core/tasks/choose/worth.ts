/** What a search makes small: how far requirements are missed (a "must" ten times), then how little of the scarcest is left over. */
import type { FlatnessLeft } from "../../microphone/response/flatness.ts";
import type { Cost } from "../../numerics/searchBox.ts";
import { type Judged, reserve } from "../predict/judge.ts";
import type { Verdict } from "../predict/prediction.ts";

type Stands = Pick<Judged, "verdict" | "flatness">;

/** Violation of what can't be computed. */
export const impossible = 1e6;

/** Less violation first, then less cost. */
export const order = (a: Cost, b: Cost): number =>
  a.violation === b.violation ? a.cost - b.cost : a.violation - b.violation;

export const worthOf = (judged: Stands): Cost => ({ cost: costOf(judged), violation: violationOf(judged) });

/**
 * What is left of a requirement, as `reserve`; of a band that is met no more than what is left of its room above and below. Its
 * end jumps where a peak touches the room: a design with a tenth of a decibel left has little to spare, however far its band goes.
 */
function spare(line: Verdict, flatness: Judged["flatness"]): number | null {
  const left = reserve(line);
  const flat = flatOf(line, flatness);
  return left === null || left < 0 || flat === null ? left : Math.min(left, Math.max(0, roomIn(flat)));
}

const flatOf = ({ requirement }: Verdict, flatness: Judged["flatness"]): FlatnessLeft | null =>
  requirement === "brief.band.from" ? flatness.from : requirement === "brief.band.to" ? flatness.to : null;

/** Of levels [dB], as a natural logarithm of their ratio. */
const roomIn = ({ above, below }: FlatnessLeft): number => (Math.min(above, below) * Math.LN10) / 20;

/** The requirement that has least to spare, with that; null: nothing is asked that is computed. */
export function leastSpare({
  verdict,
  flatness,
}: Stands): { readonly requirement: string; readonly left: number } | null {
  return verdict.reduce<ReturnType<typeof leastSpare>>((least, line) => {
    const left = spare(line, flatness);
    return left === null || (least !== null && least.left <= left) ? least : { requirement: line.requirement, left };
  }, null);
}

/** Room [dB] that a band which is met should keep where something else is missed, so that the design stands on no cliff. */
const roomKept = 0.05;
/** Price of what lacks of it: more than any other requirement gains by it. */
const roomPrice = 10;

/** What is missed, in logarithms of the ratio. */
function violationOf({ verdict, flatness }: Stands): number {
  const missed = missedOf(verdict);
  return missed > 0 ? missed + tightness({ verdict, flatness }) : 0;
}

export const missedOf = (verdict: readonly Verdict[]): number =>
  verdict.reduce((sum, line) => {
    const left = reserve(line);
    return left === null || left >= 0 ? sum : sum - left * (line.must ? 10 : 1);
  }, 0);

export const tightness = ({ verdict, flatness }: Stands): number =>
  verdict.reduce((sum, line) => {
    const flat = flatOf(line, flatness);
    const lacks = flat === null || line.met !== true ? 0 : (roomKept * Math.LN10) / 20 - roomIn(flat);
    return sum + roomPrice * Math.max(0, lacks);
  }, 0);

/** The scarcest counts, the mean of all a little; more than half as much again as asked is no longer worth anything. */
function costOf({ verdict, flatness }: Stands): number {
  const left = verdict.map((line) => spare(line, flatness)).filter((value) => value !== null);
  if (left.length === 0) return 0;
  const capped = left.map((value) => Math.min(value, 0.5));
  return -Math.min(...capped) - (0.1 * capped.reduce((sum, value) => sum + value, 0)) / capped.length;
}
