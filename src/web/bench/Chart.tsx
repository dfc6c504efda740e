/** A chart drawn for the room it has, and the table behind it. */
import { createEffect, createMemo, createSignal, For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";

export function Chart(props: {
  readonly draw: (room: { readonly document: Document; readonly width: number }) => SVGSVGElement;
}): JSX.Element {
  let place!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  createEffect(() => {
    if (width() > 0) place.replaceChildren(props.draw({ document, width: width() }));
  });
  return <div class="chart" ref={place} />;
}

export interface TableColumn {
  readonly title: string;
  readonly cells: readonly string[];
}

/** Rows are written only when somebody looks. */
export function ChartTable(props: { readonly caption: string; readonly columns: readonly TableColumn[] }): JSX.Element {
  const [open, setOpen] = createSignal(false);
  // Each look at a property would write the whole table anew.
  const columns = createMemo(() => (open() ? props.columns : []));
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
              <For each={columns()[0]?.cells ?? []}>
                {(_, row) => (
                  <tr>
                    <For each={columns()}>{({ cells }) => <td>{cells[row()]}</td>}</For>
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
