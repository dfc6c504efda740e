/** The record, the fit over it, and what is left. */
import { type JSX, Show } from "solid-js";
import type { FitKind, RecordAnswer, ShownFit } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import type { Figure } from "../../figure/curveFigure.ts";
import { recordFigure, recordTable, sayRecord } from "../../figure/recordFigures.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { Marks } from "./Marks.tsx";
import type { LaidRecord } from "./table.ts";

const height = (width: number) => Math.round(Math.max(200, Math.min(320, width / 2.6)));

export function Picture(props: {
  readonly record: LaidRecord;
  /** What its columns make of it. */
  readonly kind: FitKind | null;
  readonly picture: NonNullable<RecordAnswer["picture"]>;
}): JSX.Element {
  const title = () => words.output(props.picture.unit);
  /** Where the part that is used lies on the picture's own axis. */
  const marked = () => {
    const kind = props.record.options.kind ?? props.kind;
    return props.picture.axis === "time"
      ? kind === "ring-down" || kind === "sensitivity"
      : props.picture.axis === "frequency" && kind === "response";
  };
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
        {...(marked() && {
          over: (figure: () => Figure) => <Marks record={props.record} picture={props.picture} figure={figure()} />,
        })}
      />
      <Show when={marked()}>
        <p class="aside">{words.markHint}</p>
      </Show>
      <ChartTable caption={words.record} columns={recordTable(props.picture.axis, title(), props.picture)} />
    </Panel>
  );
}

export function FitPictures(props: { readonly fit: ShownFit }): JSX.Element {
  const isNull = () => props.fit.reading.kind === "null";
  const title = () => (isNull() ? words.density : words.output(props.fit.unit));
  const names = () => (isNull() ? words.nullCurves : { model: words.model, measured: words.measured });
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
                  { name: names().model, ...props.fit.model },
                  { name: names().measured, ...props.fit.measured },
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
