/** What a fit is told: the kind, the part, and what that kind of record needs. */
import { For, type JSX, Show } from "solid-js";
import {
  type BesideName,
  type FitKind,
  type FitOptions,
  fitKinds,
  formatQuantity,
  type KindName,
  type RecordAnswer,
  readBudgetLine,
  readQuantity,
  readSensitivityText,
  readStart,
} from "../../core/index.ts";
import { budgetLineWords, fitKindWords } from "../../words/en/fit.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { Beside } from "./Beside.tsx";
import { type Change, coupler, couplerText, percent, setting, taken } from "./optionText.ts";
import { ReadoutCurve } from "./ReadoutCurve.tsx";
import { Typed } from "./Typed.tsx";
import { changed, type LaidRecord } from "./table.ts";

/** Records that each kind takes beside its own. */
const takes: { readonly [K in FitKind]?: readonly BesideName[] } = {
  sensitivity: ["reference", "calibrator"],
  null: ["minus", "dark", "oneMode", "plugged", "fieldOff", "fieldOn"],
};

export function Options(props: {
  readonly record: LaidRecord;
  readonly answer: RecordAnswer;
  readonly option: (change: Change) => void;
}): JSX.Element {
  const kind = () => props.record.options.kind ?? props.answer.understood.fitKind;
  const is = (...kinds: readonly FitKind[]) => {
    const now = kind();
    return now !== null && kinds.includes(now);
  };
  const options = () => props.record.options;
  const axisKind = (): KindName => {
    if (is("response", "noise", "sweep", "tones", "null")) return "frequency";
    if (is("polynomial", "linear", "formula", "statistics")) return "number";
    return is("scan") ? "length" : "time";
  };
  const shown = (value: number | undefined, as: KindName) =>
    value === undefined ? "" : formatQuantity(value, as, { digits: 6 });
  const number = (label: string, key: "degree" | "repeats", least: number) => (
    <Typed
      label={label}
      value={String(options()[key] ?? "")}
      read={(text) => (/^\d{1,4}$/.test(text) && Number(text) >= least ? Number(text) : undefined)}
      set={(value) => props.option({ [key]: value })}
    />
  );
  const quantity = (
    label: string,
    key: "from" | "to" | "since" | "until" | "near" | "gate" | "pressure",
    as: KindName,
    placeholder: string,
  ) => (
    <Typed
      label={label}
      placeholder={placeholder}
      value={shown(options()[key], as)}
      read={(text) => taken(readQuantity(text, as, []))}
      set={(value) => props.option({ [key]: value })}
    />
  );
  return (
    <>
      <div class="pairs">
        <label>
          {words.kind}
          <select
            data-option="kind"
            onChange={(event) => {
              const chosen = event.currentTarget.value;
              // What was told of the axis belongs to the kind that was.
              const part = { from: undefined, to: undefined, since: undefined, until: undefined };
              props.option({ ...part, kind: chosen === "" ? undefined : (chosen as FitKind) });
            }}
          >
            <option value="">{words.byColumns}</option>
            <For each={fitKinds}>
              {(one) => (
                <option value={one} selected={options().kind === one}>
                  {fitKindWords[one]}
                </option>
              )}
            </For>
          </select>
        </label>
        <Show when={is("noise", "sweep", "tones")}>
          {quantity(words.since, "since", "time", words.wholeRecord)}
          {quantity(words.until, "until", "time", "")}
        </Show>
        <Show when={!is("scan", "curve", "power-law", "bias-sweep", "statistics")}>
          {quantity(is("null") ? words.bandFrom : words.from, "from", axisKind(), words.whole)}
          {quantity(words.to, "to", axisKind(), "")}
        </Show>
        <Show when={is("ring-down", "response", "noise", "sweep", "tones")}>
          <label>
            {words.modes}
            <select
              onChange={({ currentTarget: { value } }) =>
                props.option({ modes: value === "" ? undefined : Number(value) })
              }
            >
              <option value="">{words.asDemanded}</option>
              <For each={[1, 2, 3]}>
                {(count) => (
                  <option value={count} selected={options().modes === count}>
                    {count}
                  </option>
                )}
              </For>
            </select>
          </label>
        </Show>
        <Show when={is("ring-down")}>
          <ReadoutCurve options={options()} option={props.option} />
          <Typed
            label={words.excitation}
            hint={words.excitationHint}
            placeholder="94 dB"
            value={props.record.excitation === null ? "" : formatQuantity(props.record.excitation, "soundLevel")}
            read={(text) => taken(readQuantity(text, "soundLevel", []))}
            set={(value) => changed(props.record.id, { excitation: value ?? null })}
          />
        </Show>
        <Show when={is("noise", "sweep")}>{quantity(words.gate, "gate", "time", "4 ms")}</Show>
        <Show when={is("bias-sweep")}>
          <Typed
            label={words.at}
            placeholder="90 deg"
            value={String(options().at ?? "")}
            read={setting}
            set={(at) => props.option({ at })}
          />
          <Typed
            label={words.turn}
            placeholder={words.asDemanded}
            value={String(options().turn ?? "")}
            read={(text) => taken(readQuantity(text, "number", []))}
            set={(turn) => props.option({ turn })}
          />
        </Show>
        <Show when={is("sensitivity", "noise", "sweep", "tones")}>
          <Typed
            label={words.reference}
            placeholder="12.5 mV/Pa"
            value={options().referenceSensitivity === undefined ? "" : `${options().referenceSensitivity} V/Pa`}
            read={(text) => taken(readSensitivityText(text, ""))}
            set={(referenceSensitivity) => props.option({ referenceSensitivity })}
          />
        </Show>
        <Show when={is("sensitivity")}>
          {quantity(words.level, "pressure", "soundLevel", "94 dB")}
          <Typed
            label={words.coupler}
            placeholder="2 cm^3 + 0.1 cm^3"
            value={couplerText(options().coupler)}
            read={coupler}
            set={(value) => props.option({ coupler: value })}
          />
          <Typed
            label={words.ambient}
            placeholder="101.325 kPa"
            value={
              options().ambient === undefined
                ? ""
                : formatQuantity(options().ambient! * 101_325, "pressure", { digits: 6 })
            }
            read={(text) => {
              const pressure = taken(readQuantity(text, "pressure", []));
              return pressure === undefined ? undefined : pressure / 101_325;
            }}
            set={(ambient) => props.option({ ambient })}
          />
          {number(words.repeats, "repeats", 2)}
        </Show>
        <Show when={is("null")}>
          <Typed
            label={words.lightShare}
            placeholder="100 %"
            value={options().lightShare === undefined ? "" : formatQuantity(options().lightShare!, "fraction")}
            read={(text) => taken(readQuantity(text, "fraction", []))}
            set={(lightShare) => props.option({ lightShare })}
          />
        </Show>
        <Show when={is("polynomial")}>{number(words.degree, "degree", 0)}</Show>
        <Show when={is("formula")}>
          <Typed
            label={words.formula}
            placeholder="y = b1*(1 - exp(-b2*x))"
            value={options().formula ?? ""}
            read={(text) => text}
            set={(formula) => props.option({ formula })}
          />
          <Typed
            label={words.start}
            placeholder="b1=500, b2=1e-4"
            value={Object.entries(options().start ?? {})
              .map(([name, value]) => `${name}=${value}`)
              .join(", ")}
            read={(text) => taken(readStart(text, ""))}
            set={(start) => props.option({ start })}
          />
        </Show>
        <For each={takes[kind() ?? "response"] ?? []}>{(name) => <Beside record={props.record} name={name} />}</For>
      </div>
      <Show when={is("sensitivity")}>
        <details class="lines">
          <summary>{words.lines}</summary>
          <div class="pairs">
            <For each={Object.entries(budgetLineWords).filter(([name]) => name !== "scatter")}>
              {([name, label]) => (
                <Typed
                  label={label}
                  placeholder="0.5 %"
                  value={percent(options().lines?.[name as keyof NonNullable<FitOptions["lines"]>])}
                  read={(text) => taken(readBudgetLine(`${name}=${text}`, ""))}
                  set={(line) => props.option({ lines: { ...options().lines, ...line } })}
                />
              )}
            </For>
          </div>
        </details>
      </Show>
    </>
  );
}
