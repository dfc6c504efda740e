/** Where the numbers come from: every card of the answer. */
import { For, type JSX, Show } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { CardText } from "./CardText.tsx";

export function Cards(props: { readonly prediction: Prediction }): JSX.Element {
  return (
    <section class="panel cards" aria-labelledby="cards">
      <h2 id="cards">{words.cards}</h2>
      <For each={Object.keys(props.prediction.cards)}>
        {(key) => (
          <details>
            <summary>{props.prediction.cards[key]?.title}</summary>
            <Show when={props.prediction.cards[key]}>{(card) => <CardText card={card()} />}</Show>
          </details>
        )}
      </For>
    </section>
  );
}
