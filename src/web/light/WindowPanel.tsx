/** Where the guide holds one mode, refining as it is computed. */
import { createSignal, type JSX, Show } from "solid-js";
import type { ModeWindow, WindowAxis } from "../../core/index.ts";
import { windowColumns, windowFigure } from "../../figure/windowFigure.ts";
import { lightWords as words } from "../../words/en/light.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { FigureOf } from "../shell/Figure.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { guideText } from "./guideFields.ts";

const points = 20;

export function WindowPanel(): JSX.Element {
  const work = useWork();
  const [against, setAgainst] = createSignal<WindowAxis>("depth");
  const [stopped, setStopped] = createSignal(false);
  const [last, setLast] = createSignal<ModeWindow | null>(null);
  const answer = taskAnswer("modeWindow", () =>
    stopped() ? null : { text: guideText(work.project()), against: against(), points },
  );
  /** What came last stays in sight while it is stopped. */
  const soFar = (): ModeWindow | null => {
    const fresh = answer.state() === "current" ? answer.value() : (answer.step()?.soFar ?? null);
    if (fresh !== null) setLast(fresh);
    return fresh ?? last();
  };
  const texts = (window: ModeWindow) => ({
    size: words.axis[window.kind],
    wavelength: words.wavelengthAxis,
    held: words.held,
    now: words.now,
    description: words.windowSays,
  });
  return (
    <Panel title={words.window} aside={words.windowAside} class="mode-window">
      <p class="light-buttons">
        <label>
          {words.against}{" "}
          <select onChange={(event) => setAgainst(event.currentTarget.value === "width" ? "width" : "depth")}>
            <option value="depth">{words.depthAxis}</option>
            <option value="width">{words.widthAxis}</option>
          </select>
        </label>
        <Show when={stopped() || answer.state() !== "current"}>
          <button type="button" onClick={() => setStopped(!stopped())}>
            {stopped() ? words.goOn : words.stop}
          </button>
        </Show>
      </p>
      <TaskState answer={answer} what={words.windowWhat} />
      <Show when={soFar()}>
        {(window) => (
          <>
            <FigureOf draw={(room) => windowFigure(window(), texts(window()), room)} />
            <ChartTable caption={words.window} columns={windowColumns(window(), texts(window()))} />
          </>
        )}
      </Show>
    </Panel>
  );
}
