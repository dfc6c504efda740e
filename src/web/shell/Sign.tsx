/** Check or cross, drawn: not every font has them. */
import type { JSX } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";

export function Sign(props: { readonly met: boolean }): JSX.Element {
  return (
    <svg class="sign" viewBox="0 0 12 12" role="img" aria-label={props.met ? words.met : words.notMet}>
      <path d={props.met ? "M1.5 6.5 4.5 9.5 10.5 2.5" : "M2 2 10 10M10 2 2 10"} />
    </svg>
  );
}
