/** The few big numbers; a click on one opens its card. */
import { createEffect, createMemo, createSignal, Index, type JSX, on, Show } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { benchNumbers, benchWords as words } from "../../words/en/bench.ts";
import type { CardsProps } from "./Cards.tsx";
import { CardText } from "./CardText.tsx";

export function Numbers(props: CardsProps & { readonly prediction: Prediction }): JSX.Element {
  const [open, setOpen] = createSignal<string | null>(null);
  createEffect(
    on(
      () => open() !== null,
      (opened) => props.onTurn(opened),
      { defer: true },
    ),
  );
  const numbers = createMemo(() => benchNumbers(props.prediction));
  const card = () => {
    const key = numbers().find(({ label }) => label === open())?.card;
    return key === undefined ? undefined : props.cards[key];
  };
  return (
    <div class="figures">
      <dl class="numbers">
        {/* By place: under a hand only texts change. */}
        <Index each={numbers()}>
          {(number) => (
            <div class="number" classList={{ opened: open() === number().label }}>
              <dt>{number().label}</dt>
              <dd>
                <button
                  type="button"
                  class="big"
                  aria-expanded={open() === number().label}
                  title={words.openCard}
                  onClick={() => setOpen(open() === number().label ? null : number().label)}
                >
                  {number().before}
                  <Index each={number().values}>
                    {(part, i) => (
                      <>
                        {i > 0 ? number().joint : ""}
                        <span data-key={part().key} data-value={part().value === null ? "" : String(part().value)}>
                          {part().text}
                        </span>
                      </>
                    )}
                  </Index>
                  <span class="unit">{number().unit === "" ? "" : `\u202f${number().unit}`}</span>
                </button>
                <span class="context">{number().context}</span>
              </dd>
            </div>
          )}
        </Index>
      </dl>
      <Show when={card()}>
        {(found) => (
          <section class="panel opened-card" aria-label={found().title}>
            <h2>
              {found().title}{" "}
              <button type="button" class="word" onClick={() => setOpen(null)}>
                {words.close}
              </button>
            </h2>
            <CardText card={found()} depends={props.depends} />
          </section>
        )}
      </Show>
    </div>
  );
}
