/** Transfer curve with the operating point, its values, what moves it, and what the readout is made of. */
import { For, type JSX, Show } from "solid-js";
import { changeValue, findPath, type Project } from "../../core/index.ts";
import { driftRows, lightWords as words } from "../../words/en/light.ts";
import { Field } from "../shell/Field.tsx";
import type { FieldSpec } from "../shell/fieldSpec.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";
import { Rows } from "./Rows.tsx";
import { TransferChart } from "./TransferChart.tsx";

const readout = "microphone.readout";
const bias = `${readout}.bias`;
const always: readonly FieldSpec[] = [
  { path: `${readout}.kind`, label: "Kind of readout", choices: ["polarimetric", "interferometric"] },
  { path: `${readout}.outputs`, label: "Outputs", choices: ["one", "both"] },
  { path: bias, empty: { path: bias, value: "null", says: "computed from the guide" } },
  { path: `${readout}.visibility` },
  { path: `${readout}.normalized`, label: "Divided by the power", choices: ["true", "false"] },
  { path: `${readout}.rejection`, empty: { path: `${readout}.rejection`, value: null, says: "ideal" } },
  { path: `${readout}.imbalance`, label: "Imbalance of the two" },
  { path: "microphone.light.wavelength" },
  { path: "microphone.light.linewidth", empty: { path: "microphone.light.linewidth", value: null, says: "not given" } },
];
const polarimeter: readonly FieldSpec[] = (["polarizer", "analyzer"] as const).flatMap((one) => [
  { path: `${readout}.${one}.angle` },
  {
    path: `${readout}.${one}.extinction`,
    empty: { path: `${readout}.${one}.extinction`, value: null, says: "ideal" },
  },
]);
const interferometer: readonly FieldSpec[] = [
  { path: `${readout}.arm`, label: "Mode that is read", choices: ["TE", "TM"] },
  {
    path: `${readout}.pathDifference`,
    label: "Path longer by",
    empty: { path: `${readout}.pathDifference`, value: null, says: "balanced" },
  },
];
const wavePlate: readonly FieldSpec[] = [
  { path: `${readout}.wavePlate.retardation` },
  { path: `${readout}.wavePlate.angle`, label: "Its slow axis" },
];
const servo: readonly FieldSpec[] = [
  { path: `${readout}.servo.range`, label: "Range of the servo, ±" },
  { path: `${readout}.servo.corner`, label: "Corner of the servo" },
];
/** What a part begins with. */
const starts = {
  wavePlate: '{ "retardation": "90 deg", "angle": "90 deg" }',
  servo: '{ "range": "180 deg", "corner": "5 Hz" }',
} as const;
const degree = Math.PI / 180;

export function ReadoutPanel(): JSX.Element {
  const work = useWork();
  const said = () => work.project().file.microphone?.readout;
  const light = () => work.answer()?.prediction.light ?? null;
  const rested = () => work.rested()?.prediction.light ?? light();
  const outputs = () => (said()?.outputs === "one" ? "one" : "both");
  /** The bias as the project has it now [degrees]. */
  const present = () => {
    const found = findPath(bias);
    const read = found.ok ? found.value.read(work.project()) : found;
    return read.ok ? read.value / degree : (light()?.bias ?? 0) / degree;
  };
  const isThere = (part: keyof typeof starts) => (said()?.[part] ?? null) !== null;
  function turn(part: keyof typeof starts): void {
    const [add, remove] = words.parts[part];
    take(
      changeValue(work.project(), `${readout}.${part}`, isThere(part) ? "null" : starts[part]),
      isThere(part) ? remove : add,
    );
  }
  const take = (changed: ReturnType<typeof changeValue>, says: string | undefined) => {
    if (changed.ok) work.replace(changed.value satisfies Project, says ?? "");
  };
  const fields = () => [
    ...always,
    ...(said()?.kind === "interferometric" ? interferometer : polarimeter),
    ...(isThere("wavePlate") && said()?.kind !== "interferometric" ? wavePlate : []),
    ...(isThere("servo") ? servo : []),
  ];
  return (
    <Panel title={words.readout} aside={words.readoutAside} wide>
      <Show when={rested()}>
        {(answer) => (
          <div class="pair">
            <div>
              <h4>{words.transfer}</h4>
              <TransferChart
                rested={answer()}
                now={light() ?? answer()}
                outputs={outputs()}
                bias={present()}
                onGrab={() => work.grab()}
                onDrag={(degrees) => work.drag(bias, degrees * degree)}
                onRelease={() => work.release()}
                onStep={(degrees) => work.step(bias, degrees * degree)}
              />
            </div>
            <div>
              <h4>{words.drift}</h4>
              <Rows rows={driftRows(light() ?? answer())} />
            </div>
          </div>
        )}
      </Show>
      <div class="light-fields">
        <For each={fields()}>{(spec) => <Field spec={spec} bench={work} />}</For>
      </div>
      <p class="light-buttons">
        <Show when={said()?.kind !== "interferometric"}>
          <button type="button" onClick={() => turn("wavePlate")}>
            {words.parts.wavePlate[isThere("wavePlate") ? 1 : 0]}
          </button>
        </Show>
        <button type="button" onClick={() => turn("servo")}>
          {words.parts.servo[isThere("servo") ? 1 : 0]}
        </button>
      </p>
    </Panel>
  );
}
