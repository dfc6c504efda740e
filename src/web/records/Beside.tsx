import { For, type JSX } from "solid-js";
import type { BesideName } from "../../core/index.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { changed, type LaidRecord, records } from "./table.ts";

/** Another record on the table, as a part of this fit. */
export function Beside(props: { readonly record: LaidRecord; readonly name: BesideName }): JSX.Element {
  const others = () => records().filter(({ id }) => id !== props.record.id);
  return (
    <label>
      {words.besideNames[props.name]}
      <select
        data-beside={props.name}
        onChange={({ currentTarget: { value } }) => {
          const { [props.name]: _, ...rest } = props.record.beside;
          changed(props.record.id, { beside: value === "" ? rest : { ...rest, [props.name]: Number(value) } });
        }}
      >
        <option value="">{words.none}</option>
        <For each={others()}>
          {({ id, name }) => (
            <option value={id} selected={props.record.beside[props.name] === id}>
              {name}
            </option>
          )}
        </For>
      </select>
    </label>
  );
}
