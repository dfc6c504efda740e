/** The few big numbers. */
import { For, type JSX } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { benchNumbers } from "../../words/en/bench.ts";

export function Numbers(props: { readonly prediction: Prediction }): JSX.Element {
  return (
    <dl class="numbers">
      <For each={benchNumbers(props.prediction)}>
        {({ label, before, values, joint, unit, context }) => (
          <div class="number">
            <dt>{label}</dt>
            <dd>
              <span class="big">
                {before}
                <For each={values}>
                  {({ key, value, text }, i) => (
                    <>
                      {i() > 0 ? joint : ""}
                      <span data-key={key} data-value={value === null ? "" : String(value)}>
                        {text}
                      </span>
                    </>
                  )}
                </For>
                <span class="unit">{unit === "" ? "" : `\u202f${unit}`}</span>
              </span>
              <span class="context">{context}</span>
            </dd>
          </div>
        )}
      </For>
    </dl>
  );
}
