/** Deflection along the cut, across the guide, at the phase that is shown. */
import { type JSX, Show, untrack } from "solid-js";
import type { Field } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { cutFigure, cutPoints, sayCut } from "../../figure/cutFigure.ts";
import { motionWords as words } from "../../words/en/motion.ts";
import { Chart } from "../bench/Chart.tsx";

export function CutChart(props: { readonly field: Field; readonly phase: number; readonly cut: number }): JSX.Element {
  const row = () => Math.round(((props.cut + 1) / 2) * (props.field.points - 1));
  const radians = () => (props.phase * Math.PI) / 180;
  return (
    <Show when={props.field}>
      <Chart
        name={words.cutChart}
        draw={(room) =>
          cutFigure(props.field, { row: row(), phase: untrack(radians) }, { ...room, height: 200, colors: pageColors })
        }
        live={cutPoints(props.field, row(), radians())}
        say={(x, y) => sayCut(x, y, props.field.parity !== null)}
      />
    </Show>
  );
}
