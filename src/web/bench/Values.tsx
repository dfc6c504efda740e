/** The values of the project, by part. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { filmWords, benchWords as words } from "../../words/en/bench.ts";
import { Field } from "./Field.tsx";
import { type FieldGroup, fieldGroups } from "./fieldList.ts";
import type { BenchState } from "./state.ts";

export function Values(props: { readonly bench: BenchState }): JSX.Element {
  // The list is made anew only where other fields are needed: what is typed must not lose its place.
  const groups = createMemo(() => fieldGroups(props.bench.project()), undefined, { equals: sameFields });
  const film = () => props.bench.answer()?.prediction.film ?? null;
  return (
    <section class="panel values" aria-labelledby="values">
      <h2 id="values">
        {words.values} <span class="aside">{words.valuesHint}</span>
      </h2>
      <div class="groups">
        <For each={groups()}>
          {(group) => (
            <fieldset>
              <legend>{group.title}</legend>
              <For each={group.fields}>{(spec) => <Field spec={spec} bench={props.bench} />}</For>
              <Show when={group.title === words.groups.film && film()}>
                {(regime) => (
                  <p class="regime">
                    {filmWords(regime()).names} <span class="aside">{filmWords(regime()).numbers}</span>
                  </p>
                )}
              </Show>
            </fieldset>
          )}
        </For>
      </div>
    </section>
  );
}

const sameFields = (a: readonly FieldGroup[], b: readonly FieldGroup[]): boolean =>
  JSON.stringify(a) === JSON.stringify(b);
