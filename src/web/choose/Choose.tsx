/** Designs that meet the brief, or what stands in the way; each is one click from the table. */
import { type JSX, Show } from "solid-js";
import { type Choices, chooseDefaults, projectText } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { abandonChoosing, chooseInCrew, endChoosing } from "../../worker/chooseCrew.ts";
import type { ChooseSearch } from "../../worker/tasks.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { answerOf } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { Found } from "./Found.tsx";
import { Free } from "./Free.tsx";
import { searchOf } from "./search.ts";
import "./choose.css";

export function Choose(): JSX.Element {
  const work = useWork();
  const search = searchOf(work);
  const { crew } = work;
  const answer = answerOf<ChooseSearch, Choices>("choose", search.asked, {
    ask: (asked, onStep) => chooseInCrew(crew, asked, onStep),
    stop: () => abandonChoosing(crew),
  });
  const running = () => search.asked() !== null && (answer.state() === "computing" || answer.state() === "old");
  const ask = (evaluations: number) => search.ask(projectText(work.project()), evaluations);
  // What an earlier search found is not shown, so nothing is called old.
  const shown = { ...answer, state: () => (answer.state() === "old" ? "computing" : answer.state()) };
  const found = () => (search.asked() === null || answer.state() !== "current" ? null : answer.value());
  const stop = () => {
    const asked = search.asked();
    if (asked !== null) endChoosing(crew, asked.run);
  };
  return (
    <Panel title={words.title} aside={words.aside} class="choose">
      <Free />
      <p class="choose-ask">
        <Show
          when={running()}
          fallback={
            <button type="button" onClick={() => ask(chooseDefaults.evaluations)}>
              {found() === null ? words.find : words.again}
            </button>
          }
        >
          <button type="button" onClick={stop}>
            {words.stop}
          </button>
        </Show>
        <Show when={found()?.search.settled === false}>
          <button type="button" onClick={() => ask(2 * (search.asked()?.evaluations ?? chooseDefaults.evaluations))}>
            {words.longer}
          </button>
        </Show>
      </p>
      <Show when={search.asked() !== null}>
        <TaskState answer={shown} what={words.what} />
      </Show>
      <Show when={found()}>{(one) => <Found found={one()} />}</Show>
    </Panel>
  );
}
