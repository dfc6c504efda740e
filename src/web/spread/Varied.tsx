/** What varies, and how much: tolerances are typed here, the site's ranges stand in the brief. */
import { For, type JSX, Show } from "solid-js";
import { findPath, formatQuantity, type Spread } from "../../core/index.ts";
import { spreadWords as words } from "../../words/en/planes.ts";
import { Field } from "../shell/Field.tsx";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

export function Varied(props: { readonly spread: Spread | null }): JSX.Element {
  const work = useWork();
  const typed = () =>
    (work.project().file.tolerances ?? []).flatMap((entry, i) => {
      if (entry.path === undefined) return [];
      const place = findPath(entry.path);
      const key = (entry.kind ?? "normal") === "normal" ? "standard" : "half";
      const label = `${place.ok ? place.value.label : entry.path}, ${entry.kind ?? "normal"}`;
      return [{ path: `tolerances[${i}].${key}`, label }];
    });
  const site = () => props.spread?.varied.filter(({ from }) => from === "site") ?? [];
  return (
    <Panel title={words.varies} aside={words.variesAside}>
      <Show when={typed().length > 0 || site().length > 0} fallback={<p class="aside">{words.noTolerances}</p>}>
        <For each={typed()}>{(spec) => <Field bench={work} spec={spec} />}</For>
        <ul class="spread-site">
          <For each={site()}>
            {({ path, label, middle, width }) => {
              const place = findPath(path);
              const shown = (value: number) => (place.ok ? formatQuantity(value, place.value.kind, { digits: 3 }) : "");
              return (
                <li>
                  {label}: {shown(middle - width)} to {shown(middle + width)} <span class="aside">{words.site}</span>
                </li>
              );
            }}
          </For>
        </ul>
      </Show>
    </Panel>
  );
}
