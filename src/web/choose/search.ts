/** The search that was asked for last: it stays while the pages change, and begins anew with another project. */
import { createRoot, createSignal, untrack } from "solid-js";
import { chooseDefaults } from "../../core/index.ts";
import type { ChooseSearch } from "../../worker/tasks.ts";
import type { Work } from "../shell/work.ts";

export interface Search {
  /** Text of the project that designs were asked for; null: none were. Another project asks for nothing by itself. */
  readonly asked: () => ChooseSearch | null;
  readonly ask: (text: string, evaluations: number) => void;
}

let runs = 0;
const known = new WeakMap<Work, { readonly opening: number; readonly search: Search }>();

export function searchOf(work: Work): Search {
  const opening = untrack(work.history.opening);
  const before = known.get(work);
  if (before?.opening === opening) return before.search;
  const search = createRoot((): Search => {
    const [asked, setAsked] = createSignal<ReturnType<Search["asked"]>>(null);
    return {
      asked,
      ask: (text, evaluations) => {
        runs += 1;
        const before = asked();
        // The same once more would find the same: it begins from other random numbers.
        const again = before?.text === text && before.evaluations === evaluations;
        setAsked({ text, run: runs, seed: again ? before.seed + 1 : chooseDefaults.seed, evaluations });
      },
    };
  });
  known.set(work, { opening, search });
  return search;
}
