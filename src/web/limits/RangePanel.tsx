/** The room between noise and loudest sound over frequency, with the brief as a box in it. */
import { type JSX, Show } from "solid-js";
import type { Limits } from "../../core/index.ts";
import { formatQuantity } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { limitColumns, rangeFigure, sayLevel } from "../../figure/limitFigures.ts";
import { recoveryText, limitsWords as words } from "../../words/en/limits.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Panel } from "../shell/PageFrame.tsx";

export function RangePanel(props: { readonly limits: Limits }): JSX.Element {
  const dynamic = () => {
    const { dynamic } = props.limits.range;
    return dynamic === null ? undefined : words.dynamic(formatQuantity(dynamic, "decibel", { digits: 3 }));
  };
  return (
    <Panel title={words.range} aside={dynamic()} wide>
      <Chart
        name={words.range}
        draw={(room) => rangeFigure(props.limits, { ...room, height: 320, colors: pageColors })}
        live={null}
        say={sayLevel}
      />
      <ChartTable caption={words.range} columns={limitColumns(props.limits)} />
      <Show when={props.limits.range.asked.noise !== null && props.limits.range.asked.loudest !== null}>
        <p class="aside">{words.boxSays}</p>
      </Show>
      <Show when={props.limits.recovery}>{(recovery) => <p class="aside">{recoveryText(recovery())}</p>}</Show>
    </Panel>
  );
}
