/** Problems where no field can show them. */
import { For, type JSX } from "solid-js";
import { type Problem, pathText } from "../../core/index.ts";

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
              <span class="aside">{pathText(path)}</span> {message}
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}
