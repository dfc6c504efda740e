/** A card: formula, inputs, source and what the number is most sensitive to, in the texts of `predict --json`. */
import { For, type JSX, Show } from "solid-js";
import type { Card } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";

export function CardText(props: { readonly card: Card }): JSX.Element {
  return (
    <div class="card">
      <p class="formula">{props.card.formula}</p>
      <dl>
        <For each={props.card.inputs}>
          {({ name, value }) => (
            <div>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          )}
        </For>
      </dl>
      <Show when={words.mostSensitive(props.card)}>{(text) => <p>{text()}</p>}</Show>
      <p class="aside">{props.card.source}</p>
    </div>
  );
}
