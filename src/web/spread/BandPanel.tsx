/** Where the responses of the specimens lie, with kept designs as they are drawn. */
import { createMemo, type JSX } from "solid-js";
import { formatQuantity, readBrief, type Spread } from "../../core/index.ts";
import { spreadFigure, spreadTable } from "../../figure/spreadFigure.ts";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { ChartTable } from "../bench/ChartTable.tsx";
import { KeptList } from "../kept/Kept.tsx";
import { laidDesigns } from "../kept/laid.ts";
import { FigureOf } from "../shell/Figure.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

export function BandPanel(props: { readonly spread: Spread }): JSX.Element {
  const work = useWork();
  const brief = createMemo(() => readBrief(work.project()));
  const beside = createMemo(() =>
    laidDesigns(work).map(({ name, prediction: { response, band } }) => ({
      name,
      frequency: response.frequency,
      level: response.re.map((re, i) => {
        const size = Math.hypot(re, response.im[i] ?? 0);
        return band.level === null || size <= 0 ? null : 20 * Math.log10(size) - band.level;
      }),
    })),
  );
  const band = () => brief().band ?? null;
  return (
    <Panel title={words.band} aside={words.bandAside} class="spread-band">
      <FigureOf
        height={(width) => Math.round(Math.min(380, Math.max(260, 0.3 * width)))}
        draw={(room) =>
          spreadFigure(
            props.spread.band,
            {
              description: words.bandText,
              level: words.level(formatQuantity(brief().reference, "frequency", { digits: 2 })),
              half: words.half,
              twoThirds: words.twoThirds,
              most: words.most,
              within: band()?.withinDb ?? null,
              band: [band()?.from ?? null, band()?.to ?? null],
            },
            room,
            beside(),
          )
        }
      />
      <KeptList />
      <ChartTable caption={words.bandText} columns={spreadTable(props.spread.band)} />
    </Panel>
  );
}
