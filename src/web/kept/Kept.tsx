/** Designs kept by name: laid over the pictures, brought back, forgotten, set beside each other. */
import { createSignal, For, type JSX, Show } from "solid-js";
import { keptWords as words } from "../../words/en/kept.ts";
import { useWork } from "../shell/work.ts";
import { Differences } from "./Differences.tsx";
import { applied, keptDesigns, withKept, withoutKept } from "./keptDesigns.ts";
import { laidDesigns, laidNames, lay } from "./laid.ts";
import "./kept.css";

export function Kept(): JSX.Element {
  const work = useWork();
  const [name, setName] = createSignal("");
  const designs = () => keptDesigns(work.project());
  /** The first number that no design has. */
  const nextName = () => {
    const taken = designs().map((one) => one.name);
    let number = designs().length + 1;
    while (taken.includes(words.name(number))) number++;
    return words.name(number);
  };
  function keep(event: SubmitEvent): void {
    event.preventDefault();
    const wanted = name().trim() || nextName();
    const kept = withKept(work.project(), wanted);
    if (!kept.ok) return;
    lay(wanted, true);
    work.replace(kept.value, `${words.kept} “${wanted}”`);
    setName("");
  }
  function forget(index: number, called: string): void {
    const without = withoutKept(work.project(), index);
    if (without.ok) work.replace(without.value, `${words.forgot} “${called}”`);
  }
  function bringBack(index: number): void {
    const design = designs()[index];
    const changed = design === undefined ? undefined : applied(work.project(), design);
    if (design !== undefined && changed?.ok === true)
      work.replace(changed.value, `${words.broughtBack} “${design.name}”`);
  }
  return (
    <div class="kept">
      <form onSubmit={keep}>
        <label>
          {words.keepAs}{" "}
          <input
            type="text"
            autocomplete="off"
            maxlength="40"
            placeholder={nextName()}
            value={name()}
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button type="submit">{words.keep}</button>
      </form>
      <Show when={designs().length > 0}>
        <KeptList>
          {(design, i) => (
            <>
              <button type="button" class="word" onClick={() => bringBack(i)}>
                {words.bringBack}
              </button>
              <button type="button" class="word" onClick={() => forget(i, design)}>
                {words.forget}
              </button>
              <For each={work.kept()[i]?.problems ?? []}>{({ message }) => <span class="problem">{message}</span>}</For>
            </>
          )}
        </KeptList>
      </Show>
      <Show when={laidDesigns(work).length > 0}>
        <Differences />
      </Show>
    </div>
  );
}

/** Which of them are laid over, each with the line that it has in the pictures. Nothing where none is kept. */
export function KeptList(props: { readonly children?: (name: string, index: number) => JSX.Element }): JSX.Element {
  const work = useWork();
  const designs = () => keptDesigns(work.project());
  const laid = () => laidNames(designs().map(({ name }) => name));
  /** Its place among those that are drawn; none: it is not, or not yet. */
  const series = (name: string) => {
    const place = laidDesigns(work).findIndex((one) => one.name === name);
    return place < 0 ? "none" : String(place + 1);
  };
  return (
    <Show when={designs().length > 0}>
      <ul class="kept-list" aria-label={words.designs}>
        <For each={designs()}>
          {(design, i) => (
            <li data-kept={design.name}>
              <label>
                <input
                  type="checkbox"
                  aria-label={words.layOver(design.name)}
                  checked={laid().includes(design.name)}
                  onChange={(event) => lay(design.name, event.currentTarget.checked)}
                />
                <svg class="sample" viewBox="0 0 28 8" aria-hidden="true">
                  <path class={`series-${series(design.name)}`} d="M0 4H28" />
                </svg>
                <b>{design.name}</b>
              </label>
              {props.children?.(design.name, i())}
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}
