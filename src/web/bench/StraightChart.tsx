/** How straight the phase follows the pressure. */
import { createMemo, type JSX, Show } from "solid-js";
import type { Prediction } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { type Straight, sayStraight, straightFigure, straightTable } from "../../figure/straightFigure.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { between } from "./between.ts";
import { Chart } from "./Chart.tsx";
import { ChartTable } from "./ChartTable.tsx";

export function StraightChart(props: { readonly prediction: Prediction }): JSX.Element {
  // A quick answer has none: the last one stays until the exact one comes.
  const known = createMemo<Straight | null>((before) => props.prediction.straightness ?? before, null);
  return (
    <Show when={known()}>
      {(straight) => (
        <section class="panel straight" aria-labelledby="straight">
          <h2 id="straight">
            {words.straight} <span class="aside">{words.straightHint}</span>
          </h2>
          <Chart
            name={words.straight}
            draw={(room) =>
              straightFigure(straight(), { ...room, height: between(230, room.width / 2, 320), colors: pageColors })
            }
            live={null}
            say={sayStraight}
          />
          <ChartTable caption={words.straight} columns={straightTable(straight())} />
        </section>
      )}
    </Show>
  );
}
