/** The Chart: what the microphone would do over the plane of any two of its values, and the design as a point in it. */
import { createEffect, createMemo, createSignal, For, type JSX, on, Show } from "solid-js";
import { type ChartPlane, formatQuantity, measures } from "../../core/index.ts";
import type { PlaneLines } from "../../figure/planeLines.ts";
import { chartWords as words } from "../../words/en/chartPage.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { type ChartQuestion, chartInCrew, stopChart } from "../../worker/chartCrew.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Kept } from "../kept/Kept.tsx";
import { laidDesigns } from "../kept/laid.ts";
import { Field } from "../shell/Field.tsx";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { answerOf } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { AlongPanel } from "./AlongPanel.tsx";
import { AxisFields } from "./AxisFields.tsx";
import type { PlaneBase } from "./base.ts";
import { chartChoices, counts } from "./choices.ts";
import { movedTo, spotOf, withValues } from "./design.ts";
import { lawPlane } from "./laws.ts";
import { PlaneView, type Spot } from "./PlaneView.tsx";
import { baseOf, questionOf, runOf } from "./question.ts";
import "./chart.css";

interface Picture {
  readonly plane: ChartPlane;
  readonly lines: PlaneLines;
}

/** Families that can be told apart. */
const mostFamilies = 4;

