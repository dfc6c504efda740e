/** What the designs pay for each other: sensitivity against the upper end of the band. */
import { createMemo, type JSX } from "solid-js";
import { type Choices, readBrief } from "../../core/index.ts";
import { tradeOffFigure } from "../../figure/tradeOffFigure.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { FigureOf } from "../shell/Figure.tsx";
import { measureOf } from "../shell/measureOf.ts";
import { useWork } from "../shell/work.ts";

export function TradeOff(props: { readonly found: Choices }): JSX.Element {
  const work = useWork();
  const place = createMemo(() => {
    const brief = readBrief(work.project());
    const prediction = work.rested()?.prediction ?? null;
    return {
      now:
        prediction === null
          ? null
          : {
              sensitivity: measureOf(prediction, "sensitivity"),
              bandTo: measureOf(prediction, "bandTo"),
              noise: measureOf(prediction, "noise"),
            },
      asked: { sensitivity: brief.sensitivity?.atLeast ?? null, bandTo: brief.band?.to ?? null },
    };
  });
  const said = {
    description: words.tradeOffText,
    band: words.tradeBand,
    sensitivity: words.tradeSensitivity,
    required: words.required,
    now: words.now,
  };
  return (
    <>
      <h4>
        {words.tradeOff} <span class="aside">{words.tradeOffAside}</span>
      </h4>
      <FigureOf draw={(room) => tradeOffFigure(props.found, place(), said, room)} />
    </>
  );
}
