/** A choice among all values of the design that have a number. */
import { createMemo, createSignal, For, type JSX, onMount } from "solid-js";
import { findPath, type Project } from "../../core/index.ts";
import { shellWords } from "../../words/en/shell.ts";
import { numberGroups } from "./numberPaths.ts";

export function NumberSelect(props: {
  readonly project: Project | null;
  readonly name: string;
  readonly value: string;
  /** Values that can't be chosen. */
  readonly without?: readonly string[];
  /** Only values above zero. */
  readonly positive?: boolean;
  readonly choose: (path: string) => void;
}): JSX.Element {
  // Some fifty values: written when the page has time for them, or when somebody comes near.
  const [wanted, setWanted] = createSignal(false);
  onMount(() => {
    const later = window.requestIdleCallback ?? ((work: () => void) => window.setTimeout(work, 300));
    later(() => setWanted(true));
  });
  const groups = createMemo(
    () => (props.project === null || !wanted() ? [] : numberGroups(props.project, props.positive)),
    [],
    // Written anew only where other values are there.
    { equals: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
  const there = () => groups().some(({ paths }) => paths.some(({ path }) => path === props.value));
  const label = () => {
    const found = findPath(props.value);
    return found.ok ? found.value.label : props.value;
  };
  return (
    <select
      aria-label={props.name}
      onPointerEnter={() => setWanted(true)}
      onFocus={() => setWanted(true)}
      onChange={(event) => props.choose(event.currentTarget.value)}
    >
      {there() ? null : (
        <option value={props.value} selected disabled={props.value !== ""}>
          {props.value === "" ? shellWords.chooseOne : label()}
        </option>
      )}
      <For each={groups()}>
        {({ title, paths }) => (
          <optgroup label={title}>
            <For each={paths.filter(({ path }) => path === props.value || props.without?.includes(path) !== true)}>
              {(one) => (
                <option value={one.path} selected={one.path === props.value}>
                  {one.label}
                </option>
              )}
            </For>
          </optgroup>
        )}
      </For>
    </select>
  );
}
