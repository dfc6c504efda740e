/** The Chart: what the microphone would do over the plane of any two of its values, and the design as a point in it. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import { type ChartPlane, findPath, formatQuantity, type Measure, measures, type Project } from "../../core/index.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { chartWords as words } from "../../words/en/planes.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Field } from "../shell/Field.tsx";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { type AxisChoice, axisPaths, createAxis } from "./axes.ts";
import { lawPlane } from "./laws.ts";
import { PlaneView, type Spot } from "./PlaneView.tsx";
import "./chart.css";

/** Points a side: a multiple of eight and one more, so that the coarse planes are even. */
const counts = [17, 25, 41, 57] as const;

export function ChartPage(): JSX.Element {
  const work = useWork();
  const x = createAxis(work.project, "microphone.diaphragm.across");
  const y = createAxis(work.project, "microphone.diaphragm.thickness");
  const [families, setFamilies] = createSignal<readonly Measure[]>(["sensitivity", "resonance", "damping", "noise"]);
  const [laws, setLaws] = createSignal(false);
  const [stopped, setStopped] = createSignal(false);
  const [count, setCount] = createSignal<number>(counts[0]);
  // The plane does not depend on where the design stands in it: moving it asks nothing anew.
  const base = createMemo(() => centered(work.project(), [x, y]));
  const answer = taskAnswer("chart", () => {
    const [alongX, alongY] = [x.axis(), y.axis()];
    if (stopped() || alongX === null || alongY === null || alongX.path === alongY.path) return null;
    return { text: base(), x: alongX, y: alongY, count: count() };
  });
  const plane = createMemo<ChartPlane | null>((before) => {
    const fresh = answer.state() === "current" ? answer.value() : (answer.step()?.soFar ?? null);
    const usable = fresh ?? before ?? null;
    return usable !== null && usable.x.path === x.path() && usable.y.path === y.path() ? usable : null;
  }, null);
  const here = createMemo<Spot | null>(() => {
    const [a, b] = [x, y].map(({ path }) => {
      const place = findPath(path());
      const read = place.ok ? place.value.read(work.project()) : place;
      return read.ok ? read.value : null;
    });
    return a === null || b === null || a === undefined || b === undefined ? null : { x: a, y: b };
  });
  const tied = () => plane()?.tied ?? [];
  function moveTo(spot: Spot, how: (path: string, value: number) => void): void {
    const from = here();
    if (from === null) return;
    for (const path of tied()) {
      const place = findPath(path);
      const read = place.ok ? place.value.read(work.project()) : place;
      if (read.ok) how(path, (read.value * spot.x) / from.x);
    }
    how(x.path(), spot.x);
    how(y.path(), spot.y);
  }
  const prediction = () => work.rested()?.prediction ?? null;
  const lawsOf = () => {
    const [known, shown] = [prediction(), plane()];
    if (!laws() || known === null || shown === null) return null;
    const spot = here();
    return lawPlane({ ...shown, here: { x: spot?.x ?? null, y: spot?.y ?? null } }, known);
  };
  const allowed = () => plane()?.least.some((value) => value !== null && value >= 0) ?? true;
  return (
    <PageFrame page="chart" grid="chart-page">
      <Panel title={words.plane} aside={words.planeAside} class="chart-plane">
        <Show when={plane()}>
          {(shown) => (
            <>
              <PlaneView
                plane={shown()}
                families={families()}
                laws={lawsOf()}
                here={here()}
                onGrab={() => work.grab()}
                onDrag={(spot) => moveTo(spot, work.drag)}
                onRelease={() => work.release()}
                onStep={(spot) => moveTo(spot, work.step)}
              />
              <p class="aside">{allowed() ? words.shaded : words.none}</p>
              <Show when={tied().length > 0}>
                <p class="aside">{words.tied(tied())}</p>
              </Show>
              <ChartTable caption={words.table} columns={columnsOf(shown())} />
            </>
          )}
        </Show>
        <TaskState answer={answer} what={words.what} />
        <Show when={stopped()}>
          <p class="aside">{words.stopped}</p>
        </Show>
        <div class="chart-ask">
          <label>
            {words.points}{" "}
            <select onChange={(event) => setCount(Number(event.currentTarget.value))}>
              <For each={counts}>
                {(points) => (
                  <option value={points}>
                    {points} × {points}
                  </option>
                )}
              </For>
            </select>
          </label>
          <button type="button" onClick={() => setStopped(!stopped())}>
            {stopped() ? words.goOn : words.stop}
          </button>
        </div>
      </Panel>
      <div class="chart-side">
        <Panel title={words.design} aside={words.designAside}>
          <Field bench={work} spec={{ path: x.path() }} />
          <Field bench={work} spec={{ path: y.path() }} />
        </Panel>
        <Panel title={words.along}>
          <AxisFields axis={x} other={y.path()} />
        </Panel>
        <Panel title={words.up}>
          <AxisFields axis={y} other={x.path()} />
        </Panel>
        <Panel title={words.lines}>
          <div class="chart-families">
            <For
              each={measures.filter((measure) => plane()?.measures[measure].some((value) => value !== null) ?? true)}
            >
              {(measure) => (
                <label>
                  <input
                    type="checkbox"
                    checked={families().includes(measure)}
                    disabled={!families().includes(measure) && families().length >= 4}
                    onChange={(event) =>
                      setFamilies(
                        event.currentTarget.checked
                          ? [...families(), measure]
                          : families().filter((one) => one !== measure),
                      )
                    }
                  />
                  {measureWords[measure].label}
                </label>
              )}
            </For>
          </div>
          <label class="chart-laws">
            <input type="checkbox" checked={laws()} onChange={(event) => setLaws(event.currentTarget.checked)} />
            <span>
              {words.laws} <span class="aside">{words.lawsAside}</span>
            </span>
          </label>
        </Panel>
      </div>
    </PageFrame>
  );
}

