/** Designs kept by name: laid over the curves, brought back, forgotten. */
import { createSignal, For, type JSX, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import type { Work } from "../shell/work.ts";
import { applied, keptDesigns, withKept, withoutKept } from "./keptDesigns.ts";

export function Kept(props: { readonly bench: Work }): JSX.Element {
  const [name, setName] = createSignal("");
  const designs = () => keptDesigns(props.bench.project());
  function keep(event: SubmitEvent): void {
    event.preventDefault();
    const project = props.bench.project();
    const wanted = name().trim() || words.keptName(designs().length + 1);
    const kept = withKept(project, wanted);
    if (kept.ok) props.bench.replace(kept.value, `${words.kept} “${wanted}”`);
    setName("");
  }
  function forget(index: number, called: string): void {
    const without = withoutKept(props.bench.project(), index);
    if (without.ok) props.bench.replace(without.value, `${words.forgot} “${called}”`);
  }
  function bringBack(index: number): void {
    const design = designs()[index];
    const changed = design === undefined ? undefined : applied(props.bench.project(), design);
    if (design !== undefined && changed?.ok === true)
      props.bench.replace(changed.value, `${words.broughtBack} “${design.name}”`);
  }
  /** Its place among those that are drawn. */
  const series = (index: number) =>
    props.bench
      .kept()
      .slice(0, index + 1)
      .filter(({ prediction }) => prediction !== null).length;
  return (
    <div class="kept">
      <form onSubmit={keep}>
        <label>
          {words.keepAs}{" "}
          <input
            type="text"
            autocomplete="off"
            maxlength="40"
            placeholder={words.keptName(designs().length + 1)}
            value={name()}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button type="submit">{words.keep}</button>
      </form>
      <Show when={designs().length > 0}>
        <ul aria-label={words.keptDesigns}>
          <For each={designs()}>
            {(design, i) => (
              <li data-kept={design.name}>
                <svg class="sample" viewBox="0 0 28 8" aria-hidden="true">
                  <path class={`series-${series(i()) % 4}`} d="M0 4H28" />
                </svg>
                <b>{design.name}</b>
                <button type="button" class="word" onClick={() => bringBack(i())}>
                  {words.bringBack}
                </button>
                <button type="button" class="word" onClick={() => forget(i(), design.name)}>
                  {words.forget}
                </button>
                <For each={props.bench.kept()[i()]?.problems ?? []}>
                  {({ message }) => <span class="problem">{message}</span>}
                </For>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </div>
  );
}
