/** What fabrication and site do to a design: yield against the brief, what matters most, the worst corners, what to buy. */

import { drain } from "../../numerics/progress.ts";
import { answer, type Outcome, type Problem, refuse } from "../../problem.ts";
import type { Project } from "../../project/load.ts";
import { type Measures, reserve } from "../predict/judge.ts";
import { type Purchase, purchase } from "./purchase.ts";
import { type Plan, planSpread, type SpecimenRow, type SpreadOptions } from "./specimens.ts";
import { spreadDefaults } from "./spreadDefaults.ts";
import { type SpreadSummary, summarize } from "./summary.ts";

export type { SpreadOptions };

/** A piece of a run: rows of the specimens from `from` on. Pieces of the same project, seed and counts fit together. */
export interface SpreadPart {
  readonly kind: "glassdrum-spread-part";
  readonly seed: number;
  readonly count: number;
  readonly influence: number;
  readonly total: number;
  /** Text of the project that it was computed for. */
  readonly project: string;
  readonly from: number;
  readonly rows: readonly SpecimenRow[];
}

export interface Corner {
  readonly requirement: string;
  /** Where the slopes lead against this requirement: each value two standard deviations, or the whole half width, to that side [SI]. */
  readonly values: Readonly<Record<string, number>>;
  /** Natural logarithm of its ratio to what is asked; null: not computed, or no such microphone. */
  readonly reserve: number | null;
  readonly measures: Measures | null;
}

export interface Spread extends SpreadSummary {
  readonly count: number;
  readonly seed: number;
  /** Where each value lies, in the order of the tolerances and then of the site. */
  readonly varied: readonly {
    readonly path: string;
    readonly label: string;
    readonly kind: "normal" | "uniform" | "triangular";
    readonly middle: number;
    readonly width: number;
    readonly from: "tolerance" | "site";
  }[];
  readonly corners: readonly Corner[];
  /** The cheapest tightening that reaches the wanted yield; null where the yield is reached, or nothing can be bought. */
  readonly purchase: Purchase | null;
}

export interface SpreadQuestion extends SpreadOptions {
  /** Share of specimens that should pass; `spreadDefaults` where absent. */
  readonly wanted?: number;
  /** Parts may be missing at the end: what is there is told. */
  readonly partial?: boolean;
}

type Step = { readonly done: number; readonly of: number; readonly soFar?: SpreadSummary };

/** How many specimens between two looks at what is there. */
const between = 250;

/** The whole run. Problems: those of `planSpread`. */
export function* spread(project: Project, question: SpreadQuestion = {}): Generator<Step, Outcome<Spread>> {
  const plan = planSpread(project, question);
  if (!plan.ok) return plan;
  const rows: SpecimenRow[] = [];
  for (const _ of plan.value.ready()) yield { done: 0, of: plan.value.total };
  for (let i = 0; i < plan.value.total; i++) {
    rows.push(plan.value.specimen(i));
    const look = (i + 1) % between === 0 && i + 1 >= 50 && i + 1 <= plan.value.count;
    yield { done: i + 1, of: plan.value.total, ...(look && { soFar: partly(plan.value, rows) }) };
  }
  return finish(plan.value, rows, question, plan.remarks);
}

const partly = (plan: Plan, rows: readonly SpecimenRow[]): SpreadSummary =>
  summarize({ ...plan, count: rows.length, influence: 0 }, rows);

/** Part `part` of `parts` (from 0): specimens of an equal share of the run. Problems: `bad-part`, those of `planSpread`. */
export function* spreadPart(
  project: Project,
  {
    part,
    parts,
    known,
    ...options
  }: SpreadOptions & {
    readonly part: number;
    readonly parts: number;
    /** The plan of the same project and question, made before. */
    readonly known?: Plan;
  },
): Generator<Step, Outcome<SpreadPart>> {
  if (!(Number.isInteger(part) && Number.isInteger(parts) && parts >= 1 && part >= 0 && part < parts))
    return refuse({
      code: "bad-part",
      path: ["part"],
      message: `Found part ${part + 1} of ${parts}; needed: 1/16 to 16/16, for example.`,
    });
  const plan = known ? answer(known) : planSpread(project, options);
  if (!plan.ok) return plan;
  const { total, count, influence, specimen } = plan.value;
  const [from, to] = [Math.floor((part * total) / parts), Math.floor(((part + 1) * total) / parts)];
  const rows: SpecimenRow[] = [];
  for (const _ of plan.value.ready()) yield { done: 0, of: to - from };
  for (let i = from; i < to; i++) {
    rows.push(specimen(i));
    yield { done: i + 1 - from, of: to - from };
  }
  return answer({
    kind: "glassdrum-spread-part",
    seed: options.seed ?? 1,
    count,
    influence,
    total,
    project: project.text,
    from,
    rows,
  });
}

/**
 * Puts the parts of a run together, in any order; equal to the whole run to the bit.
 *
 * Problems: `no-parts`, `parts-differ`, `parts-missing`, those of `planSpread`.
 */
