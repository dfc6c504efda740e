/** The answer of the server to a question that is asked anew with every change; the last one stays while the next is out. */
import { type Accessor, createEffect, createSignal, on } from "solid-js";
import type { Outcome } from "../../core/index.ts";

export function answered<T>(
  changes: Accessor<number>,
  ask: () => Promise<Outcome<T>>,
): { readonly answer: Accessor<Outcome<T> | null>; readonly again: () => Promise<void> } {
  const [answer, setAnswer] = createSignal<Outcome<T> | null>(null);
  let asked = 0;
  async function again(): Promise<void> {
    asked += 1;
    const mine = asked;
    const found = await ask();
    if (mine === asked) setAnswer(() => found);
  }
  createEffect(on(changes, () => void again()));
  return { answer, again };
}
