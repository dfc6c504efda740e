/** Noise over frequency, by source, by third octave, and the device's heat by part. */
import { For, type JSX, Show } from "solid-js";
import { formatNumber, formatQuantity, type Limits, type Noise } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { noiseColumns, noiseFigure, octaveFigure, sayLevel, sayNoise } from "../../figure/limitFigures.ts";
import { noiseText, partWords, shareText, sourceWords } from "../../words/en/limits.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Panel } from "../shell/PageFrame.tsx";

export function NoisePanel(props: { readonly limits: Limits }): JSX.Element {
  const noise = () => props.limits.noise;
  const sources = () => [...noise().bySource].filter(({ density }) => density > 0).sort((a, b) => b.share - a.share);
  const parts = () =>
    (Object.entries(noise().byPart) as [keyof Noise["byPart"], number][])
      .filter(([, share]) => share >= 5e-4)
      .sort(([, a], [, b]) => b - a);
  return (
    <Panel title={words.noise} aside={words.noiseAside} wide>
      <p>{noiseText(noise())}</p>
      <div class="pair">
        <div>
          <h4>{words.spectrum}</h4>
          <Chart
            name={words.spectrum}
            draw={(room) => noiseFigure(noise(), { ...room, height: 280, colors: pageColors })}
            live={null}
            say={sayNoise}
          />
          <ChartTable caption={words.spectrum} columns={noiseColumns(noise())} />
        </div>
        <Show when={!noise().withoutLight}>
          <div>
            <h4>{words.octaves}</h4>
            <Chart
              name={words.octaves}
              draw={(room) => octaveFigure(props.limits, { ...room, height: 280, colors: pageColors })}
              live={null}
              say={sayLevel}
            />
          </div>
        </Show>
      </div>
      <div class="pair">
        <table class="number-table">
          <thead>
            <tr>
              <th scope="col">{words.source}</th>
              <th scope="col" class="cell-number">
                {words.level}
              </th>
              <th scope="col" class="cell-number">
                {words.share}
              </th>
            </tr>
          </thead>
          <tbody>
            <For each={sources()}>
              {({ source, levelA, share }) => (
                <tr data-source={source}>
                  <th scope="row">{sourceWords[source]}</th>
                  <td class="cell-number">
                    {levelA === null ? "–" : formatQuantity(levelA, "decibel", { digits: 3 })}
                  </td>
                  <td class="cell-number">{shareText(share)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
        <table class="number-table">
          <thead>
            <tr>
              <th scope="col">{words.heat}</th>
              <th scope="col" class="cell-number">
                {words.share}
              </th>
            </tr>
          </thead>
          <tbody>
            <For each={parts()}>
              {([part, share]) => (
                <tr>
                  <th scope="row">{partWords[part]}</th>
                  <td class="cell-number">{shareText(share)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <Show when={noise().averagedOver}>
        {(widths) => (
          <p class="aside">
            {words.averaged(
              widths()
                .map((width) => formatQuantity(width, "length", { digits: 2 }))
                .join(", "),
            )}
          </p>
        )}
      </Show>
      <Show when={noise().detected}>
        {(detected) => (
          <p class="aside">
            {words.detected(
              formatQuantity(detected().power, "power", { digits: 3 }),
              `${formatNumber(detected().current * 1e6, { digits: 3 })} µA`,
            )}
          </p>
        )}
      </Show>
    </Panel>
  );
}
