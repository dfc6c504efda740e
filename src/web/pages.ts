/**
 * The pages that have content, one line each: the key of `words/en/pages.ts` and where its module lies.
 * A module is loaded when its page is first opened, so the first page never waits for the others. How a page is written:
 *
 *     export function Limits(): JSX.Element {
 *       const work = useWork();                                        // project, history, fields, present answer
 *       const spectrum = taskAnswer("noise", () => ({ text: projectText(work.project()) }));
 *       return (
 *         <PageFrame page="limits">
 *           <Panel title="Noise" aside="by source">
 *             <TaskState answer={spectrum} what="the noise by source" />
 *             <Show when={spectrum.value()}>{(noise) => …}</Show>
 *           </Panel>
 *         </PageFrame>
 *       );
 *     }
 *
 * `useWork` is in shell/work.ts, `taskAnswer` in shell/taskAnswer.ts (how to ask the worker), `PageFrame` and `Panel` in
 * shell/PageFrame.tsx, `Field` for a value of the project in shell/Field.tsx. A page imports its own style sheet.
 */
import type { Component } from "solid-js";
import type { PageKey } from "../words/en/pages.ts";

type Load = () => Promise<{ readonly default: Component }>;

export const pages: { readonly [Key in PageKey]?: Load } = {
  shelf: () => import("./shelf/Shelf.tsx").then(({ Shelf }) => ({ default: Shelf })),
  brief: () => import("./brief/Brief.tsx").then(({ Brief }) => ({ default: Brief })),
  limits: () => import("./limits/Limits.tsx").then(({ Limits }) => ({ default: Limits })),
  chart: () => import("./chart/ChartPage.tsx").then(({ ChartPage }) => ({ default: ChartPage })),
  spread: () => import("./spread/SpreadPage.tsx").then(({ SpreadPage }) => ({ default: SpreadPage })),
  light: () => import("./light/Light.tsx").then(({ Light }) => ({ default: Light })),
  bench: () => import("./bench/Bench.tsx").then(({ Bench }) => ({ default: Bench })),
  workshop: () => import("./workshop/Workshop.tsx").then(({ Workshop }) => ({ default: Workshop })),
  records: () => import("./records/Records.tsx").then(({ Records }) => ({ default: Records })),
};
