/** Parts that a microphone may have or not: each is added and taken away by its word, and opens its values when it comes. */
import { For, type JSX, Show } from "solid-js";
import { fileValue, type PartKey, type Project, partsToAdd, readPath } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import type { Part } from "../bench/fieldList.ts";
import { isThere } from "../shell/valueText.ts";
import type { Work } from "../shell/work.ts";

/** In the order in which sound meets them, and where the values of each stand. */
const parts: readonly { readonly key: PartKey; readonly part: Part }[] = [
  { key: "body", part: "body" },
  { key: "front", part: "front" },
  { key: "layer", part: "diaphragm" },
  { key: "frame", part: "frame" },
  { key: "film", part: "film" },
  { key: "backPlate", part: "film" },
  { key: "backCavity", part: "back" },
  { key: "vent", part: "back" },
  { key: "leak", part: "back" },
];

export function PartsList(props: { readonly bench: Work; readonly touch: (part: Part) => void }): JSX.Element {
  let list!: HTMLUListElement;
  const there = (key: PartKey) => isThere(props.bench.project(), partsToAdd[key].path);
  // A back plate needs the film that it ends.
  const shown = () => parts.filter(({ key }) => key !== "backPlate" || there("film")).map(({ key }) => key);
  const turn = (key: PartKey) => {
    const part = parts.find((one) => one.key === key)?.part;
    if (part !== undefined) props.touch(part);
    const change = there(key) ? taken(props.bench.project(), key) : added(props.bench.project(), key);
    props.bench.type(change.path, change.value, change, true);
    // Its word has moved to the other row, and the keyboard goes with it.
    list.querySelector<HTMLButtonElement>(`[data-part-toggle="${key}"]`)?.focus();
  };
  const row = (says: string, present: boolean) => {
    const keys = () => shown().filter((key) => there(key) === present);
    return (
      <Show when={keys().length > 0}>
        <li>
          {says}
          <For each={keys()}>
            {(key) => (
              <button
                type="button"
                data-part-toggle={key}
                aria-label={`${says} ${words.partNames[key]}`}
                onClick={() => turn(key)}
              >
                {words.partNames[key]}
              </button>
            )}
          </For>
        </li>
      </Show>
    );
  };
  return (
    <ul ref={list} class="toggles parts-list" aria-label={words.optionalParts}>
      {row(words.addPart, false)}
      {row(words.takeAway, true)}
    </ul>
  );
}

/** Steps of a path that is known to be one. */
function stepsOf(path: string): readonly (string | number)[] {
  const steps = readPath(path);
  return steps.ok ? steps.value : [];
}

/** With its last part a group goes too: an empty back would be a sealed one without any room. */
function taken(project: Project, key: PartKey): { readonly path: string; readonly value: string } {
  const { path, absent } = partsToAdd[key];
  const parent = path.slice(0, path.lastIndexOf("."));
  const beside = parts.filter((one) => one.key !== key && partsToAdd[one.key].path.startsWith(`${parent}.`));
  const last = parent === "microphone.back" && beside.every((one) => !isThere(project, partsToAdd[one.key].path));
  return last ? { path: parent, value: "null" } : { path, value: absent };
}

/** In a group that the file calls null, the group comes with its part. */
function added(project: Project, key: PartKey): { readonly path: string; readonly value: string } {
  const { path, value } = partsToAdd[key];
  const steps = stepsOf(path);
  const parent = path.slice(0, path.lastIndexOf("."));
  if (fileValue(project, steps.slice(0, -1)) !== null) return { path, value };
  return { path: parent, value: `{ ${JSON.stringify(steps.at(-1))}: ${value} }` };
}
