/** What may be chosen: each value from a list of stock sizes, or between two ends. */
import { createSignal, For, type JSX, Show } from "solid-js";
import { changeValue, findPath, type Project, plainQuantity, readQuantity, removeValue } from "../../core/index.ts";
import { chooseWords as words } from "../../words/en/choosePage.ts";
import { NumberSelect } from "../shell/NumberSelect.tsx";
import { useWork } from "../shell/work.ts";

const labelOf = (path: string): string => {
  const place = findPath(path);
  return place.ok ? place.value.label : path;
};

/** "30 um, 50 um" or "15 um to 200 um" as the file says it; null: it is neither. */
function entryOf(path: string, typed: string): string | null {
  const place = findPath(path);
  if (!place.ok) return null;
  const { kind } = place.value;
  const good = (text: string) =>
    kind === "number" ? Number.isFinite(Number(text)) && text !== "" : readQuantity(text, kind, []).ok;
  const written = (text: string) => (kind === "number" ? Number(text) : text);
  const ends = typed.split(/\s+to\s+|\s*–\s*/).map((one) => one.trim());
  if (ends.length === 2 && ends.every(good)) return JSON.stringify({ path, between: ends.map(written) });
  // A comma inside a number is a decimal comma: those of a list have a space behind them.
  const list = typed.split(/,\s+|;\s*/).map((one) => one.trim());
  return list.every(good) ? JSON.stringify({ path, from: list.map(written) }) : null;
}

export function Free(): JSX.Element {
  const work = useWork();
  const entries = () => work.project().file.choices ?? [];
  /** Entries whose typed text could not be taken. */
  const [bad, setBad] = createSignal<number | null>(null);
  const textOf = ({ from, between }: NonNullable<Project["file"]["choices"]>[number]): string =>
    from !== undefined ? from.join(", ") : (between ?? []).join(` ${words.to} `);

  function write(i: number, path: string, typed: string): void {
    const entry = entryOf(path, typed);
    const list = work.project().file.choices;
    const changed =
      entry === null
        ? null
        : list === undefined
          ? changeValue(work.project(), "choices", `[${entry}]`)
          : changeValue(work.project(), `choices[${i}]`, entry);
    setBad(changed?.ok === true ? null : i);
    if (changed?.ok === true) work.replace(changed.value, words.free1(labelOf(path)));
  }
  function forget(i: number, path: string): void {
    const without = removeValue(work.project(), `choices[${i}]`);
    setBad(null);
    if (without.ok) work.replace(without.value, words.forgot(labelOf(path)));
  }
  /** A value is free first about where it is: half to double. */
  function add(path: string): void {
    const place = findPath(path);
    const value = place.ok ? place.value.read(work.project()) : place;
    if (!place.ok || !value.ok) return;
    const { kind } = place.value;
    const end = (times: number) => plainQuantity(value.value * times, kind, { digits: 3 });
    write(entries().length, path, `${end(0.5)} ${words.to} ${end(2)}`);
  }
  return (
    <div class="choose-free">
      <h4>
        {words.free} <span class="aside">{words.freeHint}</span>
      </h4>
      <Show when={entries().length > 0} fallback={<p class="aside">{words.usual}</p>}>
        <For each={entries()}>
          {(entry, i) => (
            <div class="choose-free-line" data-free={entry.path}>
              <label>
                <span>{labelOf(entry.path ?? "")}</span>
                <input
                  type="text"
                  autocomplete="off"
                  spellcheck={false}
                  value={textOf(entry)}
                  aria-invalid={bad() === i()}
                  onChange={(event) => write(i(), entry.path ?? "", event.currentTarget.value)}
                />
              </label>
              <button
                type="button"
                class="word"
                aria-label={`${words.forget}: ${labelOf(entry.path ?? "")}`}
                onClick={() => forget(i(), entry.path ?? "")}
              >
                {words.forget}
              </button>
              <Show when={bad() === i()}>
                <p class="problem" role="status">
                  {words.badFree}
                </p>
              </Show>
            </div>
          )}
        </For>
      </Show>
      <div class="choose-free-add">
        <span>{words.addFree}</span>
        <NumberSelect
          project={work.still()}
          name={words.addFree}
          value=""
          positive
          without={entries().flatMap(({ path }) => path ?? [])}
          choose={add}
        />
      </div>
    </div>
  );
}
