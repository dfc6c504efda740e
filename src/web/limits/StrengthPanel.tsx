/** Stress on the face of the diaphragm, and how far each load is from breaking it. */
import { For, type JSX, Show } from "solid-js";
import { formatNumber, formatQuantity, type Limits } from "../../core/index.ts";
import { caseWords, chance, factorText, strengthNotes, strengthText } from "../../words/en/limits.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { StressMap } from "./StressMap.tsx";

export function StrengthPanel(props: { readonly limits: Limits }): JSX.Element {
  const shown = (value: number, kind: "pressure" | "modulus") => formatQuantity(value, kind, { digits: 3 });
  return (
    <Panel title={words.strength} wide>
      <p>{strengthText(props.limits.strength)}</p>
      <div class="pair">
        <StressMap stress={props.limits.stress} />
        <div>
          <Show when={props.limits.strength}>
            {(strength) => (
              <>
                <Show when={strength().cases.length > 0}>
                  <section class="scroll-wide" tabindex="0" aria-label={words.strength}>
                    <table class="number-table stacks">
                      <thead>
                        <tr>
                          <th scope="col">{words.load}</th>
                          <th scope="col" class="cell-number">
                            {words.pressure}
                          </th>
                          <th scope="col" class="cell-number">
                            {words.stress}
                          </th>
                          <th scope="col" class="cell-number">
                            {words.factor}
                          </th>
                          <th scope="col" class="cell-number">
                            {words.failure}
                          </th>
                        </tr>
                      </thead>
                      <tbody>
                        <For each={strength().cases}>
                          {({ name, pressure, stress, factor, failure, counted }) => (
                            <tr data-load={name}>
                              <th scope="row">
                                {caseWords[name]}
                                <Show when={!counted}>
                                  <span class="aside"> {words.notCounted}</span>
                                </Show>
                              </th>
                              <td class="cell-number" data-of={words.pressure}>
                                {shown(pressure, "pressure")}
                              </td>
                              <td class="cell-number" data-of={words.stress}>
                                {shown(stress, "modulus")}
                              </td>
                              <td class="cell-number" data-of={words.factor}>
                                {factorText(factor)}
                              </td>
                              <td class="cell-number" data-of={words.failure}>
                                {chance(failure)}
                              </td>
                            </tr>
                          )}
                        </For>
                      </tbody>
                    </table>
                  </section>
                  <For each={strengthNotes(strength())}>{(note) => <p>{note}</p>}</For>
                  <Show when={props.limits.touches}>
                    {(pressure) => <p>{words.touches(shown(pressure(), "pressure"))}</p>}
                  </Show>
                  <p class="aside">{words.straight(shown(props.limits.straightUpTo, "pressure"))}</p>
                </Show>
                <Show when={strength().tested}>
                  {(tested) => (
                    <p class="aside">
                      {words.assumes(
                        words.figures(
                          shown(tested().scale, "modulus"),
                          formatNumber(tested().modulus, { digits: 2 }),
                          tested().source,
                        ),
                      )}
                    </p>
                  )}
                </Show>
              </>
            )}
          </Show>
        </div>
      </div>
    </Panel>
  );
}
