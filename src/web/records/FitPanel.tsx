/** The fit: what is fitted, its values beside the second opinion, why it stopped, what to know of it. */
import { For, type JSX, Show } from "solid-js";
import {
  type FitKind,
  type FitOptions,
  fitKinds,
  formatNumber,
  formatQuantity,
  type KindName,
  type Problem,
  type ReadValue,
  type RecordAnswer,
  readQuantity,
} from "../../core/index.ts";
import { fitKindWords, intervalText, readText, valueWords } from "../../words/en/fit.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Panel } from "../shell/PageFrame.tsx";
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
  const entries = () => Object.entries(props.values) as [string, ReadValue][];
  const second = () => ("secondOpinion" in props.reading ? props.reading.secondOpinion : null);
  const secondFor = () => (props.reading.kind === "bias-sweep" ? "slope" : "dampingRatio");
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
                const { name, kind } = valueWords[key] ?? { name: key, kind: "number" as const };
                return (
                  <tr
                    data-value-of={key}
                    data-value={value.value}
                    data-low={value.low ?? ""}
                    data-high={value.high ?? ""}
                  >
                    <th scope="row">
                      {name}
                      {key === "amplitude" && props.unit !== "" ? `, ${props.unit}` : ""}
                    </th>
                    <td>{readText(value, kind)}</td>
                    <td>{intervalText(value, kind)}</td>
                    <td>
                      <Show when={key === secondFor() && second()}>
                        {(opinion) => (
                          <>
                            {opinionText(opinion().value, opinion().standardUncertainty)}{" "}
                            <span class="aside">
                              {opinion().by}; {opinion().says}
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

function Options(props: {
  readonly record: LaidRecord;
  readonly answer: RecordAnswer;
  readonly option: (change: { readonly [K in keyof FitOptions]?: FitOptions[K] | undefined }) => void;
}): JSX.Element {
  const axisKind = (): KindName => {
    const kind = props.record.options.kind ?? props.answer.understood.fitKind;
    return kind === "response" || kind === "noise" || kind === "sweep"
      ? "frequency"
      : kind === "scan"
        ? "length"
        : "time";
  };
  const end = (value: number | undefined) =>
    value === undefined ? "" : formatQuantity(value, axisKind(), { digits: 6 });
  const typed = (text: string, kind: KindName): number | undefined => {
    if (text.trim() === "") return undefined;
    const read = readQuantity(text, kind, []);
    return read.ok ? read.value : undefined;
  };
  const volts = (low: string, high: string) => {
    const [a, b] = [typed(low, "voltage"), typed(high, "voltage")];
    props.option({ calibration: a !== undefined && b !== undefined && a < b ? { low: a, high: b } : undefined });
  };
  let lowest!: HTMLInputElement;
  let highest!: HTMLInputElement;
  return (
    <div class="pairs">
      <label>
        {words.kind}
        <select
          onChange={(event) => {
            const kind = event.currentTarget.value;
            props.option({ kind: kind === "" ? undefined : (kind as FitKind) });
          }}
        >
          <option value="">{words.byColumns}</option>
          <For each={fitKinds}>
            {(kind) => (
              <option value={kind} selected={props.record.options.kind === kind}>
                {fitKindWords[kind]}
              </option>
            )}
          </For>
        </select>
      </label>
      <label>
        {words.from}
        <input
          class="short"
          placeholder={words.whole}
          value={end(props.record.options.from)}
          onChange={(event) => props.option({ from: typed(event.currentTarget.value, axisKind()) })}
        />
      </label>
      <label>
        {words.to}
        <input
          class="short"
          value={end(props.record.options.to)}
          onChange={(event) => props.option({ to: typed(event.currentTarget.value, axisKind()) })}
        />
      </label>
      <label>
        {words.modes}
        <select
          onChange={(event) =>
            props.option({ modes: event.currentTarget.value === "" ? undefined : Number(event.currentTarget.value) })
          }
        >
          <option value="">{words.asDemanded}</option>
          <For each={[1, 2, 3]}>
            {(count) => (
              <option value={count} selected={props.record.options.modes === count}>
                {count}
              </option>
            )}
          </For>
        </select>
      </label>
      <label title={words.curveHint}>
        {words.curveLow}
        <input
          ref={lowest}
          class="short"
          placeholder="0.12 V"
          onChange={(event) => volts(event.currentTarget.value, highest.value)}
        />
      </label>
      <label title={words.curveHint}>
        {words.curveHigh}
        <input
          ref={highest}
          class="short"
          placeholder="1.94 V"
          onChange={(event) => volts(lowest.value, event.currentTarget.value)}
        />
      </label>
      <label title={words.excitationHint}>
        {words.excitation}
        <input
          class="short"
          placeholder="94 dB"
          onChange={(event) =>
            changed(props.record.id, { excitation: typed(event.currentTarget.value, "soundLevel") ?? null })
          }
        />
      </label>
    </div>
  );
}
