/** The room between noise and loudest sound over frequency, with the brief as a box in it. */
import { createMemo, createSignal, type JSX, Show } from "solid-js";
import type { Limits } from "../../core/index.ts";
import { formatQuantity } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { limitColumns, rangeFigure, sayLevel } from "../../figure/limitFigures.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { KeptList } from "../kept/Kept.tsx";
import { keptDesigns } from "../kept/keptDesigns.ts";
import { laidDesigns } from "../kept/laid.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { designParts, partText } from "../shell/partText.ts";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";

/** Kept designs that may lie over it. */
const slots = [0, 1, 2] as const;

export function RangePanel(props: { readonly limits: Limits }): JSX.Element {
  const work = useWork();
  // A picture of its own: floor and ceiling of each design, without the other lines.
  const [beside, setBeside] = createSignal(false);
  const laid = createMemo(() => (beside() ? laidDesigns(work) : []));
  const answers = slots.map((slot) =>
    taskAnswer(
      "limits",
      () => {
        const one = laid()[slot];
        return one === undefined ? null : { text: partText(one.project, designParts) };
      },
      `limits-${slot}`,
    ),
  );
  const kept = createMemo(() =>
    laid().flatMap(({ name }, i) => {
      const limits = answers[i]?.state() === "current" ? answers[i]?.value() : null;
      return limits ? [{ name, limits }] : [];
    }),
  );
  const dynamic = () => {
    const { dynamic } = props.limits.range;
    return dynamic === null ? undefined : words.dynamic(formatQuantity(dynamic, "decibel", { digits: 3 }));
  };
  return (
    <Panel title={words.range} aside={dynamic()} wide>
      <Chart
        name={words.range}
        draw={(room) => rangeFigure(props.limits, { ...room, height: 320, colors: pageColors }, kept())}
        live={null}
        say={sayLevel}
      />
      <Show when={keptDesigns(work.project()).length > 0}>
        <p>
          <button type="button" class="word" aria-pressed={beside()} onClick={() => setBeside(!beside())}>
            {beside() ? words.thisAlone : words.layKept}
          </button>
        </p>
        <Show when={beside()}>
          <KeptList />
        </Show>
      </Show>
      <ChartTable caption={words.range} columns={limitColumns(props.limits)} />
      <Show when={props.limits.range.asked.noise !== null && props.limits.range.asked.loudest !== null}>
        <p class="aside">{words.boxSays}</p>
      </Show>
    </Panel>
  );
}
