/** Where the numbers come from: every card of the answer. */
import { For, type JSX, Show } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { TaskAnswer } from "../shell/taskAnswer.ts";
import { CardText } from "./CardText.tsx";

export interface CardsProps {
  readonly cards: Prediction["cards"];
  /** What the numbers depend on most, while somebody reads a card. */
  readonly depends: TaskAnswer<unknown>;
  /** A card was opened or closed. */
  readonly onTurn: (open: boolean) => void;
}

export function Cards(props: CardsProps): JSX.Element {
  return (
    <section class="panel cards" aria-labelledby="cards">
      <h2 id="cards">{words.cards}</h2>
      <For each={Object.keys(props.cards)}>
        {(key) => (
          <details data-card={key} onToggle={(event) => props.onTurn(event.currentTarget.open)}>
            <summary>{props.cards[key]?.title}</summary>
            <Show when={props.cards[key]}>{(card) => <CardText card={card()} depends={props.depends} />}</Show>
          </details>
        )}
      </For>
    </section>
  );
}
