/** Transfer curve with the operating point, its values, and what moves it. */
import { For, type JSX, Show } from "solid-js";
import { findPath, type LightAnswer } from "../../core/index.ts";
import { pageColors } from "../../figure/colors.ts";
import { sayTransfer, transferColumns, transferCurve, transferFigure } from "../../figure/lightFigures.ts";
import { driftRows, lightWords as words } from "../../words/en/light.ts";
import { Chart } from "../bench/Chart.tsx";
import { ChartTable } from "../bench/ChartTable.tsx";
import { Field } from "../shell/Field.tsx";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";
import { Rows } from "./Rows.tsx";

const bias = "microphone.readout.bias";
const fields: readonly FieldSpec[] = [
  { path: "microphone.readout.kind", label: "Kind of readout", choices: ["polarimetric", "interferometric"] },
  { path: "microphone.readout.outputs", label: "Outputs", choices: ["one", "both"] },
  { path: bias, empty: { path: bias, value: "null", says: "computed from the guide" } },
  { path: "microphone.readout.visibility" },
  { path: "microphone.readout.polarizer.angle" },
  { path: "microphone.readout.analyzer.angle" },
  { path: "microphone.readout.imbalance", label: "Imbalance, TM over TE" },
  { path: "microphone.light.wavelength" },
];
const degree = Math.PI / 180;

export function ReadoutPanel(): JSX.Element {
  const work = useWork();
  const light = () => work.answer()?.prediction.light ?? null;
  const rested = () => work.rested()?.prediction.light ?? light();
  const outputs = () => (work.project().file.microphone?.readout?.outputs === "one" ? "one" : "both");
  /** The bias as the project has it now [degrees]; the slider spans a turn around 90 degrees. */
  const present = () => {
    const found = findPath(bias);
    const read = found.ok ? found.value.read(work.project()) : found;
    return read.ok ? read.value / degree : (light()?.bias ?? 0) / degree;
  };
  return (
    <Panel title={words.readout} aside={words.readoutAside} wide>
      <Show when={rested()}>
        {(answer) => (
          <div class="pair">
            <div>
              <h4>{words.transfer}</h4>
              <Chart
                name={words.transfer}
                draw={(room) => transferFigure(answer(), outputs(), { ...room, height: 280, colors: pageColors })}
                live={work.held() ? transferCurve(light() ?? answer(), outputs()) : null}
                point={work.held() ? pointOf(light() ?? answer(), outputs(), present()) : null}
                say={sayTransfer}
              />
              <label class="bias-slider">
                <span class="field-label">{words.biasSlider}</span>
                <input
                  type="range"
                  min="-180"
                  max="360"
                  step="1"
                  value={present()}
                  onPointerDown={() => work.grab()}
                  onInput={(event) => {
                    const value = Number(event.currentTarget.value) * degree;
                    if (work.held()) work.drag(bias, value);
                    else work.step(bias, value);
                  }}
                  onPointerUp={() => work.release()}
                  onPointerCancel={() => work.release()}
                />
              </label>
              <ChartTable caption={words.transfer} columns={transferColumns(answer(), outputs())} />
            </div>
            <div>
              <h4>{words.drift}</h4>
              <Rows rows={driftRows(light() ?? answer())} />
            </div>
          </div>
        )}
      </Show>
      <div class="light-fields">
        <For each={fields}>{(spec) => <Field spec={spec} bench={work} />}</For>
      </div>
    </Panel>
  );
}

function pointOf(light: LightAnswer, outputs: "one" | "both", at: number): { x: number; y: number } {
  const { x, y } = transferCurve({ ...light, bias: at * degree }, outputs);
  return { x: x[90] ?? at, y: y[90] ?? 0 };
}
