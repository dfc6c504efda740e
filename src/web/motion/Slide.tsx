/** A slider with its number beside it. */
import type { JSX } from "solid-js";

/** A slider with its number beside it, which is typed into. */
export function Slide(props: {
  readonly label: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly value: number;
  readonly set: (value: number) => void;
}): JSX.Element {
  const take = (text: string) => {
    const value = Number(text);
    if (text.trim() !== "" && Number.isFinite(value)) props.set(Math.min(props.high, Math.max(props.low, value)));
  };
  return (
    <div class="slide">
      <label>
        {props.label}
        <input
          type="range"
          min={props.low}
          max={props.high}
          step={props.step}
          value={props.value}
          onInput={(event) => take(event.currentTarget.value)}
        />
      </label>
      <input
        type="number"
        aria-label={`${props.label} (${props.unit})`}
        min={props.low}
        max={props.high}
        step={props.step}
        value={Math.round(props.value)}
        onChange={(event) => take(event.currentTarget.value)}
      />
      <span class="aside">{props.unit}</span>
    </div>
  );
}
