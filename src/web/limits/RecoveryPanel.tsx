/** How long the output needs after a tone that was too loud. */
import { For, type JSX, Show } from "solid-js";
import { formatQuantity, type Limits } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { recoveryColumns, recoveryFigure, sayLeft } from "../../figure/recoveryFigure.ts";
import {
  fallHeads,
  fallText,
  fallTimes,
  lastText,
  overloadName,
  recoveryNote,
  sizeText,
  usedText,
  recoveryWords as words,
} from "../../words/en/recovery.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Panel } from "../shell/PageFrame.tsx";

export function RecoveryPanel(props: { readonly recovery: NonNullable<Limits["recovery"]> }): JSX.Element {
  const heads = () => fallHeads(props.recovery);
  return (
    <Panel title={words.title} aside={words.aside} wide>
      <div class="pair overload">
        <div>
          <Show when={props.recovery.overloads.some(({ ended }) => ended === "recovered")}>
            <Chart
              name={words.figure}
              draw={(room) => recoveryFigure(props.recovery, { ...room, height: 240, colors: pageColors })}
              live={null}
              say={sayLeft}
            />
            <ChartTable caption={words.figure} columns={recoveryColumns(props.recovery)} />
          </Show>
        </div>
        <div>
          <section class="scroll-wide" tabindex="0" aria-label={words.title}>
            <table class="number-table stacks">
              <thead>
                <tr>
                  <th scope="col">{words.tone}</th>
                  <th scope="col" class="cell-number">
                    {words.room}
                  </th>
                  <For each={heads()}>{(head) => <th scope="col">{head}</th>}</For>
                </tr>
              </thead>
              <tbody>
                <For each={props.recovery.overloads}>
                  {(one) => (
                    <tr data-overload={one.ended}>
                      <th scope="row">
                        {formatQuantity(one.level, "decibel", { digits: 3 })}
                        <small class="aside under">{overloadName(one)}</small>
                      </th>
                      <td class="cell-number" data-of={words.room}>
                        {usedText(one)}
                      </td>
                      <Show
                        when={one.ended === "recovered"}
                        fallback={
                          <td class="whole" colspan={heads().length}>
                            {one.ended === "wall" ? words.wall : words.lost}
                          </td>
                        }
                      >
                        <For each={fallTimes(props.recovery, one.until)}>
                          {(time, i) => (
                            <td class="whole" data-of={heads()[i()]}>
                              {fallText(time)}
                              <small class="aside under">
                                {sizeText(fallTimes(props.recovery, one.bySize)[i()] ?? null)}
                              </small>
                            </td>
                          )}
                        </For>
                      </Show>
                    </tr>
                  )}
                </For>
              </tbody>
            </table>
          </section>
          <For each={props.recovery.overloads.filter(({ ended }) => ended === "recovered").slice(-1)}>
            {(one) => <p>{lastText(one)}</p>}
          </For>
          <p class="aside">{recoveryNote(props.recovery)}</p>
        </div>
      </div>
    </Panel>
  );
}
