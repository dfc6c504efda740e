/** One axis: the value that it shows, and its ends. */
import { createSignal, type JSX, Show } from "solid-js";
import { findPath, formatQuantity } from "../../core/index.ts";
import { chartWords as words } from "../../words/en/chartPage.ts";
import { NumberSelect } from "../shell/NumberSelect.tsx";
import { useWork } from "../shell/work.ts";

export function AxisFields(props: {
  /** "Across", for those who can't see where it stands. */
  readonly name: string;
  readonly path: string;
  /** null: it has no ends yet. */
  readonly ends: { readonly from: number; readonly to: number } | null;
  readonly without?: readonly string[];
  /** Only values above zero, for a logarithmic axis. */
  readonly positive: boolean;
  readonly choose: (path: string) => void;
  /** false: they can't be taken. */
  readonly setEnds: (from: string, to: string) => boolean;
}): JSX.Element {
  const work = useWork();
  const [bad, setBad] = createSignal(false);
  let from!: HTMLInputElement;
  let to!: HTMLInputElement;
  const kind = () => {
    const place = findPath(props.path);
    return place.ok ? place.value.kind : "number";
  };
  const shown = (value: number | undefined) =>
    value === undefined ? "" : formatQuantity(value, kind(), { digits: 3 });
  const take = () => setBad(!props.setEnds(from.value, to.value));
  return (
    <fieldset class="axis-fields" aria-label={props.name}>
      <span class="axis-name">{props.name}</span>
      <NumberSelect
        project={work.still()}
        name={props.name}
        value={props.path}
        {...(props.without === undefined ? {} : { without: props.without })}
        positive={props.positive}
        choose={(path) => {
          setBad(false);
          props.choose(path);
        }}
      />
      <label>
        <span>{words.from}</span>
        <input type="text" ref={from} value={shown(props.ends?.from)} aria-invalid={bad()} onChange={take} />
      </label>
      <label>
        <span>{words.to}</span>
        <input type="text" ref={to} value={shown(props.ends?.to)} aria-invalid={bad()} onChange={take} />
      </label>
      <Show when={bad() || props.ends === null}>
        <p class="problem" role="status">
          {props.positive ? words.badEnd : words.badCutEnd}
        </p>
      </Show>
    </fieldset>
  );
}