export function joinSpread(
  project: Project,
  parts: readonly SpreadPart[],
  question: SpreadQuestion = {},
): Outcome<Spread> {
  const [first] = parts;
  if (first === undefined)
    return refuse({ code: "no-parts", path: [], message: "There are no parts to put together." });
  const same = (one: SpreadPart) =>
    one.seed === first.seed &&
    one.count === first.count &&
    one.influence === first.influence &&
    one.project === first.project;
  const other = parts.findIndex((one) => !same(one));
  if (other >= 0 || first.project !== project.text)
    return refuse({
      code: "parts-differ",
      path: [Math.max(other, 0)],
      message: `Part ${Math.max(other, 0) + 1} belongs to another project, seed or number of specimens; only parts of one run fit together.`,
    });
  const rows = new Array<SpecimenRow | undefined>(first.total).fill(undefined);
  for (const { from, rows: some } of parts)
    some.forEach((row, i) => {
      rows[from + i] = row;
    });
  const missing = rows.indexOf(undefined);
  if (missing >= 0 && question.partial === true && missing > 0)
    return partlyJoined(project, first, rows.slice(0, missing) as SpecimenRow[]);
  if (missing >= 0)
    return refuse({
      code: "parts-missing",
      path: [],
      message: `Specimen ${missing + 1} of ${first.total} is in none of the ${parts.length} parts.`,
    });
  const { seed, count, influence } = first;
  const plan = planSpread(project, { seed, count, influence });
  return plan.ok
    ? finish(plan.value, rows as SpecimenRow[], { ...question, seed, count, influence }, plan.remarks)
    : plan;
}

/** What the first specimens of a run that was stopped say: no indices, corners or purchase. */
function partlyJoined(
  project: Project,
  { seed, count, influence }: SpreadPart,
  rows: readonly SpecimenRow[],
): Outcome<Spread> {
  const plan = planSpread(project, { seed, count, influence });
  if (!plan.ok) return plan;
  const made = Math.min(rows.length, count);
  return answer(
    {
      ...summarize({ ...plan.value, count: made, influence: 0 }, rows.slice(0, made)),
      count: made,
      seed,
      varied: variedBy(plan.value),
      corners: [],
      purchase: null,
    },
    [
      ...plan.remarks,
      { code: "stopped", path: [], message: `Stopped after ${made} of ${count} specimens; what they say stands here.` },
    ],
  );
}

const variedBy = ({ spreads }: Plan): Spread["varied"] =>
  spreads.tolerances.map(({ path, kind, middle, width, from }) => ({
    path: path.text,
    label: path.label,
    kind,
    middle,
    width,
    from,
  }));

function finish(
  plan: Plan,
  rows: readonly SpecimenRow[],
  { seed = spreadDefaults.seed, wanted = spreadDefaults.wanted }: SpreadQuestion,
  remarks: readonly Problem[],
): Outcome<Spread> {
  drain(plan.ready());
  const summary = summarize(plan, rows);
  const slopes = slopesOf(plan, rows);
  return answer(
    {
      ...summary,
      count: plan.count,
      seed,
      varied: variedBy(plan),
      corners: plan.requirements.map((requirement, i) => cornerOf(plan, requirement, slopes[i] ?? null)),
      purchase: summary.yield.value >= wanted ? null : purchase(plan, wanted, summary.yield.value),
    },
    remarks,
  );
}

/** Slope of each requirement's reserve over each value's score, by least squares over the specimens; null: not computed. */
function slopesOf(plan: Plan, rows: readonly SpecimenRow[]): readonly (readonly number[] | null)[] {
  const scores = Array.from({ length: plan.count }, (_, i) => plan.spreads.scores(plan.point(i)));
  return plan.requirements.map((_, k) => {
    const used = rows
      .slice(0, plan.count)
      .map((row, i) => ({ value: row.reserves[k] ?? null, score: scores[i]! }))
      .filter((one): one is { value: number; score: readonly number[] } => one.value !== null);
    if (used.length < 8) return null;
    const mean = used.reduce((sum, { value }) => sum + value, 0) / used.length;
    // The points are even and the scores nearly independent: each slope by itself.
    return plan.spreads.tolerances.map((_, i) => {
      let [along, squares] = [0, 0];
      for (const { value, score } of used) {
        along += score[i]! * (value - mean);
        squares += score[i]! ** 2;
      }
      return squares > 0 ? along / squares : 0;
    });
  });
}

function cornerOf(plan: Plan, requirement: string, slopes: readonly number[] | null): Corner {
  const { tolerances } = plan.spreads;
  const reach = (kind: string) => (kind === "normal" ? 2 : 1);
  const values = tolerances.map(({ middle, width, kind }, i) =>
    slopes === null ? middle : middle - Math.sign(slopes[i]!) * reach(kind) * width,
  );
  const judged = slopes === null ? null : plan.judgeValues(values);
  const line = judged?.ok ? judged.value.verdict.find((one) => one.requirement === requirement) : undefined;
  return {
    requirement,
    values: Object.fromEntries(tolerances.map(({ path }, i) => [path.text, values[i]!])),
    reserve: line === undefined ? null : reserve(line),
    measures: judged?.ok ? judged.value.measures : null,
  };
}
