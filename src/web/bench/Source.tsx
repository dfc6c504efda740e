/** Where a number comes from, with what each key in it stands for, as docs/sources.md says it. */
import { createResource, For, type JSX, Show } from "solid-js";

/** Read when a card with a key is opened first. */
let read: Promise<ReadonlyMap<string, string>> | undefined;
const entries = (): Promise<ReadonlyMap<string, string>> => {
  read ??= import("../../../docs/sources.md?raw").then(
    ({ default: text }) =>
      new Map([...text.matchAll(/^- \*\*\[([a-z0-9-]+)\]\*\* (.+)$/gm)].map(([, key = "", says = ""]) => [key, says])),
  );
  return read;
};

export function Source(props: { readonly text: string }): JSX.Element {
  const keys = () => [...props.text.matchAll(/\[([a-z0-9-]+)\]/g)].map(([, key = ""]) => key);
  const [known] = createResource(
    () => keys().length > 0,
    () => entries(),
  );
  return (
    <>
      <p class="aside">{props.text}</p>
      <Show when={known.latest}>
        {(all) => (
          <ul class="sources aside">
            <For each={keys().filter((key) => all().has(key))}>
              {(key) => (
                <li>
                  [{key}] {all().get(key)}
                </li>
              )}
            </For>
          </ul>
        )}
      </Show>
    </>
  );
}
