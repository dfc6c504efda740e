import { type JSX, Show } from "solid-js";
import { type FitOptions, readQuantity } from "../../core/index.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import type { Change } from "./optionText.ts";
import { formatEnd, taken } from "./optionText.ts";
import { Typed } from "./Typed.tsx";

/** Volts are taken as volts, by the ends of the curve, or the curve is fitted with the decay. */
export function ReadoutCurve(props: {
  readonly options: FitOptions;
  readonly option: (change: Change) => void;
}): JSX.Element {
  const ends = () => (typeof props.options.calibration === "object" ? props.options.calibration : null);
  const set = (change: { readonly low?: number | undefined; readonly high?: number | undefined }) => {
    typed = { ...typed, ...change };
    const { low, high } = typed;
    const whole = low !== undefined && high !== undefined && low < high;
    props.option({ calibration: whole ? { low, high } : undefined });
  };
  let typed: { readonly low?: number | undefined; readonly high?: number | undefined } = ends() ?? {};
  const end = (label: string, key: "low" | "high", placeholder: string) => (
    <Typed
      label={label}
      hint={words.curveHint}
      placeholder={placeholder}
      value={formatEnd(typed[key])}
      read={(text) => taken(readQuantity(text, "voltage", []))}
      set={(value) => set({ [key]: value })}
    />
  );
  return (
    <>
      <label title={words.curveHint}>
        {words.curve}
        <select
          data-option="curve"
          onChange={({ currentTarget: { value } }) =>
            props.option({ calibration: value === "free" ? "free" : undefined })
          }
        >
          <option value="">{words.curveAsTyped}</option>
          <option value="free" selected={props.options.calibration === "free"}>
            {words.curveFree}
          </option>
        </select>
      </label>
      <Show when={props.options.calibration !== "free"}>
        {end(words.curveLow, "low", "0.12 V")}
        {end(words.curveHigh, "high", "1.94 V")}
      </Show>
    </>
  );
}
