/** The map of all keys, over the page. */
import { createEffect, For, type JSX, on } from "solid-js";
import { keyMap, keyWords as words } from "../../words/en/keys.ts";

export function KeyMap(props: {
  /** Times it was asked for. */
  readonly asked: number;
  readonly single: boolean;
  readonly setSingle: (single: boolean) => void;
}): JSX.Element {
  let map!: HTMLDialogElement;
  createEffect(
    on(
      () => props.asked,
      () =>
        // After the dialog is in the page.
        queueMicrotask(() => {
          if (!map.open) map.showModal();
        }),
    ),
  );
  return (
    <dialog ref={map} class="keys" aria-labelledby="keys-title">
      <h2 id="keys-title">
        {words.title}{" "}
        <button type="button" class="word" onClick={() => map.close()}>
          {words.close}
        </button>
      </h2>
      <For each={keyMap}>
        {(group) => (
          <section>
            <h3>{group.where}</h3>
            <dl>
              <For each={group.keys}>
                {({ key, does }) => (
                  <div>
                    <dt>{key}</dt>
                    <dd>{does}</dd>
                  </div>
                )}
              </For>
            </dl>
          </section>
        )}
      </For>
      <label>
        <input
          type="checkbox"
          checked={props.single}
          onChange={(event) => props.setSingle(event.currentTarget.checked)}
        />{" "}
        {words.single}
      </label>
      <p class="aside">{words.singleHint}</p>
    </dialog>
  );
}
