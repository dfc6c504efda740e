/** Where the numbers come from: formula, inputs and source, as in `predict --json`. */
import { For, type JSX } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";

export function Cards(props: { readonly prediction: Prediction }): JSX.Element {
  return (
    <section class="panel cards" aria-labelledby="cards">
      <h2 id="cards">{words.cards}</h2>
      <For each={Object.keys(props.prediction.cards)}>
        {(key) => {
          const card = () => props.prediction.cards[key];
          return (
            <details>
              <summary>{card()?.title}</summary>
              <p class="formula">{card()?.formula}</p>
              <dl>
                <For each={card()?.inputs ?? []}>
                  {({ name, value }) => (
                    <div>
                      <dt>{name}</dt>
                      <dd>{value}</dd>
                    </div>
                  )}
                </For>
              </dl>
              <p class="aside">{card()?.source}</p>
            </details>
          );
        }}
      </For>
    </section>
  );
}
