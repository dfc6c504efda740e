/** What a project predicts over a thickness, a side or a gap: the curve under which readings are laid. */
import { createEngine, type Engine, settle } from "../../microphone/engine.ts";
import { pow } from "../../numerics/power.ts";
import { readBrief } from "../../project/brief.ts";
import type { Project } from "../../project/load.ts";
import { vary } from "../../project/paths.ts";
import { tiesOf } from "../../project/ties.ts";
import type { TheoryCurve } from "../../reading/theoryCurve.ts";
import type { RecordTable } from "../../record/table.ts";
import { inSi } from "../../record/units.ts";
import { dampingAgainstGap } from "../predict/dampingAgainstGap.ts";
import { createBranch } from "../predict/followBranch.ts";
import { watchMicrophone } from "../predict/predict.ts";
import { columnOf } from "./signal.ts";

export interface CurveWanted {
  readonly over: TheoryCurve["over"];
  readonly of: TheoryCurve["of"];
  /** Smallest and largest value in the table [m]. */
  readonly from: number;
  readonly to: number;
}

/** What a table of readings over a thickness, side or gap asks of a project; null: it is no such table. */
export function curveWanted(table: RecordTable): CurveWanted | null {
  const axis = columnOf(table, "thickness", "side", "gap");
  const read = columnOf(table, "sensitivity", "resonance", "dampingRatio");
  if (axis === undefined || read === undefined) return null;
  const values = Array.from(inSi(axis)).filter((value) => Number.isFinite(value) && value > 0);
  if (values.length === 0) return null;
  return {
    over: axis.is as CurveWanted["over"],
    of: read.is as CurveWanted["of"],
    from: Math.min(...values),
    to: Math.max(...values),
  };
}

const paths = {
  thickness: "microphone.diaphragm.thickness",
  side: "microphone.diaphragm.across",
  gap: "microphone.film.gap",
} as const;

/** Places at which the curve is predicted, in equal ratios. */
const points = 13;
/** Beyond the readings on both sides: room for an offset. */
const room = 1.5;

/** null where the project has no such value, or no curve there. */
export function predictedCurve(
  project: Project,
  { over, of, from, to }: CurveWanted,
  engine: Engine = createEngine(),
): TheoryCurve | null {
  const [low, high] = [from / room, to * room];
  const x = Array.from({ length: points }, (_, i) => low * pow(high / low, i / (points - 1)));
  const y = over === "gap" && of !== "sensitivity" ? overGap(project, of, { low, high }, engine) : null;
  return longestRun(over, of, x, y ?? overOther(project, { over, of }, x, engine));
}

/** One resonance followed from the widest gap on. */
function overGap(
  project: Project,
  of: "resonance" | "dampingRatio",
  { low, high }: { readonly low: number; readonly high: number },
  engine: Engine,
): readonly (number | null)[] {
  const steps = dampingAgainstGap(project, { from: low, to: high, count: points, engine });
  let next = steps.next();
  while (next.done !== true) next = steps.next();
  if (!next.value.ok) return [];
  return of === "resonance" ? next.value.value.frequency : next.value.value.dampingRatio;
}

/** With the side the guide goes in proportion, and the other side. One resonance is followed from the stiffest plate on. */
function overOther(
  project: Project,
  { over, of }: Pick<CurveWanted, "over" | "of">,
  x: readonly number[],
  engine: Engine,
): readonly (number | null)[] {
  const ties = tiesOf(project, paths[over], [], { sides: true });
  const variation = vary(project, [paths[over], ...ties.map(({ path }) => path)]);
  if (!variation.ok || variation.value.start[0] === null) return [];
  const brief = readBrief(project);
  const branch = createBranch();
  const read = (value: number): number | null => {
    const described = variation.value.at([value, ...ties.map(({ ratio }) => ratio * value)]);
    const stands = described.ok ? settle(engine, described.value) : described;
    if (!stands.ok) return null;
    const { resonances, decays, sensitivity } = watchMicrophone(stands.value, brief, { engine, manner: "quick" });
    if (of === "sensitivity") return sensitivity.magnitude;
    const { frequency, dampingRatio } = branch(Math.log(value), resonances, decays);
    return of === "resonance" ? frequency : dampingRatio;
  };
  return over === "side" ? x.map(read) : [...x].reverse().map(read).reverse();
}

/** The longest stretch on which there is a value everywhere. */
function longestRun(
  over: CurveWanted["over"],
  of: CurveWanted["of"],
  x: readonly number[],
  y: readonly (number | null)[],
): TheoryCurve | null {
  let [best, first] = [{ first: 0, last: 0 }, 0];
  for (let i = 0; i <= y.length; i++) {
    const here = y[i];
    if (here !== undefined && here !== null && here > 0) continue;
    if (i - first > best.last - best.first) best = { first, last: i };
    first = i + 1;
  }
  const { first: start, last: end } = best;
  if (end - start < 4) return null;
  return { over, of, x: x.slice(start, end), y: y.slice(start, end).map((value) => value!) };
}
