/** What is to be said about the answer, and how well it is resolved. */
import { For, type JSX, Show } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { resolutionWords, benchWords as words } from "../../words/en/bench.ts";
import { placeText } from "../shell/placeText.ts";

export function Remarks(props: { readonly prediction: Prediction }): JSX.Element {
  return (
    <section class="panel remarks" aria-labelledby="remarks">
      <h2 id="remarks">{words.remarks}</h2>
      <Show when={props.prediction.remarks.length > 0} fallback={<p>{words.noRemarks}</p>}>
        <ul>
          <For each={props.prediction.remarks}>
            {({ path, message }) => (
              <li>
                <Show when={path.length > 0}>
                  <span class="aside">{placeText(path)}: </span>
                </Show>
                {message}
              </li>
            )}
          </For>
        </ul>
      </Show>
      <p class="aside">{resolutionWords(props.prediction.resolution)}</p>
    </section>
  );
}
