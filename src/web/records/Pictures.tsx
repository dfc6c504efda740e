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
import { type Marked, Marks, markedTime, markedUse } from "./Marks.tsx";
import type { LaidRecord } from "./table.ts";

const height = (width: number) => Math.round(Math.max(200, Math.min(320, width / 2.6)));

type Shown = Parameters<typeof recordFigure>[0];

/** A chart with its table; `over` lies on it. */
function Plot(props: {
  readonly name: string;
  readonly axis: Shown["axis"];
  readonly title: string;
  readonly curves: Shown["curves"];
  /** Index of the curve that the table holds. */
  readonly tabled?: number;
  readonly over?: ((figure: () => Figure) => JSX.Element) | undefined;
}): JSX.Element {
  return (
    <>
      <Chart
        name={props.name}
        draw={(room) =>
          recordFigure(
            { axis: props.axis, title: props.title, description: props.name, curves: props.curves },
            { ...room, height: height(room.width), colors: pageColors },
          )
        }
        live={null}
        say={sayRecord(props.axis)}
        {...(props.over && { over: props.over })}
      />
      <ChartTable
        caption={props.name}
        columns={recordTable(props.axis, props.title, props.curves[props.tabled ?? 0] ?? { x: [], y: [] })}
      />
    </>
  );
}

/** The file as it is; where its axis is that of a part that can be told, with the two marks on it. */
export function Picture(props: {
  readonly record: LaidRecord;
  /** What its columns make of it. */
  readonly kind: FitKind | null;
  readonly picture: NonNullable<RecordAnswer["picture"]>;
}): JSX.Element {
  const marked = (): Marked | null => {
    const kind = props.record.options.kind ?? props.kind;
    const { axis } = props.picture;
    if (axis === "frequency") return kind === "response" ? markedUse : null;
    if (axis !== "time") return null;
    if (kind === "ring-down" || kind === "sensitivity") return markedUse;
    return kind === "noise" || kind === "sweep" || kind === "tones" ? markedTime : null;
  };
  const marks = (keys: Marked) => (figure: () => Figure) => (
    <Marks
      record={props.record}
      marked={keys}
      axis={props.picture.axis === "frequency" ? "frequency" : "time"}
      x={props.picture.x}
      found={null}
      figure={figure()}
    />
  );
  return (
    <Panel title={words.record} aside={words.recordHint} class="picture">
      <Show when={marked()} keyed fallback={<Whole picture={props.picture} over={undefined} />}>
        {(keys) => (
          <>
            <Whole picture={props.picture} over={marks(keys)} />
            <p class="aside">{keys === markedTime ? words.markTimeHint : words.markHint}</p>
          </>
        )}
      </Show>
    </Panel>
  );
}

const Whole = (props: {
  readonly picture: NonNullable<RecordAnswer["picture"]>;
  readonly over: ((figure: () => Figure) => JSX.Element) | undefined;
}): JSX.Element => (
  <Plot
    name={words.recordChart}
    axis={props.picture.axis}
    title={words.output(props.picture.unit)}
    curves={[{ name: "", x: props.picture.x, y: props.picture.y }]}
    over={props.over}
  />
);

/** The whole response that noise, a sweep or stepped tones gave, with the part that was fitted between the marks. */
export function ResponsePicture(props: {
  readonly record: LaidRecord;
  readonly response: NonNullable<RecordAnswer["response"]>;
}): JSX.Element {
  return (
    <Panel title={words.response} aside={words.responseHint} class="response-picture">
      <Plot
        name={words.responseChart}
        axis="frequency"
        title={words.magnitude}
        curves={[{ name: "", x: props.response.x, y: props.response.y }]}
        over={(figure) => (
          <Marks
            record={props.record}
            marked={markedUse}
            axis="frequency"
            x={props.response.x}
            found={props.response.used}
            figure={figure()}
          />
        )}
      />
      <p class="aside">{words.markHint}</p>
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
        <Plot
          name={words.fitChart}
          axis={props.fit.axis}
          title={title()}
          curves={[
            { name: names().model, ...props.fit.model },
            { name: names().measured, ...props.fit.measured },
          ]}
          tabled={1}
        />
      </div>
      <div>
        <Plot
          name={words.residualChart}
          axis={props.fit.axis}
          title={words.residuals}
          curves={[{ name: "", ...props.fit.residuals }]}
        />
      </div>
    </div>
  );
}
