/** What somebody looks at on the Chart: it stays while the pages change, and begins anew with another project. */
import { createRoot, createSignal, untrack } from "solid-js";
import type { Measure } from "../../core/index.ts";
import type { Work } from "../shell/work.ts";
import { type AlongChoice, createAlong } from "./alongChoice.ts";
import { type AxisChoice, createAxis } from "./axes.ts";

/** Points a side: a multiple of eight and one more, so that the coarse planes are even. */
export const counts = [17, 25, 41, 57, 81] as const;

export interface ChartChoices {
  readonly x: AxisChoice;
  readonly y: AxisChoice;
  readonly families: () => readonly Measure[];
  readonly setFamilies: (families: readonly Measure[]) => void;
  readonly laws: () => boolean;
  readonly setLaws: (wanted: boolean) => void;
  readonly count: () => number;
  readonly setCount: (count: number) => void;
  readonly along: AlongChoice;
}

const known = new WeakMap<Work, { readonly opening: number; readonly choices: ChartChoices }>();

export function chartChoices(work: Work): ChartChoices {
  const opening = untrack(work.history.opening);
  const before = known.get(work);
  if (before?.opening === opening) return before.choices;
  const choices = createRoot((): ChartChoices => {
    const [families, setFamilies] = createSignal<readonly Measure[]>(["sensitivity", "resonance", "damping"]);
    const [laws, setLaws] = createSignal(false);
    const [count, setCount] = createSignal<number>(counts[1]);
    return {
      x: createAxis(work.project, "microphone.diaphragm.across"),
      y: createAxis(work.project, "microphone.diaphragm.thickness"),
      families,
      setFamilies,
      laws,
      setLaws,
      count,
      setCount,
      along: createAlong(work.project),
    };
  });
  known.set(work, { opening, choices });
  return choices;
}
