/** Fits that were kept, laid over each other, with their values in a row. */
import { For, type JSX, Show } from "solid-js";
import { pageColors } from "../../figure/colors.ts";
import { recordFigure, sayRecord } from "../../figure/recordFigures.ts";
import { readText } from "../../words/en/fit.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Chart } from "../bench/Chart.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { type KeptFit, kept } from "./table.ts";

export function Overlay(): JSX.Element {
  const axis = () => kept()[0]?.answer.fit?.axis ?? "time";
  /** Of one axis, each over its own largest value; times from the start of each fit. */
  const curves = () =>
    kept().flatMap(({ name, answer }) => {
      const fit = answer.fit;
      if (fit === null || fit.axis !== axis()) return [];
      const largest = fit.model.y.reduce((top, value) => Math.max(top, Math.abs(value)), 0) || 1;
      const first = fit.axis === "time" ? (fit.model.x[0] ?? 0) : 0;
      return [
        {
          name: name.replace(/\.[^.]*$/, ""),
          x: fit.model.x.map((x) => x - first),
          y: fit.model.y.map((y) => y / largest),
        },
      ];
    });
  return (
    <Panel title={words.kept} aside={words.keptHint} class="overlay">
      <Show when={kept().length > 0} fallback={<p class="aside">{words.keptNone}</p>}>
        <section class="scroll" tabindex="0" aria-label={words.kept}>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.name}</th>
                <th scope="col">{words.dampingRatio}</th>
                <th scope="col">{words.resonance}</th>
              </tr>
            </thead>
            <tbody>
              <For each={kept()}>{(one) => <KeptRow kept={one} />}</For>
            </tbody>
          </table>
        </section>
        <Chart
          name={words.kept}
          draw={(room) =>
            recordFigure(
              { axis: axis(), title: words.keptAxis, description: words.kept, curves: curves().slice(0, 6) },
              { ...room, height: 260, colors: pageColors },
            )
          }
          live={null}
          say={sayRecord(axis())}
        />
      </Show>
    </Panel>
  );
}

function KeptRow(props: { readonly kept: KeptFit }): JSX.Element {
  const reading = () => props.kept.answer.fit?.reading;
  const text = (key: "dampingRatio" | "frequency") => {
    const now = reading();
    if (now?.kind !== "ring-down" && now?.kind !== "response") return "";
    return readText(now.values[key], key === "frequency" ? "frequency" : "number");
  };
  return (
    <tr>
      <th scope="row">{props.kept.name}</th>
      <td>{text("dampingRatio")}</td>
      <td>{text("frequency")}</td>
    </tr>
  );
}
