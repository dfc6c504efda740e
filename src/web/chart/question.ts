/** What the Chart asks for a project, and what may be computed of it before the page is opened. */
import type { ChartQuestion } from "../../worker/startedChart.ts";
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

/** The share of one thread. */
export const shareOf = (question: ChartQuestion, index: number, of: number): ChartQuestion => ({
  ...question,
  part: { index, of },
});

/** Begins the plane in all threads, as the page will ask for it. */
export function beginPlane(work: Work): void {
  const choices = chartChoices(work);
  const question = questionOf(baseOf(work, choices, null), choices);
  if (question === null) return;
  for (const [index, thread] of work.crew.entries())
    void thread.ask("chart", "chartAhead", shareOf(question, index, work.crew.length), { urgency: "ahead" });
}
