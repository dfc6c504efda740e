/** Where the uncertainty of the damping ratio comes from, line by line, with a second opinion by drawing. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import {
  type BudgetInput,
  combineUncertainty,
  describeSample,
  formatNumber,
  formatQuantity,
  type ShownFit,
} from "../../core/index.ts";
import { budgetLineWords } from "../../words/en/fit.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { kept, type LaidRecord } from "./table.ts";

export function Budget(props: { readonly record: LaidRecord; readonly fit: ShownFit }): JSX.Element {
  const [other, setOther] = createSignal(0);
  const ofSensitivity = () => props.fit.reading.kind === "sensitivity";
  const budget = createMemo(() => {
    const { reading } = props.fit;
    if (reading.kind === "sensitivity") return reading.budget;
    if (reading.kind !== "ring-down" && reading.kind !== "response") return null;
    const { value, standardUncertainty } = reading.values.dampingRatio;
    if (standardUncertainty === null) return null;
    const inputs: BudgetInput[] = [
      {
        name: words.lineFit,
        value,
        standard: standardUncertainty,
        degreesOfFreedom: Math.max(1, reading.degreesOfFreedom),
      },
      ...repeats(),
      ...(other() > 0 ? [{ name: words.lineOther, value: 0, standard: (other() / 100) * value }] : []),
    ];
    const combined = combineUncertainty({
      model: (values) => values.reduce((sum, one) => sum + one, 0),
      inputs,
      monteCarlo: { count: 20_000, seed: 1 },
    });
    return combined.ok ? combined.value : null;
  });
  return (
    <Show when={budget()}>
      {(shown) => (
        <Panel
          title={ofSensitivity() ? words.budgetOfSensitivity : words.budget}
          aside={words.budgetHint}
          class="budget"
        >
          <section class="scroll" tabindex="0" aria-label={words.budget}>
            <table>
              <thead>
                <tr>
                  <th scope="col">{words.line}</th>
                  <th scope="col">{words.standard}</th>
                  <th scope="col">{words.degrees}</th>
                  <th scope="col">{words.share}</th>
                </tr>
              </thead>
              <tbody>
                <For each={shown().lines}>
                  {({ name, standard, degreesOfFreedom, share }) => (
                    <tr>
                      <th scope="row">{budgetLineWords[name as keyof typeof budgetLineWords] ?? name}</th>
                      <td>{standard > 0 ? formatNumber(standard, { digits: 2 }) : words.notGiven}</td>
                      <td>{Number.isFinite(degreesOfFreedom) ? Math.floor(degreesOfFreedom) : "∞"}</td>
                      <td>{(100 * share).toFixed(0)} %</td>
                    </tr>
                  )}
                </For>
                <tr>
                  <th scope="row">{words.combined}</th>
                  <td>{formatQuantity(shown().value, "number", { standard: shown().standardUncertainty })}</td>
                  <td>{Number.isFinite(shown().degreesOfFreedom) ? Math.floor(shown().degreesOfFreedom) : "∞"}</td>
                  <td />
                </tr>
                <Show when={shown().monteCarlo}>
                  {(drawn) => (
                    <tr>
                      <th scope="row">{words.drawn}</th>
                      <td>{formatQuantity(drawn().mean, "number", { standard: drawn().standardUncertainty })}</td>
                      <td />
                      <td />
                    </tr>
                  )}
                </Show>
              </tbody>
            </table>
          </section>
          <Show when={!ofSensitivity()}>
            <label class="other-line">
              {words.lineOther}
              <input
                class="short"
                inputmode="decimal"
                value="0"
                onChange={(event) => setOther(Math.max(0, Number(event.currentTarget.value.replace(",", ".")) || 0))}
              />
            </label>
          </Show>
        </Panel>
      )}
    </Show>
  );
}

/** Scatter of the fits that were kept, as the uncertainty of one of them. */
function repeats(): readonly BudgetInput[] {
  const values = kept().flatMap(({ answer }) => {
    const reading = answer.fit?.reading;
    return reading?.kind === "ring-down" || reading?.kind === "response" ? [reading.values.dampingRatio.value] : [];
  });
  const described = describeSample(values);
  if (!described.ok || described.value.standardDeviation === null || !(described.value.standardDeviation > 0))
    return [];
  return [
    {
      name: words.lineRepeat,
      value: 0,
      standard: described.value.standardDeviation,
      degreesOfFreedom: values.length - 1,
    },
  ];
}
