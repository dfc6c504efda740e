/** What temperature, pressure and humidity change, by cause; dew and narrow passages. */
import { For, type JSX, Show } from "solid-js";
import { formatNumber, formatQuantity, type Limits } from "../../core/index.ts";
import { levelChange, shareChange } from "../../words/en/limits.ts";
import { changeWords, perWords, limitsWords as words } from "../../words/en/limitsPage.ts";
import { Panel } from "../shell/PageFrame.tsx";

export function SitePanel(props: { readonly limits: Limits }): JSX.Element {
  return (
    <Panel title={words.site} aside={words.siteAside}>
      <Show when={props.limits.surroundings} fallback={<p>{words.noSite}</p>}>
        {(surroundings) => (
          <>
            <section class="scroll-wide" tabindex="0" aria-label={words.site}>
              <table class="number-table">
                <thead>
                  <tr>
                    <th scope="col">{words.per}</th>
                    <th scope="col">{words.by}</th>
                    <th scope="col" class="cell-number">
                      {words.sensitivity}
                    </th>
                    <th scope="col" class="cell-number">
                      {words.bandFrom}
                    </th>
                    <th scope="col" class="cell-number">
                      {words.bandTo}
                    </th>
                  </tr>
                </thead>
                <tbody>
                  <For each={["perKelvin", "perKilopascal", "perTenPercent"] as const}>
                    {(key) => (
                      <For each={surroundings()[key]}>
                        {({ cause, sensitivity, bandFrom, bandTo }) => (
                          <tr data-per={key} data-cause={cause}>
                            <th scope="row">{perWords[key]}</th>
                            <td>{changeWords[cause]}</td>
                            <td class="cell-number">{levelChange(sensitivity)}</td>
                            <td class="cell-number">{shareChange(bandFrom)}</td>
                            <td class="cell-number">{shareChange(bandTo)}</td>
                          </tr>
                        )}
                      </For>
                    )}
                  </For>
                </tbody>
              </table>
            </section>
            <p>{words.drift(`${formatNumber(surroundings().biasPerKelvin, { digits: 2 })} rad`)}</p>
            <Show when={surroundings().dew}>
              {(dew) => (
                <p>
                  {words.dew(
                    formatQuantity(dew().point, "temperature", { digits: 3 }),
                    formatQuantity(dew().coldest, "temperature", { digits: 3 }),
                    dew().point > dew().coldest,
                  )}
                </p>
              )}
            </Show>
            <Show when={surroundings().passages.length > 0}>
              <p class="aside">
                {words.passages(
                  surroundings()
                    .passages.map(
                      ({ what, size }) => `${words.passage[what]} ${formatQuantity(size, "length", { digits: 3 })}`,
                    )
                    .join(", "),
                )}
              </p>
            </Show>
          </>
        )}
      </Show>
    </Panel>
  );
}
