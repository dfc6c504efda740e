/** Says what is being computed, how far it is, what is old, and why there is no answer. Nothing where all is well. */
import { For, type JSX, Match, Show, Switch } from "solid-js";
import type { Problem } from "../../core/index.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import { placeText } from "./placeText.ts";
import type { TaskAnswer } from "./taskAnswer.ts";
import { useWork } from "./work.ts";

export function TaskState(props: { readonly answer: TaskAnswer<unknown>; readonly what: string }): JSX.Element {
  const says = () => {
    const step = props.answer.step();
    return step === null ? words.computing(props.what) : words.progress(props.what, step.done, step.of);
  };
  return (
    <div class="task-state" role="status" data-state={props.answer.state()}>
      <Switch>
        <Match when={props.answer.state() === "waiting"}>
          <Waiting what={props.what} />
        </Match>
        <Match when={props.answer.state() === "computing"}>{says()}</Match>
        <Match when={props.answer.state() === "old"}>
          {words.oldAnswer(props.what)} {says()}
        </Match>
        <Match when={props.answer.state() === "refused"}>
          <NoAnswer what={props.what} problems={props.answer.problems()} />
        </Match>
      </Switch>
    </div>
  );
}

/** For the first answer, or for a project that can have one. */
export function Waiting(props: { readonly what: string }): JSX.Element {
  const work = useWork();
  return <>{work.freshness() === "none" ? words.mendFirst(props.what) : words.waiting(props.what)}</>;
}

/** Why there is no answer: every problem, with its path. Those of the project itself stand above every page. */
export function NoAnswer(props: { readonly what: string; readonly problems: readonly Problem[] }): JSX.Element {
  const work = useWork();
  return (
    <Show when={work.failure().length === 0} fallback={words.mendFirst(props.what)}>
      <p>{words.noAnswer(props.what, props.problems.length)}</p>
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
    </Show>
  );
}
