/** Spread: yield against the brief, what matters most, the worst corners and what to buy. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import {
  findPath,
  formatNumber,
  formatQuantity,
  measures,
  readBrief,
  type Spread,
  type SpreadPart,
} from "../../core/index.ts";
import { spreadFigure, spreadTable } from "../../figure/spreadFigure.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { spreadWords as words } from "../../words/en/planes.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { FigureOf } from "../shell/Figure.tsx";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { Varied } from "./Varied.tsx";
import "./spread.css";

const sizes = [200, 1000, 5000, 10_000] as const;
/** Points a set for the indices: fewer would only show their own scatter. */
const influenceOf = (count: number) => Math.max(32, Math.min(256, count / 8));
const seed = 1;

/** A share as a percentage. */
const percent = (value: number) => `${formatNumber(100 * value, { digits: 3 })} %`;

export function SpreadPage(): JSX.Element {
  const work = useWork();
  const [count, setCount] = createSignal<number>(sizes[0]);
  const [stopped, setStopped] = createSignal(false);
  const question = () => ({ text: work.project().text, count: count(), influence: influenceOf(count()), seed });
  const part = taskAnswer("spreadPart", () => (stopped() ? null : { ...question(), part: 0, parts: 1 }));
  const joined = taskAnswer("spreadJoin", () => {
    const found = part.state() === "current" ? part.value() : null;
    return found === null ? null : { ...question(), parts: [found as SpreadPart] };
  });
  const spread = createMemo<Spread | null>(() => joined.value());
  const within = () => readBrief(work.project()).band?.withinDb ?? null;
  return (
    <PageFrame page="spread" grid="spread-page">
      <Panel title={words.yield} class="spread-yield">
        <div class="spread-ask">
          <label>
            {words.count}{" "}
            <select onChange={(event) => setCount(Number(event.currentTarget.value))}>
              <For each={sizes}>{(size) => <option value={size}>{String(size)}</option>}</For>
            </select>
          </label>
          <button type="button" onClick={() => setStopped(!stopped())}>
            {stopped() ? words.again : words.stop}
          </button>
        </div>
        <TaskState answer={part} what={words.what} />
        <Show when={spread()}>
          {(found) => (
            <>
              <p class="spread-number" data-yield={found().yield.value}>
                {percent(found().yield.value)}
              </p>
              <p>{words.passes}</p>
              <p class="aside">
                {words.interval(percent(found().yield.low), percent(found().yield.high), found().count)}
              </p>
              <Show when={found().impossible > 0}>
                <p class="aside">{words.impossible(found().impossible)}</p>
              </Show>
              <h4>{words.each}</h4>
              <ul class="spread-each">
                <For each={found().byRequirement.filter((one) => one.yield !== null)}>
                  {(one) => (
                    <li>
                      <span>{requirementWords(one.requirement).label}</span>
                      <meter
                        min="0"
                        max="1"
                        value={one.yield?.value ?? 0}
                        aria-label={requirementWords(one.requirement).label}
                      />
                      <span>{percent(one.yield?.value ?? 0)}</span>
                    </li>
                  )}
                </For>
              </ul>
            </>
          )}
        </Show>
      </Panel>
      <Varied spread={spread()} />
      <Show when={spread()}>
        {(found) => (
          <>
            <Panel title={words.band} aside={words.bandAside} class="spread-band">
              <FigureOf
                draw={(room) =>
                  spreadFigure(
                    found().band,
                    { description: words.bandText, level: words.level, within: within() },
                    room,
                  )
                }
              />
              <ChartTable caption={words.bandText} columns={spreadTable(found().band)} />
            </Panel>
            <Panel title={words.influence} aside={words.influenceAside}>
              <Show when={found().influence.length > 0} fallback={<p class="aside">{words.noInfluence}</p>}>
                <ul class="spread-influence">
                  <For each={found().influence}>
                    {(one) => (
                      <li>
                        <span>{one.label}</span>
                        <meter min="0" max="1" value={Math.min(1, Math.max(0, one.total))} aria-label={one.label} />
                        <span>
                          {formatNumber(100 * one.first, { digits: 2 })} %,{" "}
                          {formatNumber(100 * one.total, { digits: 2 })} %
                          <span class="aside"> ± {formatNumber(100 * one.totalStandard, { digits: 1 })} %</span>
                        </span>
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
            </Panel>
            <Panel title={words.buy}>
              <Purchase spread={found()} />
            </Panel>
            <Panel title={words.spreadOf}>
              <div class="spread-scroll">
                <table class="spread-table">
                  <tbody>
                    <For each={measures.filter((measure) => found().measures[measure] !== undefined)}>
                      {(measure) => {
                        const at = (k: number) => measureText(measure, found().measures[measure]?.at[k] ?? null);
                        return (
                          <tr>
                            <th scope="row">{measureWords[measure].label}</th>
                            <td>{at(2)}</td>
                            <td class="aside">
                              {at(0)} to {at(4)}
                            </td>
                          </tr>
                        );
                      }}
                    </For>
                  </tbody>
                </table>
              </div>
            </Panel>
            <Panel title={words.corners} aside={words.cornersAside} class="spread-corners">
              <ul>
                <For each={found().corners.filter(({ reserve }) => reserve !== null)}>
                  {(corner) => (
                    <li classList={{ missed: (corner.reserve ?? 0) < 0 }}>
                      <strong>{requirementWords(corner.requirement).label}</strong>{" "}
                      {(corner.reserve ?? 0) < 0 ? words.missed : words.met}{" "}
                      {formatNumber(100 * Math.expm1(corner.reserve ?? 0), { digits: 2 })} %
                      <span class="aside">
                        {Object.entries(corner.values)
                          .map(([path, value]) => {
                            const place = findPath(path);
                            return place.ok
                              ? `${place.value.label.toLowerCase()} ${formatQuantity(value, place.value.kind, { digits: 3 })}`
                              : path;
                          })
                          .join(", ")}
                      </span>
                    </li>
                  )}
                </For>
              </ul>
            </Panel>
          </>
        )}
      </Show>
    </PageFrame>
  );
}

function Purchase(props: { readonly spread: Spread }): JSX.Element {
  return (
    <Show when={props.spread.purchase} fallback={<p class="aside">{words.reached}</p>}>
      {(found) => (
        <>
          <Show when={found().halve.length > 0} fallback={<p>{words.buyNone}</p>}>
            <p>{words.bought(percent(found().yield), found().cost)}</p>
            <ul class="spread-buy">
              <For each={found().halve}>
                {({ path, times, width }) => {
                  const place = findPath(path);
                  return (
                    <li>
                      {place.ok ? place.value.label : path}: {times === 1 ? "halved" : `halved ${times} times`}
                      {place.ok ? `, to ± ${formatQuantity(width, place.value.kind, { digits: 2 })}` : ""}
                    </li>
                  );
                }}
              </For>
            </ul>
          </Show>
          <h4>Halving one alone</h4>
          <ul class="spread-buy">
            <For each={found().alone}>
              {({ path, yield: got, cost }) => {
                const place = findPath(path);
                return (
                  <li>
                    {place.ok ? place.value.label : path}: {percent(got)}
                    <span class="aside">{cost === null ? "" : `, cost ${cost}`}</span>
                  </li>
                );
              }}
            </For>
          </ul>
        </>
      )}
    </Show>
  );
}
