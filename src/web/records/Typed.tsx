import type { JSX } from "solid-js";
import { recordsWords as words } from "../../words/en/records.ts";

/** A field that takes what it can read; what it can't is marked and not used. Empty: not said. */
export function Typed<T>(props: {
  readonly label: string;
  readonly hint?: string;
  readonly placeholder?: string;
  readonly value: string;
  readonly read: (text: string) => T | undefined;
  readonly set: (value: T | undefined) => void;
}): JSX.Element {
  return (
    <label title={props.hint ?? ""}>
      {props.label}
      <input
        class="short"
        placeholder={props.placeholder ?? ""}
        value={props.value}
        onChange={({ currentTarget }) => {
          const text = currentTarget.value.trim();
          const value = text === "" ? undefined : props.read(text);
          const wrong = text !== "" && value === undefined;
          currentTarget.setCustomValidity(wrong ? words.notRead : "");
          if (wrong) {
            currentTarget.setAttribute("aria-invalid", "true");
            currentTarget.reportValidity();
          } else {
            currentTarget.removeAttribute("aria-invalid");
            props.set(value);
          }
        }}
      />
    </label>
  );
}
