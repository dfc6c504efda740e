/** How long in the bath: one mode, and the largest phase per pascal times the root of the light that gets in. */
import { type JSX, Show } from "solid-js";
import { type ExchangeTime, findPath, type Project } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { exchangeColumns, exchangeFigure } from "../../figure/lightFigures.ts";
import { sizeText } from "../../figure/windowFigure.ts";
import { lightWords as words } from "../../words/en/light.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { FigureOf } from "../shell/Figure.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { guideText } from "./guideFields.ts";
import { guidePath } from "./guidePath.ts";

const points = 13;

export function TimePanel(): JSX.Element {
  const work = useWork();
  const answer = taskAnswer("exchangeTime", () => ({ text: guideText(work.project()), points }));
  const place = () => findPath(`${guidePath(work.project())}.process.time`);
  const present = (project: Project) => {
    const found = place();
    const read = found.ok ? found.value.read(project) : found;
    return read.ok ? read.value : 0;
  };
  function take(time: number): void {
    const found = place();
    const changed = found.ok ? found.value.write(work.project(), time, { digits: 3 }) : found;
    if (changed.ok) work.replace(changed.value, words.takeTime(sizeText("time", time)));
  }
  return (
    <Panel title={words.time} aside={words.timeAside}>
      <TaskState answer={answer} what={words.timeWhat} />
      <Show when={answer.value()}>
        {(found) => (
          <>
            <FigureOf
              draw={(room) => exchangeFigure(found(), present(work.project()), { ...room, colors: pageColors })}
            />
            <p class="light-buttons">
              <Best found={found()} onTake={take} />
            </p>
            <ChartTable caption={words.time} columns={exchangeColumns(found())} />
          </>
        )}
      </Show>
    </Panel>
  );
}

function Best(props: { readonly found: ExchangeTime; readonly onTake: (time: number) => void }): JSX.Element {
  return (
    <Show when={props.found.best} fallback={<span>{words.noBest}</span>}>
      {(time) => (
        <>
          <span>{words.best(sizeText("time", time()))}</span>
          <button type="button" onClick={() => props.onTake(time())}>
            {words.takeTime(sizeText("time", time()))}
          </button>
        </>
      )}
    </Show>
  );
}
