/** One value of the project: its label, where it is typed or chosen, and what is wrong with it. */
import { createMemo, createSignal, createUniqueId, For, type JSX, Show } from "solid-js";
import { findPath, type Problem } from "../../core/index.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import { termOf, termWords } from "../../words/en/terms.ts";
import type { FieldSpec } from "./fieldSpec.ts";
import { valueText } from "./valueText.ts";
import { problemsAt, type Work } from "./work.ts";

type Typed = { readonly currentTarget: { readonly value: string } };

/** A choice as it is read; the file says true and false. */
const sayChoice = (choice: string): string => (choice === "true" ? words.yes : choice === "false" ? words.no : choice);

export function Field(props: { readonly spec: FieldSpec; readonly bench: Work }): JSX.Element {
  const id = createUniqueId();
  const { path, choices, empty, writes } = props.spec;
  const label = props.spec.label ?? labelOf(path);
  const draft = () => props.bench.drafts()[path];
  const [live, setLive] = createSignal<string | null>(null);
  const value = createMemo(() => draft()?.text ?? live() ?? valueText(props.bench.project(), path));
  const problems = createMemo<readonly Problem[]>(() => draft()?.problems ?? problemsAt(path, props.bench.failure()));
  const describedBy = () => (problems().length > 0 ? `${id}-problem` : undefined);

  function type(text: string, settled: boolean): void {
    const target = empty !== undefined && text.trim() === "" ? empty : { path, value: writes?.[text] ?? text };
    setLive(settled ? null : text);
    props.bench.type(path, text, target, settled);
  }

  const typed = {
    id,
    autocomplete: "off",
    spellcheck: false,
    get value() {
      return value();
    },
    get placeholder() {
      return empty?.says;
    },
    get "aria-invalid"() {
      return problems().length > 0;
    },
    get "aria-describedby"() {
      return describedBy();
    },
    onInput: (event: Typed) => type(event.currentTarget.value, false),
    onChange: (event: Typed) => type(event.currentTarget.value, true),
  } as const;
  return (
    <div class="field" classList={{ wrong: problems().length > 0, wide: props.spec.wide === true }} data-path={path}>
      <span class="field-label">
        <label for={id}>{label}</label>
        <Show when={termOf(path)}>
          {/* By key it is F1 in the field, so that the way from value to value stays short. */}
          {(found) => (
            <button
              type="button"
              class="ask"
              tabindex="-1"
              data-explain={found()}
              aria-label={termWords.what(found())}
              title={`${termWords.what(found())} (F1)`}
            >
              ?
            </button>
          )}
        </Show>
      </span>
      <Show
        when={choices}
        fallback={
          props.spec.wide === true ? (
            <textarea
              {...typed}
              rows="1"
              onKeyDown={(event) => {
                // Enter ends a text, as it does in every other field; with Shift it begins a line.
                if (event.key !== "Enter" || event.shiftKey) return;
                event.preventDefault();
                event.currentTarget.blur();
              }}
            />
          ) : (
            <input {...typed} type="text" />
          )
        }
      >
        {(list) => (
          <select
            id={id}
            aria-invalid={problems().length > 0}
            aria-describedby={describedBy()}
            onChange={(event) => type(event.currentTarget.value, true)}
          >
            <Show when={!list().includes(value())}>
              <option value={value()} selected disabled>
                {sayChoice(value())}
              </option>
            </Show>
            <For each={list()}>
              {(choice) => (
                <option value={choice} selected={choice === value()}>
                  {sayChoice(choice)}
                </option>
              )}
            </For>
          </select>
        )}
      </Show>
      <Show when={problems().length > 0}>
        <p class="problem" id={`${id}-problem`} role="status">
          {problems()
            .map(({ message }) => message)
            .join(" ")}
        </p>
      </Show>
    </div>
  );
}

function labelOf(path: string): string {
  const found = findPath(path);
  return found.ok ? found.value.label : path;
}
