/** Problems where no field can show them. */
import { For, type JSX, Show } from "solid-js";
import type { Problem } from "../../core/index.ts";
import { placeText } from "./placeText.ts";

export function ProblemList(props: {
  readonly title: string;
  readonly problems: readonly Problem[];
  readonly children?: JSX.Element;
}): JSX.Element {
  return (
    <section class="panel wrong" role="alert">
      <h2>
        {props.title} {props.children}
      </h2>
      <ul>
        <For each={props.problems}>
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
    </section>
  );
}
