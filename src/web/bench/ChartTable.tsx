/** The numbers behind a chart; rows are written only when somebody looks. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import type { Column } from "../../figure/tables.ts";
import { benchWords as words } from "../../words/en/bench.ts";

export function ChartTable(props: { readonly caption: string; readonly columns: readonly Column[] }): JSX.Element {
  const [open, setOpen] = createSignal(false);
  // Each look at a property would write the whole table anew.
  const columns = createMemo(() => (open() ? props.columns : []));
  const rows = () => columns().reduce((most, { values }) => Math.max(most, values.length), 0);
  return (
    <details class="table" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.table}</summary>
      <Show when={open()}>
        <section class="scroll" tabindex="0" aria-label={props.caption}>
          <table>
            <caption>{props.caption}</caption>
            <thead>
              <tr>
                <For each={columns()}>{({ title }) => <th scope="col">{title}</th>}</For>
              </tr>
            </thead>
            <tbody>
              <For each={Array.from({ length: rows() }, (_, row) => row)}>
                {(row) => (
                  <tr>
                    <For each={columns()}>
                      {({ values, text }) => {
                        const value = values[row];
                        if (value === undefined) return <td />;
                        return <td data-value={value === null ? "" : String(value)}>{text(value)}</td>;
                      }}
                    </For>
                  </tr>
                )}
              </For>
            </tbody>
          </table>
        </section>
      </Show>
    </details>
  );
}
