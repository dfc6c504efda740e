/** Designs that meet the brief, or what stands in the way; each is one click from the table. */
import { createSignal, For, type JSX, Show } from "solid-js";
import {
  type Choices,
  changeValue,
  formatNumber,
  formatQuantity,
  type Outcome,
  type Project,
} from "../../core/index.ts";
import { tradeOffFigure } from "../../figure/tradeOffFigure.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { chooseWords as words } from "../../words/en/planes.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { FigureOf } from "../shell/Figure.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import "./choose.css";

const shownMeasures = ["sensitivity", "bandTo", "damping", "noise", "loudest"] as const;

export function Choose(): JSX.Element {
  const work = useWork();
  /** Text of the project that designs were asked for; another project asks for nothing by itself. */
  const [asked, setAsked] = createSignal<string | null>(null);
  const answer = taskAnswer("choose", () => {
    const text = asked();
    return text === null ? null : { text };
  });
  const take = (set: Readonly<Record<string, string>>, says: string) => {
    const changed = Object.entries(set).reduce<Outcome<Project>>(
      (project, [path, value]) => (project.ok ? changeValue(project.value, path, value) : project),
      { ok: true, value: work.project(), remarks: [] },
    );
    if (changed.ok) work.replace(changed.value, says);
  };
  return (
    <Panel title={words.title} aside={words.aside} class="choose">
      <div class="choose-ask">
        <button type="button" onClick={() => setAsked(work.project().text)}>
          {words.find}
        </button>
        <Show when={answer.state() === "computing" || answer.state() === "old"}>
          <button type="button" onClick={() => setAsked(null)}>
            {words.stop}
          </button>
        </Show>
      </div>
      <Show when={asked() !== null}>
        <TaskState answer={answer} what={words.what} />
      </Show>
      <Show when={asked() === null ? null : answer.value()}>{(found) => <Found found={found()} take={take} />}</Show>
    </Panel>
  );
}

function Found(props: {
  readonly found: Choices;
  readonly take: (set: Readonly<Record<string, string>>, says: string) => void;
}): JSX.Element {
  const percent = (reserve: number | null) =>
    reserve === null ? "" : words.spare(`${formatNumber(100 * Math.expm1(reserve), { digits: 2 })} %`);
  const search = () => props.found.search;
  return (
    <>
      <Show when={props.found.refused.length > 0}>
        <p>{words.leastBad}</p>
      </Show>
      <ol class="choose-list">
        <For each={props.found.designs}>
          {(design) => (
            <li>
              <p>
                <strong>{design.as.join(", ")}</strong>{" "}
                <span class="aside">
                  {design.verdict.every(({ met }) => met !== false) ? percent(design.reserve) : ""}
                </span>
              </p>
              <p>
                {Object.entries(design.set)
                  .map(([path, value]) => `${path.replace(/^microphone\./, "")} ${value}`)
                  .join(", ")}
              </p>
              <p class="aside">
                {shownMeasures
                  .filter((measure) => design.measures[measure] !== null)
                  .map(
                    (measure) =>
                      `${measureWords[measure].label.toLowerCase()} ${measureText(measure, design.measures[measure])}`,
                  )
                  .join(", ")}
              </p>
              <button type="button" onClick={() => props.take(design.set, `Chosen: ${design.as.join(", ")}`)}>
                {words.take}
              </button>
            </li>
          )}
        </For>
      </ol>
      <Show when={props.found.refused.length > 0}>
        <h4>{words.inTheWay}</h4>
        <ul class="choose-refused">
          <For each={props.found.refused}>
            {({ requirement, asked, nearest, alone, reason }) => {
              const { label, kind } = requirementWords(requirement);
              const shown = (value: number) => formatQuantity(value, kind, { digits: 3 });
              return (
                <li>
                  <p>
                    <strong>
                      {label} {shown(asked)}
                    </strong>
                    : {shown(nearest)}
                    {alone === null ? "" : `; ${words.alone(shown(alone))}`}
                  </p>
                  <p class="aside">{reason}</p>
                  <button
                    type="button"
                    onClick={() => props.take({ [requirement]: plainText(requirement, nearest) }, `Relaxed: ${label}`)}
                  >
                    {words.relax}
                  </button>
                </li>
              );
            }}
          </For>
        </ul>
      </Show>
      <Show when={props.found.tradeOff.length > 2}>
        <h4>{words.tradeOff}</h4>
        <FigureOf draw={(room) => tradeOffFigure(props.found, words.tradeOffText, room)} />
      </Show>
      <p class="aside">{words.says(search().evaluations, search().settled, search().seed)}</p>
    </>
  );
}

/** A relaxed requirement as the project file says it; levels are numbers of dB. */
function plainText(requirement: string, value: number): string {
  const { kind } = requirementWords(requirement);
  if (kind === "decibel") return `${value.toFixed(1)} dB`;
  if (kind === "number") return String(Number(value.toPrecision(4)));
  return kind === "frequency"
    ? `${Number(value.toPrecision(4))} Hz`
    : `${Number((value * 1e3).toPrecision(4))} mrad/Pa`;
}
