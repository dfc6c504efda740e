/** What varies, and how much: tolerances are typed, added and forgotten here; the site's ranges stand in the brief. */
import { createSignal, For, type JSX, Show } from "solid-js";
import {
  changeValue,
  findPath,
  formatNumber,
  formatQuantity,
  readQuantity,
  removeValue,
  type Spread,
} from "../../core/index.ts";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { Field } from "../shell/Field.tsx";
import { NumberSelect } from "../shell/NumberSelect.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { pageAddress } from "../shell/route.ts";
import { useWork } from "../shell/work.ts";

type Kind = keyof typeof words.kinds;
const labelOf = (path: string): string => {
  const place = findPath(path);
  return place.ok ? place.value.label : path;
};

export function Varied(props: { readonly spread: Spread | null }): JSX.Element {
  const work = useWork();
  const entries = () => work.project().file.tolerances ?? [];
  const typed = () =>
    entries().flatMap((entry, i) => {
      if (entry.path === undefined) return [];
      const kind: Kind = entry.kind ?? "normal";
      return [
        { i, of: labelOf(entry.path), kind, path: `tolerances[${i}].${kind === "normal" ? "standard" : "half"}` },
      ];
    });
  const together = () =>
    entries().flatMap(({ together: paths, correlation }) => (paths ? [{ paths, correlation }] : []));
  const site = () => props.spread?.varied.filter(({ from }) => from === "site") ?? [];
  function forget(i: number, label: string): void {
    const without = removeValue(work.project(), `tolerances[${i}]`);
    if (without.ok) work.replace(without.value, words.forgot(label));
  }
  return (
    <Panel title={words.varies} aside={words.variesAside} class="spread-varied">
      <Show when={typed().length > 0 || site().length > 0} fallback={<p class="aside">{words.noTolerances}</p>}>
        <For each={typed()}>
          {({ i, of, kind, path }) => (
            <fieldset class="tolerance" aria-label={of} data-tolerance={of}>
              <Field bench={work} spec={{ path, label: `${of}, ${words.kinds[kind]}` }} />
              <Field
                bench={work}
                spec={{
                  path: `tolerances[${i}].costOfHalving`,
                  label: words.costShort,
                  empty: { path: `tolerances[${i}].costOfHalving`, value: null, says: words.noPrice },
                }}
              />
              <button type="button" class="word" aria-label={`${words.forget}: ${of}`} onClick={() => forget(i, of)}>
                {words.forget}
              </button>
            </fieldset>
          )}
        </For>
        <For each={together()}>
          {({ paths, correlation }) => (
            <p class="aside">{words.together(paths.map(labelOf), formatNumber(correlation ?? 1, { digits: 2 }))}</p>
          )}
        </For>
      </Show>
      <AddTolerance />
      <Show when={site().length > 0}>
        <h4>
          {words.site} <a href={pageAddress("brief")}>{words.toBrief}</a>
        </h4>
        <ul class="spread-site">
          <For each={site()}>
            {({ path, label, middle, width }) => {
              const place = findPath(path);
              const shown = (value: number) => (place.ok ? formatQuantity(value, place.value.kind, { digits: 3 }) : "");
              return (
                <li>
                  {label}: {shown(middle - width)} to {shown(middle + width)}
                </li>
              );
            }}
          </For>
        </ul>
      </Show>
    </Panel>
  );
}

function AddTolerance(): JSX.Element {
  const work = useWork();
  const [path, setPath] = createSignal("");
  const [kind, setKind] = createSignal<Kind>("normal");
  const [bad, setBad] = createSignal<string | null>(null);
  let width!: HTMLInputElement;
  const taken = () => (work.project().file.tolerances ?? []).flatMap(({ path: one }) => one ?? []);
  function add(event: SubmitEvent): void {
    event.preventDefault();
    const place = findPath(path());
    if (!place.ok) return;
    const read = readQuantity(
      width.value,
      place.value.kind === "temperature" ? "temperatureDifference" : place.value.kind,
      [],
    );
    if (!read.ok || !(read.value > 0)) {
      setBad(words.badWidth(read.ok ? place.value.label.toLowerCase() : (read.problems[0]?.message ?? "")));
      return;
    }
    const key = kind() === "normal" ? "standard" : "half";
    const entry = JSON.stringify({ path: path(), kind: kind(), [key]: width.value.trim() });
    const list = work.project().file.tolerances;
    const changed =
      list === undefined
        ? changeValue(work.project(), "tolerances", `[${entry}]`)
        : changeValue(work.project(), `tolerances[${list.length}]`, entry);
    if (!changed.ok) {
      setBad(changed.problems[0]?.message ?? "");
      return;
    }
    setBad(null);
    work.replace(changed.value, words.added(place.value.label.toLowerCase()));
    setPath("");
    width.value = "";
  }
  return (
    <form class="add-tolerance" onSubmit={add}>
      <div class="add-tolerance-of">
        <span>{words.addValue}</span>
        <NumberSelect project={work.still()} name={words.addValue} value={path()} without={taken()} choose={setPath} />
      </div>
      <Show when={path() !== ""}>
        <select aria-label={words.addKind} onChange={(event) => setKind(event.currentTarget.value as Kind)}>
          <For each={Object.keys(words.kinds) as Kind[]}>
            {(one) => (
              <option value={one} selected={one === kind()}>
                {words.kinds[one]}
              </option>
            )}
          </For>
        </select>
        <input type="text" ref={width} aria-label={words.addWidth} autocomplete="off" aria-invalid={bad() !== null} />
        <button type="submit">{words.add}</button>
        <Show when={bad()}>
          <p class="problem" role="status">
            {bad()}
          </p>
        </Show>
      </Show>
    </form>
  );
}
