/** The loudest sound at the brief's frequency, and each cause alone. */
import { For, type JSX, Show } from "solid-js";
import { formatQuantity, type Limits } from "../../core/index.ts";
import { causeWords, loudestText, mixingText } from "../../words/en/limits.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { Panel } from "../shell/PageFrame.tsx";

export function LoudestPanel(props: { readonly limits: Limits }): JSX.Element {
  const rows = () => {
    const { byCause, contact, converter, jet } = props.limits.loudest;
    return [
      { name: causeWords.readout, level: byCause.readout },
      { name: causeWords.diaphragm, level: byCause.diaphragm },
      { name: causeWords.film, level: byCause.film },
      { name: words.contact, level: contact },
      { name: words.converter, level: converter },
      { name: words.jet, level: jet },
    ].filter(({ level }) => level !== null);
  };
  return (
    <Panel title={words.loudest}>
      <p>{loudestText(props.limits.loudest)}</p>
      <Show when={props.limits.mixing}>{(mixing) => <p data-mixing={mixing().stopped}>{mixingText(mixing())}</p>}</Show>
      <table class="number-table">
        <thead>
          <tr>
            <th scope="col">{words.cause}</th>
            <th scope="col" class="cell-number">
              {words.alone}
            </th>
          </tr>
        </thead>
        <tbody>
          <For each={rows()}>
            {({ name, level }) => (
              <tr>
                <th scope="row">{name}</th>
                <td class="cell-number">{formatQuantity(level, "decibel", { digits: 4 })}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </Panel>
  );
}
