/** Says what is being computed, how far it is, what is old, and why there is no answer. Nothing where all is well. */
import { For, type JSX, Match, Show, Switch } from "solid-js";
import { pathText } from "../../core/index.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import type { TaskAnswer } from "./taskAnswer.ts";

export function TaskState(props: { readonly answer: TaskAnswer<unknown>; readonly what: string }): JSX.Element {
  const says = () => {
    const step = props.answer.step();
    return step === null ? words.computing(props.what) : words.progress(props.what, step.done, step.of);
  };
  return (
    <div class="task-state" role="status" data-state={props.answer.state()}>
      <Switch>
        <Match when={props.answer.state() === "waiting"}>{words.waiting(props.what)}</Match>
        <Match when={props.answer.state() === "computing"}>{says()}</Match>
        <Match when={props.answer.state() === "old"}>
          {words.oldAnswer(props.what)} {says()}
        </Match>
        <Match when={props.answer.state() === "refused"}>
          <p>{words.noAnswer(props.what, props.answer.problems().length)}</p>
          <ul>
            <For each={props.answer.problems()}>
              {({ path, message }) => (
                <li>
                  <Show when={path.length > 0}>
                    <span class="aside">{pathText(path)} </span>
                  </Show>
                  {message}
                </li>
              )}
            </For>
          </ul>
        </Match>
      </Switch>
    </div>
  );
}
