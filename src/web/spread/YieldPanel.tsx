/** How many specimens would pass, and by which requirement the others fail. */
import { For, type JSX, Match, Show, Switch } from "solid-js";
import type { Spread } from "../../core/index.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { shellWords } from "../../words/en/shell.ts";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { pageAddress } from "../shell/route.ts";
import { NoAnswer, Waiting } from "../shell/TaskState.tsx";
import type { SpreadRun } from "./run.ts";
import { percent } from "./share.ts";

const sizes = [200, 1000, 5000, 10_000] as const;

export function YieldPanel(props: {
  readonly run: SpreadRun;
  readonly count: number;
  readonly setCount: (count: number) => void;
}): JSX.Element {
  return (
    <Panel title={words.yield} class="spread-yield">
      <div class="spread-ask">
        <label>
          {words.count}{" "}
          <select onChange={(event) => props.setCount(Number(event.currentTarget.value))}>
            <For each={sizes}>
              {(size) => (
                <option value={size} selected={size === props.count}>
                  {String(size)}
                </option>
              )}
            </For>
          </select>
        </label>
        <Show when={props.run.state() === "computing" || props.run.state() === "stopped"}>
          <button type="button" onClick={() => (props.run.state() === "stopped" ? props.run.goOn() : props.run.stop())}>
            {props.run.state() === "stopped" ? words.goOn : words.stop}
          </button>
        </Show>
      </div>
      <RunState run={props.run} />
      <Show when={props.run.spread()}>{(found) => <Yield spread={found()} />}</Show>
    </Panel>
  );
}

function RunState(props: { readonly run: SpreadRun }): JSX.Element {
  const count = () => props.run.spread()?.count ?? 0;
  return (
    <div class="task-state" role="status" data-state={props.run.old() ? "old" : props.run.state()}>
      <Show when={props.run.old()}>{shellWords.oldAnswer(words.what)} </Show>
      <Switch>
        <Match when={props.run.state() === "waiting"}>
          <Waiting what={words.what} />
        </Match>
        <Match when={props.run.state() === "computing"}>
          <progress max={props.run.progress().of} value={props.run.progress().done} aria-label={words.what} />{" "}
          {props.run.spread() === null || props.run.old() ? shellWords.computing(words.what) : words.soFar(count())}
        </Match>
        <Match when={props.run.state() === "stopped" && !props.run.old()}>
          {count() > 0 ? words.stopped(count()) : words.stoppedEmpty}
        </Match>
        <Match when={props.run.state() === "refused"}>
          <NoAnswer what={words.what} problems={props.run.problems()} />
        </Match>
      </Switch>
    </div>
  );
}

function Yield(props: { readonly spread: Spread }): JSX.Element {
  const known = () => props.spread.byRequirement.filter((one) => one.yield !== null);
  return (
    <Show
      when={known().length > 0}
      fallback={
        <p class="spread-unasked">
          {words.unasked} <a href={pageAddress("brief")}>{words.toBrief}</a>
        </p>
      }
    >
      <p class="spread-number" data-yield={props.spread.yield.value} data-count={props.spread.count}>
        {percent(props.spread.yield.value)}
      </p>
      <p>{words.passes}</p>
      <p class="aside">
        {words.interval(percent(props.spread.yield.low), percent(props.spread.yield.high), props.spread.count)}
      </p>
      <Show when={props.spread.impossible > 0}>
        <p class="aside">{words.impossible(props.spread.impossible)}</p>
      </Show>
      <h4>{words.each}</h4>
      <ul class="spread-bars">
        <For each={known()}>
          {(one) => (
            <li data-requirement-yield={one.requirement}>
              <span class="what">{requirementWords(one.requirement).label}</span>
              <Bar share={one.yield?.value ?? 0} />
              <span>{percent(one.yield?.value ?? 0)}</span>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
}

/** A share as a bar; the number stands beside it. */
export function Bar(props: { readonly share: number }): JSX.Element {
  return (
    <span class="bar" aria-hidden="true">
      <span style={{ width: `${100 * Math.min(1, Math.max(0, props.share))}%` }} />
    </span>
  );
}
