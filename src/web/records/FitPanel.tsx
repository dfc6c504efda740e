/** The fit: what is fitted, its values beside the second opinion, why it stopped, what to know of it. */
import { For, type JSX, Show } from "solid-js";
import {
  type FitOptions,
  formatNumber,
  formatQuantity,
  type Problem,
  type ReadValue,
  type RecordAnswer,
} from "../../core/index.ts";
import { intervalText, readText, valueWordsOf } from "../../words/en/fit.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { Options } from "./Options.tsx";
import { FitPictures } from "./Pictures.tsx";
import { changed, keep, type LaidRecord, stateOf } from "./table.ts";

export function FitPanel(props: { readonly record: LaidRecord; readonly answer: RecordAnswer }): JSX.Element {
  const option = (change: { readonly [K in keyof FitOptions]?: FitOptions[K] | undefined }) => {
    const next = Object.entries({ ...props.record.options, ...change }).filter(([, value]) => value !== undefined);
    changed(props.record.id, { options: Object.fromEntries(next) as FitOptions });
  };
  const remarks = (): readonly Problem[] => {
    const state = stateOf(props.record.id);
    return state?.is === "done" ? [...props.answer.problems, ...state.remarks, ...props.answer.remarks] : [];
  };
  return (
    <Panel title={words.fit} aside={words.fitHint} class="fit">
      <Options record={props.record} answer={props.answer} option={option} />
      <Show when={props.answer.fit} fallback={<p class="aside">{words.noFit}</p>}>
        {(found) => (
          <>
            <Values values={found().reading.values} reading={found().reading} unit={found().unit} />
            <FitPictures fit={found()} />
            <p>
              <button type="button" onClick={() => keep(props.record, props.answer)}>
                {words.keep}
              </button>
            </p>
          </>
        )}
      </Show>
      <Show when={remarks().length > 0}>
        <section class="remarks" aria-label={words.noticed}>
          <h4>{words.noticed}</h4>
          <ul>
            <For each={remarks()}>{({ code, message }) => <li data-remark={code}>{message}</li>}</For>
          </ul>
        </section>
      </Show>
    </Panel>
  );
}

type Reading = NonNullable<RecordAnswer["fit"]>["reading"];

function Values(props: { readonly values: object; readonly reading: Reading; readonly unit: string }): JSX.Element {
  const entries = () => [
    ...(Object.entries(props.values) as [string, ReadValue][]),
    ...("readout" in props.reading && props.reading.readout !== undefined
      ? Object.entries(props.reading.readout.values)
      : []),
  ];
  const second = () => ("secondOpinion" in props.reading ? props.reading.secondOpinion : null);
  const secondFor = () => {
    const { kind } = props.reading;
    return kind === "bias-sweep" ? "slope" : kind === "sensitivity" ? "sensitivity" : "dampingRatio";
  };
  return (
    <>
      <section class="scroll" tabindex="0" aria-label={words.fit}>
        <table class="read-values">
          <thead>
            <tr>
              <th scope="col">{words.value}</th>
              <th scope="col">{words.first}</th>
              <th scope="col">{words.interval}</th>
              <th scope="col">{words.second}</th>
            </tr>
          </thead>
          <tbody>
            <For each={entries()}>
              {([key, value]) => {
                const { name, kind } = valueWordsOf(key, props.reading);
                return (
                  <tr
                    data-value-of={key}
                    data-value={value.value}
                    data-low={value.low ?? ""}
                    data-high={value.high ?? ""}
                  >
                    <th scope="row">
                      {name}
                      {kind === "number" && (key === "amplitude" || key === "sensitivity") && props.unit !== ""
                        ? `, ${props.unit}${key === "sensitivity" ? "/Pa" : ""}`
                        : ""}
                    </th>
                    <td>{readText(value, kind)}</td>
                    <td>{intervalText(value, kind)}</td>
                    <td>
                      <Show when={key === secondFor() && second()}>
                        {(opinion) => (
                          <>
                            {opinionText(opinion().value, opinion().standardUncertainty)}{" "}
                            <span class="aside">
                              {opinion().by}. {opinion().says}
                            </span>
                          </>
                        )}
                      </Show>
                    </td>
                  </tr>
                );
              }}
            </For>
          </tbody>
        </table>
      </section>
      <p class="aside">
        {words.stoppedLabel}: {words.stopped(props.reading.stopped, props.reading.steps)}. {words.residuals}:{" "}
        {words.rms(formatNumber(props.reading.residuals.rms))}
        {props.reading.residuals.whiteness === null
          ? ""
          : `, ${props.reading.residuals.whiteness.probability < 1e-3 ? words.notWhite : words.white}`}
        .{" "}
        <Show when={"included" in props.reading && props.reading.included.length > 0 && props.reading.included}>
          {(included) => `${words.takenIn}: ${included().join(", ")}.`}
        </Show>
      </p>
    </>
  );
}

const opinionText = (value: number | null, standard: number | null): string =>
  value === null
    ? ""
    : formatQuantity(value, "number", standard !== null && standard > 0 ? { standard } : { digits: 4 });
