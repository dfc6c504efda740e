/** For each precaution of the brief, and those that the design brings: what to do, and which limit was compared. */
import { For, type JSX, Show } from "solid-js";
import type { Limits } from "../../core/index.ts";
import { comparedText, limitsDefer } from "../../words/en/limits.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { magneticMaterials, magneticWords } from "../../words/en/magnetic.ts";
import { precautions } from "../../words/en/precautions.ts";
import { Panel } from "../shell/PageFrame.tsx";

export function PrecautionsPanel(props: { readonly limits: Limits }): JSX.Element {
  return (
    <Panel title={words.precautions} aside={words.precautionsAside} wide>
      <div class="precaution-columns">
        <For each={props.limits.precautions}>
          {({ precaution, named, compared }) => (
            <section data-precaution={precaution}>
              <h4>
                {precautions[precaution]?.label ?? precaution}
                <Show when={!named}>
                  <span class="aside"> {words.brought}</span>
                </Show>
              </h4>
              <Show when={precautions[precaution]}>
                {(known) => (
                  <p>
                    {known().says} {words.more[precaution] ?? ""}{" "}
                    <Show when={known().standard}>
                      {(standard) => (
                        <span class="aside">
                          {words.read}: {standard()}.
                        </span>
                      )}
                    </Show>
                  </p>
                )}
              </Show>
              <Show when={precaution === "strong-magnet"}>
                <Materials />
              </Show>
              <Show when={compared.length > 0}>
                <ul class="precaution-limits">
                  <For each={compared}>
                    {(one) => <li classList={{ above: one.above === true }}>{comparedText(one)}</li>}
                  </For>
                </ul>
              </Show>
            </section>
          )}
        </For>
      </div>
      <p class="aside">{limitsDefer}</p>
    </Panel>
  );
}

function Materials(): JSX.Element {
  return (
    <>
      <h5>{magneticWords.title}</h5>
      <ul class="materials">
        <For each={magneticMaterials}>
          {({ material, where, does }) => (
            <li>
              <b>{material}</b>: {does}. <span class="aside">{where}</span>
            </li>
          )}
        </For>
      </ul>
      <p class="aside">{magneticWords.note}</p>
    </>
  );
}
