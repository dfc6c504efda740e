/** Where the guide holds one mode, refining as it is computed. */
import { createSignal, For, type JSX, Show } from "solid-js";
import {
  formatNumber,
  formatQuantity,
  type Held,
  type ModeWindow,
  projectText,
  type WindowAxis,
} from "../../core/index.ts";
import { lightWords as words } from "../../words/en/light.ts";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";

const points = 20;

export function WindowPanel(): JSX.Element {
  const work = useWork();
  const [against, setAgainst] = createSignal<WindowAxis>("depth");
  const [stopped, setStopped] = createSignal(false);
  const answer = taskAnswer("modeWindow", () =>
    stopped() ? null : { text: projectText(work.project()), against: against(), points },
  );
  const soFar = (): ModeWindow | null => (answer.step() as { soFar?: ModeWindow } | null)?.soFar ?? answer.value();
  return (
    <div>
      <p>
        <label>
          {words.against}{" "}
          <select onChange={(event) => setAgainst(event.currentTarget.value === "width" ? "width" : "depth")}>
            <option value="depth">{words.depthAxis}</option>
            <option value="width">{words.widthAxis}</option>
          </select>
        </label>{" "}
        <button type="button" onClick={() => setStopped(!stopped())}>
          {stopped() ? words.goOn : words.stop}
        </button>
      </p>
      <TaskState answer={answer} what={words.windowWhat} />
      <Show when={soFar()}>{(window) => <WindowTable window={window()} />}</Show>
    </div>
  );
}

const glyph: Record<Held, string> = { 0: "·", 1: "1", 2: "2+" };

/** The chart is its own table: each cell says how many modes are held. */
function WindowTable(props: { readonly window: ModeWindow }): JSX.Element {
  const size = (value: number) =>
    props.window.kind === "time"
      ? `${formatNumber(value / 3600, { digits: 2 })} h`
      : formatQuantity(value, "length", { digits: 2 });
  const rows = () => props.window.size.map((value, row) => ({ value, row })).reverse();
  return (
    <section class="scroll" tabindex="0" aria-label={words.window}>
      <table class="window-table">
        <caption>
          {words.axis[props.window.kind]} upward, wavelength to the right: {glyph[0]} {words.held[0]}, {glyph[1]}{" "}
          {words.held[1]}, {glyph[2]} {words.held[2]}
        </caption>
        <tbody>
          <For each={rows()}>
            {({ value, row }) => (
              <tr>
                <th scope="row">{size(value)}</th>
                <For each={props.window.wavelength}>
                  {(_, column) => {
                    const held = () => props.window.held[row * props.window.wavelength.length + column()] ?? null;
                    return <td data-held={held() ?? ""}>{held() === null ? "" : glyph[held() as Held]}</td>;
                  }}
                </For>
              </tr>
            )}
          </For>
          <tr>
            <th />
            <For each={props.window.wavelength}>
              {(value, column) => (
                <td class="window-axis">{column() % 5 === 0 ? formatQuantity(value, "length", { digits: 2 }) : ""}</td>
              )}
            </For>
          </tr>
        </tbody>
      </table>
    </section>
  );
}
