/** A card: formula, inputs, source and what the number is most sensitive to, in the texts of `predict --json`. */
import { For, type JSX, Show } from "solid-js";
import type { Card } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { sensitivityHint, sensitivityTexts } from "../../words/en/sensitivities.ts";
import type { TaskAnswer } from "../shell/taskAnswer.ts";
import { Source } from "./Source.tsx";

export function CardText(props: { readonly card: Card; readonly depends: TaskAnswer<unknown> }): JSX.Element {
  const computing = () => ["waiting", "computing", "old"].includes(props.depends.state());
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
      <Source text={props.card.source} />
      <Show when={sensitivityTexts(props.card).length > 0}>
        <div class="depends">
          <p>{sensitivityHint}</p>
          <For each={sensitivityTexts(props.card)}>
            {({ number, to }) => (
              <dl data-depends={number}>
                <div class="of">
                  <dt>{number}</dt>
                </div>
                <For each={to}>
                  {({ change, label }) => (
                    <div>
                      <dt>{label}</dt>
                      <dd>{change}</dd>
                    </div>
                  )}
                </For>
              </dl>
            )}
          </For>
        </div>
      </Show>
      <Show when={computing()}>
        <p class="aside" role="status">
          {words.dependsComputing(props.depends.step())}
        </p>
      </Show>
    </div>
  );
}
