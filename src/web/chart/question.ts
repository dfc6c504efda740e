/** What the Chart asks for a project, and what may be computed of it before the page is opened. */
import { type ChartQuestion, type ChartRun, chartInCrew, createChartRun, stopChart } from "../../worker/chartCrew.ts";
import type { Work } from "../shell/work.ts";
import { type PlaneBase, planeBase } from "./base.ts";
import { type ChartChoices, chartChoices } from "./choices.ts";

/** The project that the plane is computed for; null: it has no such axes. */
export function baseOf(work: Work, { x, y }: ChartChoices, before: PlaneBase | null): PlaneBase | null {
  const [project, alongX, alongY] = [work.still(), x.axis(), y.axis()];
  return project === null || alongX === null || alongY === null ? null : planeBase(project, [alongX, alongY], before);
}

/** null: the axes are none, or one and the same. */
export function questionOf(base: PlaneBase | null, { x, y, count }: ChartChoices): ChartQuestion | null {
  const [alongX, alongY] = [x.axis(), y.axis()];
  if (base === null || alongX === null || alongY === null || alongX.path === alongY.path) return null;
  return { text: base.text, x: alongX, y: alongY, count: count() };
}

/** The plane that was begun last: who asks for the same one sees at once what is there, and goes on with it. */
let begun: { readonly key: string; readonly run: ChartRun } | null = null;

export function runOf(question: ChartQuestion): ChartRun {
  const key = JSON.stringify(question);
  if (begun?.key !== key) begun = { key, run: createChartRun(question, begun?.run ?? null) };
  return begun.run;
}

/** Pictures that are made ahead: the coarse one, and one on every fourth point, for which all is made ready. */
const ahead = 2;

/** Begins the plane in all threads, as the page will ask for it. */
export function beginPlane(work: Work): void {
  const choices = chartChoices(work);
  const question = questionOf(baseOf(work, choices, null), choices);
  if (question !== null) void chartInCrew(work.crew, runOf(question), { urgency: "ahead", passes: ahead });
}

/** Leaves it where it is. */
export const leavePlane = (work: Work): void => stopChart(work.crew);