/** The project with the two values in the middle of their axes, as text. */
function centered(project: Project, axes: readonly AxisChoice[]): string {
  let changed = project;
  for (const { axis } of axes) {
    const found = axis();
    const place = found && findPath(found.path);
    if (!found || !place?.ok) continue;
    const middle = Math.sqrt(found.from * found.to);
    const read = place.value.read(changed);
    const follow = found.path === "microphone.diaphragm.across" && read.ok ? middle / read.value : null;
    if (follow !== null)
      for (const path of ["microphone.diaphragm.along", "microphone.guide.at"]) {
        const tied = findPath(path);
        const value = tied.ok ? tied.value.read(changed) : tied;
        const written = tied.ok && value.ok ? tied.value.write(changed, value.value * follow, { digits: 6 }) : null;
        if (written?.ok) changed = written.value;
      }
    const written = place.value.write(changed, middle, { digits: 6 });
    if (written.ok) changed = written.value;
  }
  return changed.text;
}

function AxisFields(props: { readonly axis: AxisChoice; readonly other: string }): JSX.Element {
  const [bad, setBad] = createSignal(false);
  let from!: HTMLInputElement;
  let to!: HTMLInputElement;
  const kind = () => {
    const place = findPath(props.axis.path());
    return place.ok ? place.value.kind : "number";
  };
  const shown = (value: number | undefined) =>
    value === undefined ? "" : formatQuantity(value, kind(), { digits: 3 });
  const take = () => setBad(!props.axis.setEnds(from.value, to.value));
  return (
    <div class="axis-fields">
      <select
        aria-label={words.along}
        onChange={(event) => {
          setBad(false);
          props.axis.choose(event.currentTarget.value);
        }}
      >
        <For each={axisPaths.filter((path) => path !== props.other)}>
          {(path) => {
            const place = findPath(path);
            return (
              <option value={path} selected={path === props.axis.path()}>
                {place.ok ? place.value.label : path}
              </option>
            );
          }}
        </For>
      </select>
      <label>
        {words.from}
        <input type="text" ref={from} value={shown(props.axis.axis()?.from)} aria-invalid={bad()} onChange={take} />
      </label>
      <label>
        {words.to}
        <input type="text" ref={to} value={shown(props.axis.axis()?.to)} aria-invalid={bad()} onChange={take} />
      </label>
      <Show when={bad()}>
        <p class="problem">{words.badEnd}</p>
      </Show>
    </div>
  );
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
