/**
 * A thread that has never answered a hand takes ten times as long for its first answers, while its code is compiled. So it answers a few
 * ahead of the hand, and nobody sees them.
 */
import type { Accessor } from "solid-js";
import { findPath, type Project, projectText } from "../../core/index.ts";
import type { Asker } from "../../worker/asker.ts";
import type { WorkerQuestions } from "../../worker/tasks.ts";

// 8: until an answer takes no less than the one before it, read off a drag; not derived.
const answers = 8;
/** Each is asked for a value of its own, so far from the one before [-]. */
const apart = 1e-3;

/** Rehearses the drag of a value, once; gives way to a hand, and to another page until the Bench is back (`away`). */
export function rehearsals(hand: Asker<WorkerQuestions>, held: Accessor<boolean>, away: Accessor<boolean>) {
  const known = new Set<string>();
  return async (project: Project, path: string): Promise<void> => {
    const found = findPath(path);
    const value = found.ok ? found.value.read(project) : found;
    if (known.has(path) || !value.ok || !(value.value > 0)) return;
    known.add(path);
    const text = projectText(project);
    for (let i = 1; i <= answers && !held(); i++) {
      if (away()) return void known.delete(path);
      const input = { text, held: { path, value: value.value * (1 + i * apart) } };
      await hand.ask("rehearsal", "watch", input, { urgency: "ahead" });
    }
  };
}
