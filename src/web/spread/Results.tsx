/** What matters most, where the numbers lie, and the worst corners. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { findPath, formatQuantity, measures, type Spread } from "../../core/index.ts";
import { measureText, measureWords } from "../../words/en/measures.ts";
import { requirementWords } from "../../words/en/requirements.ts";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { Sign } from "../shell/Sign.tsx";
import { reserveShare, roundPercent } from "./share.ts";
import { Bar } from "./YieldPanel.tsx";

/** Shares of the variance of the scarcest requirement, each with its standard error. */
export function InfluencePanel(props: { readonly spread: Spread }): JSX.Element {
  return (
    <Panel title={words.influence} aside={words.influenceAside}>
      <Show when={props.spread.influence.length > 0} fallback={<p class="aside">{words.noInfluence}</p>}>
        <div class="spread-scroll">
          <table class="spread-table">
            <thead>
              <tr>
                <th scope="col">{words.value}</th>
                <th scope="col" />
                <th scope="col">{words.alone}</th>
                <th scope="col">{words.interplay}</th>
              </tr>
            </thead>
            <tbody>
              <For each={props.spread.influence}>
                {(one) => (
                  <tr data-influence={one.path}>
                    <th scope="row">{one.label}</th>
                    <td class="wide">
                      <Bar share={one.total} />
                    </td>
                    <td>
                      {roundPercent(one.first)} <span class="aside">{`±\u202f${roundPercent(one.firstStandard)}`}</span>
                    </td>
                    <td>
                      {roundPercent(one.total)} <span class="aside">± {roundPercent(one.totalStandard)}</span>
                    </td>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </div>
      </Show>
    </Panel>
  );
}

export function NumbersPanel(props: { readonly spread: Spread }): JSX.Element {
  return (
    <Panel title={words.spreadOf}>
      <div class="spread-scroll">
        <table class="spread-table">
          <thead>
            <tr>
              <th scope="col" />
              <th scope="col">{words.middle}</th>
              <th scope="col">{words.range}</th>
            </tr>
          </thead>
          <tbody>
            <For each={measures.filter((measure) => props.spread.measures[measure] !== undefined)}>
              {(measure) => {
                const at = (k: number) => props.spread.measures[measure]?.at[k] ?? null;
                return (
                  <tr data-spread-of={measure} data-middle={at(2)} data-low={at(0)} data-high={at(4)}>
                    <th scope="row">{measureWords[measure].label}</th>
                    <td>{measureText(measure, at(2))}</td>
                    <td class="aside">
                      {measureText(measure, at(0))} to {measureText(measure, at(4))}
                    </td>
                  </tr>
                );
              }}
            </For>
          </tbody>
        </table>
      </div>
    </Panel>
  );
}

/** For each requirement the corner against it, the worst first. */
export function CornersPanel(props: { readonly spread: Spread }): JSX.Element {
  const corners = createMemo(() =>
    props.spread.corners
      .flatMap((corner) => (corner.reserve === null ? [] : [{ ...corner, reserve: corner.reserve }]))
      .sort((a, b) => a.reserve - b.reserve),
  );
  const paths = () => props.spread.varied;
  const shown = (path: string, value: number | undefined) => {
    const place = findPath(path);
    return place.ok && value !== undefined ? formatQuantity(value, place.value.kind, { digits: 3 }) : "";
  };
  return (
    <Panel title={words.corners} aside={words.cornersAside} class="spread-corners">
      <Show when={corners().length > 0} fallback={<p class="aside">{words.noCorners}</p>}>
        <section class="spread-scroll" tabindex="0" aria-label={words.corners}>
          <table class="spread-table stacks">
            <thead>
              <tr>
                <th scope="col">{words.requirement}</th>
                <th scope="col" />
                <For each={paths()}>{({ label }) => <th scope="col">{label}</th>}</For>
              </tr>
            </thead>
            <tbody>
              <For each={corners()}>
                {({ requirement, reserve, values }) => (
                  <tr data-corner={requirement}>
                    <th scope="row" class="what">
                      {requirementWords(requirement).label}
                    </th>
                    <td class="whole" classList={{ missed: reserve < 0 }}>
                      <Sign met={reserve >= 0} />
                      {reserve < 0 ? words.short(reserveShare(reserve)) : words.spare(reserveShare(reserve))}
                    </td>
                    <For each={paths()}>
                      {({ path, label }) => (
                        <td class="aside" data-of={label}>
                          {shown(path, values[path])}
                        </td>
                      )}
                    </For>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </Show>
    </Panel>
  );
}
