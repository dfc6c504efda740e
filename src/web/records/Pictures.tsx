/** The record, the fit over it, and what is left. */
import type { JSX } from "solid-js";
import type { RecordAnswer, ShownFit } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { recordFigure, recordTable, sayRecord } from "../../figure/recordFigures.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Panel } from "../shell/PageFrame.tsx";

const height = (width: number) => Math.round(Math.max(200, Math.min(320, width / 2.6)));

export function Picture(props: { readonly picture: NonNullable<RecordAnswer["picture"]> }): JSX.Element {
  const title = () => words.output(props.picture.unit);
  return (
    <Panel title={words.record} aside={words.recordHint} class="picture">
      <Chart
        name={words.recordChart}
        draw={(room) =>
          recordFigure(
            {
              axis: props.picture.axis,
              title: title(),
              description: words.recordChart,
              curves: [{ name: "", ...props.picture }],
            },
            { ...room, height: height(room.width), colors: pageColors },
          )
        }
        live={null}
        say={sayRecord(props.picture.axis)}
      />
      <ChartTable caption={words.record} columns={recordTable(props.picture.axis, title(), props.picture)} />
    </Panel>
  );
}

export function FitPictures(props: { readonly fit: ShownFit }): JSX.Element {
  const title = () => words.output(props.fit.unit);
  return (
    <div class="pair">
      <div>
        <Chart
          name={words.fitChart}
          draw={(room) =>
            recordFigure(
              {
                axis: props.fit.axis,
                title: title(),
                description: words.fitChart,
                curves: [
                  { name: words.model, ...props.fit.model },
                  { name: words.measured, ...props.fit.measured },
                ],
              },
              { ...room, height: height(room.width), colors: pageColors },
            )
          }
          live={null}
          say={sayRecord(props.fit.axis)}
        />
        <ChartTable caption={words.fitChart} columns={recordTable(props.fit.axis, title(), props.fit.measured)} />
      </div>
      <div>
        <Chart
          name={words.residualChart}
          draw={(room) =>
            recordFigure(
              {
                axis: props.fit.axis,
                title: words.residuals,
                description: words.residualChart,
                curves: [{ name: "", ...props.fit.residuals }],
              },
              { ...room, height: height(room.width), colors: pageColors },
            )
          }
          live={null}
          say={sayRecord(props.fit.axis)}
        />
        <ChartTable
          caption={words.residualChart}
          columns={recordTable(props.fit.axis, words.residuals, props.fit.residuals)}
        />
      </div>
    </div>
  );
}
