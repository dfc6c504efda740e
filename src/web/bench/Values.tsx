/** The values of the part that is looked at; parts with a problem stay in sight. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { filmWords, benchWords as words } from "../../words/en/bench.ts";
import { Field } from "../shell/Field.tsx";
import { problemsAt, type Work } from "../shell/work.ts";
import { type FieldGroup, fieldGroups, type Part, parts } from "./fieldList.ts";
import { HoleWords } from "./HoleWords.tsx";

export function Values(props: {
  readonly bench: Work;
  readonly part: Part;
  readonly choose: (part: Part) => void;
}): JSX.Element {
  // The list is made anew only where other fields are needed: what is typed must not lose its place. A hand needs no others.
  const groups = createMemo<readonly FieldGroup[]>(
    (before) => (props.bench.held() ? before : fieldGroups(props.bench.project())),
    fieldGroups(props.bench.project()),
    { equals: sameFields },
  );
  const wrong = (part: Part) =>
    groups().some(
      (group) =>
        group.part === part &&
        group.fields.some(
          ({ path }) => props.bench.drafts()[path] !== undefined || problemsAt(path, props.bench.failure()).length > 0,
        ),
    );
  const film = () => props.bench.answer()?.prediction.film ?? null;
  return (
    <section class="panel values" aria-labelledby="values">
      <h2 id="values">
        {words.values} <span class="aside">{words.valuesHint}</span>
      </h2>
      <ul class="parts" aria-label={words.parts}>
        <For each={parts}>
          {(part) => (
            <li>
              <button
                type="button"
                class="word"
                classList={{ wrong: wrong(part) }}
                aria-pressed={props.part === part}
                data-part={part}
                onClick={() => props.choose(part)}
              >
                {words.groups[part]}
              </button>
            </li>
          )}
        </For>
      </ul>
      <For each={groups()}>
        {(group) => (
          <fieldset hidden={group.part !== props.part && !wrong(group.part)} data-group={group.part}>
            <legend>{group.title}</legend>
            <Show when={group.fields.length === 0}>
              <p class="aside">{words.noPart}</p>
            </Show>
            <For each={group.fields}>{(spec) => <Field spec={spec} bench={props.bench} />}</For>
            <Show when={group.part === "front"}>
              <HoleWords bench={props.bench} />
            </Show>
            <Show when={group.part === "film" && film()}>
              {(regime) => (
                <p class="regime">
                  {filmWords(regime()).names} <span class="aside">{filmWords(regime()).numbers}</span>
                </p>
              )}
            </Show>
          </fieldset>
        )}
      </For>
    </section>
  );
}

const sameFields = (a: readonly FieldGroup[], b: readonly FieldGroup[]): boolean =>
  JSON.stringify(a) === JSON.stringify(b);