export function ChartPage(): JSX.Element {
  const work = useWork();
  const choices = chartChoices(work);
  const { x, y, families, laws, count } = choices;
  const [stopped, setStopped] = createSignal(false);
  const base = createMemo<PlaneBase | null>((before) => baseOf(work, choices, before), null);
  const answer = answerOf<ChartQuestion, ChartPlane>("chart", () => (stopped() ? null : questionOf(base(), choices)), {
    ask: (question, onStep) => chartInCrew(work.crew, runOf(question), { onStep }),
    stop: () => stopChart(work.crew),
  });
  const plane = createMemo<ChartPlane | null>((before) => {
    const fresh = answer.state() === "current" ? answer.value() : (answer.step()?.soFar ?? null);
    const usable = fresh ?? before ?? null;
    return usable !== null && usable.x.path === x.path() && usable.y.path === y.path() ? usable : null;
  }, null);
  const here = createMemo<Spot | null>(() => spotOf(work.project(), x.path(), y.path()));
  const tied = () => plane()?.tied ?? [];
  const values = (spot: Spot) => movedTo(work.project(), [x.path(), y.path()], spot, tied());
  function drag(spot: Spot): void {
    const changed = withValues(work.project(), values(spot));
    if (changed !== null) work.dragTo(changed.project, changed.says);
  }
  function step(spot: Spot): void {
    const changed = withValues(work.project(), values(spot));
    if (changed !== null) work.replace(changed.project, changed.says);
  }
  const lawsKnown = () => x.path() === "microphone.diaphragm.across" && y.path() === "microphone.diaphragm.thickness";
  const lawsOf = createMemo(() => {
    const [rested, shown] = [work.rested(), plane()];
    if (!laws() || rested === null || shown === null) return null;
    const spot = spotOf(rested.project, x.path(), y.path());
    return lawPlane({ ...shown, here: { x: spot?.x ?? null, y: spot?.y ?? null } }, rested.prediction);
  });
  // The picture belongs to a plane: it is shown when its lines are found, and the one before stays until then.
  const [picture, setPicture] = createSignal<Picture | null>(null);
  createEffect(
    on([plane, families, lawsOf], async ([of, wanted, asLaws]) => {
      if (of === null) return void setPicture(null);
      const question = { plane: of, families: wanted, laws: asLaws };
      const reply = await work.worker.ask("plane-lines", "planeLines", question, { urgency: "refine" });
      if (reply.kind === "answer" && plane() === of) setPicture({ plane: of, lines: reply.value });
    }),
  );
  const kept = createMemo(() =>
    laidDesigns(work).flatMap(({ name, project }) => {
      const spot = spotOf(project, x.path(), y.path());
      return spot === null ? [] : [{ name, ...spot }];
    }),
  );
  const running = () => answer.state() === "computing" || answer.state() === "old";
  return (
    <PageFrame page="chart" grid="chart-page">
      <Panel title={words.plane} aside={words.planeAside} class="chart-plane">
        <Show when={picture()} fallback={<div class="plane-figure" />}>
          {(shown) => (
            <>
              <PlaneView
                plane={shown().plane}
                lines={shown().lines}
                kept={kept()}
                here={here()}
                onGrab={() => work.grab()}
                onDrag={drag}
                onRelease={() => work.release()}
                onStep={step}
              />
              <p class="aside">
                {shown().plane.x.values.length < count() ? `${words.coarse(shown().plane.x.values.length)} ` : ""}
                {words.region(regionOf(shown()))}
                {shown().lines.without.length > 0 ? ` ${words.withoutSays}` : ""}
                {tied().length > 0 ? ` ${words.tied}` : ""}
              </p>
            </>
          )}
        </Show>
        <div class="chart-ask">
          <Show when={!stopped()} fallback={<span class="aside">{words.stopped}</span>}>
            <TaskState answer={answer} what={words.what} />
          </Show>
          <Show when={running() || stopped()}>
            <button type="button" onClick={() => setStopped(!stopped())}>
              {stopped() ? words.goOn : words.stop}
            </button>
          </Show>
          <label>
            {words.points}{" "}
            <select onChange={(event) => choices.setCount(Number(event.currentTarget.value))}>
              <For each={counts}>
                {(points) => (
                  <option value={points} selected={points === count()}>
                    {points} × {points}
                  </option>
                )}
              </For>
            </select>
          </label>
        </div>
        <Show when={plane()}>{(shown) => <ChartTable caption={words.table} columns={columnsOf(shown())} />}</Show>
      </Panel>
      <div class="chart-side">
        <Panel title={words.design} aside={words.designAside}>
          <Show when={x.path()} keyed>
            {(path) => <Field bench={work} spec={{ path }} />}
          </Show>
          <Show when={y.path()} keyed>
            {(path) => <Field bench={work} spec={{ path }} />}
          </Show>
        </Panel>
        <Panel title={words.axes}>
          <AxisFields
            name={words.along}
            path={x.path()}
            ends={x.axis()}
            without={[y.path()]}
            positive
            choose={x.choose}
            setEnds={x.setEnds}
          />
          <AxisFields
            name={words.up}
            path={y.path()}
            ends={y.axis()}
            without={[x.path()]}
            positive
            choose={y.choose}
            setEnds={y.setEnds}
          />
        </Panel>
        <Panel title={words.lines} aside={words.linesAside}>
          <div class="chart-families">
            <For each={measures.filter((one) => plane()?.measures[one].some((value) => value !== null) ?? true)}>
              {(measure) => (
                <label>
                  <input
                    type="checkbox"
                    checked={families().includes(measure)}
                    disabled={!families().includes(measure) && families().length >= mostFamilies}
                    onChange={(event) =>
                      choices.setFamilies(
                        event.currentTarget.checked
                          ? [...families(), measure]
                          : families().filter((one) => one !== measure),
                      )
                    }
                  />
                  <svg class="sample" viewBox="0 0 28 8" aria-hidden="true">
                    <path
                      class={families().includes(measure) ? `series-${families().indexOf(measure)}` : "series-none"}
                      d="M0 4H28"
                    />
                  </svg>
                  {measureWords[measure].label}
                </label>
              )}
            </For>
          </div>
          <label class="chart-laws">
            <input
              type="checkbox"
              checked={laws() && lawsKnown()}
              disabled={!lawsKnown()}
              onChange={(event) => choices.setLaws(event.currentTarget.checked)}
            />
            {words.laws}
          </label>
          <p class="aside">{lawsKnown() ? words.lawsAside : words.noLaws}</p>
        </Panel>
      </div>
      <AlongPanel choice={choices.along} ready={picture() !== null} />
      <Panel title={words.kept} class="chart-kept">
        <Kept />
      </Panel>
    </PageFrame>
  );
}

/** Whether all that is computed of the brief is met at every point, at some, at none; "unasked": nothing is asked. */
function regionOf({ plane: { least }, lines }: Picture): "unasked" | "none" | "some" | "all" {
  if (least.every((value) => value === null)) return "unasked";
  if (lines.region.length === 0) return "none";
  return least.every((value) => value !== null && value >= 0) ? "all" : "some";
}

function columnsOf(plane: ChartPlane) {
  const [nx, ny] = [plane.x.values.length, plane.y.values.length];
  const text = (axis: ChartPlane["x"]) => (value: number | null) =>
    value === null ? "" : formatQuantity(value, axis.kind, { digits: 4 });
  const all = Array.from({ length: nx * ny }, (_, at) => at);
  return [
    { title: plane.x.label, values: all.map((at) => plane.x.values[at % nx]!), text: text(plane.x) },
    { title: plane.y.label, values: all.map((at) => plane.y.values[Math.floor(at / nx)]!), text: text(plane.y) },
    ...measures
      .filter((measure) => plane.measures[measure].some((value) => value !== null))
      .map((measure) => ({
        title: measureWords[measure].label,
        values: plane.measures[measure],
        text: (value: number | null) => measureText(measure, value, 4),
      })),
  ];
}
