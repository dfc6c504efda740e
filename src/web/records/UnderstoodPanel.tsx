/** How a file was read: every guess can be changed, and what is unclear is asked. */
import { For, type JSX, Show } from "solid-js";
import { type ColumnMeaning, columnMeanings, type Recipe, type Understood } from "../../core/index.ts";
import { meaningWords, recordsWords as words } from "../../words/en/records.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { changed, type LaidRecord } from "./table.ts";

export function UnderstoodPanel(props: { readonly record: LaidRecord; readonly understood: Understood }): JSX.Element {
  const told = (change: Partial<Recipe>) =>
    changed(props.record.id, { recipe: { ...props.understood.recipe, ...props.record.recipe, ...change } });
  /** Other signs mean other cells: what was said of the columns no longer holds. */
  const signs = (change: Partial<Recipe>) => changed(props.record.id, { recipe: { columns: [], ...change } });
  const column = (index: number, change: { readonly is?: ColumnMeaning; readonly unit?: string }) =>
    told({
      columns: props.understood.recipe.columns.map((one) => (one.index === index ? { ...one, ...change } : one)),
    });
  function answer(path: readonly (string | number)[], choice: string): void {
    const at = props.understood.columns[Number(path[1])];
    if (path[0] === "columns" && at !== undefined) column(at.index, { unit: choice });
    if (path[0] === "sampling") told({ sampling: choice });
    if (path[0] === "separator") signs({ separator: choice, decimal: choice === "," ? "." : "," });
    if (path[0] === "decimal") signs({ decimal: choice === "," ? "," : "." });
  }
  return (
    <Panel title={words.understood} aside={words.understoodHint} class="understood">
      <Show when={props.understood.questions.length > 0}>
        <section class="asks" aria-label={words.asks}>
          <For each={props.understood.questions}>
            {({ code, path, message, choices }) => (
              <div data-question={code}>
                <p>{message}</p>
                <p class="choices">
                  <For each={choices}>
                    {(choice) => (
                      <button type="button" onClick={() => answer(path, choice)}>
                        {choice}
                      </button>
                    )}
                  </For>
                </p>
              </div>
            )}
          </For>
        </section>
      </Show>
      <section class="scroll" tabindex="0" aria-label={words.understood}>
        <table class="columns">
          <thead>
            <tr>
              <th scope="col">{words.column}</th>
              <th scope="col">{words.holds}</th>
              <th scope="col">{words.unit}</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.understood.columns.slice(0, 24)}>
              {(one) => (
                <tr data-column={one.index}>
                  <th scope="row">
                    {one.heading === "" ? one.index + 1 : one.heading}
                    <span class="aside">
                      {one.missing > 0 ? ` ${words.missing(one.missing)}` : ""}
                      {one.clipped > 0 ? ` ${words.clipped(one.clipped)}` : ""}
                    </span>
                  </th>
                  <td>
                    <select
                      aria-label={`${words.holds}, ${words.column} ${one.index + 1}`}
                      onChange={(event) => column(one.index, { is: event.currentTarget.value as ColumnMeaning })}
                    >
                      <For each={columnMeanings}>
                        {(meaning) => (
                          <option value={meaning} selected={meaning === one.is}>
                            {meaningWords[meaning]}
                          </option>
                        )}
                      </For>
                    </select>
                  </td>
                  <td>
                    <input
                      aria-label={`${words.unit}, ${words.column} ${one.index + 1}`}
                      class="short"
                      value={one.unit ?? ""}
                      placeholder="?"
                      onChange={(event) => column(one.index, { unit: event.currentTarget.value.trim() })}
                    />
                  </td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
      <Show when={props.understood.kind === "text"}>
        <div class="pairs">
          <label>
            {words.decimal}
            <select onChange={(event) => signs({ decimal: event.currentTarget.value === "," ? "," : "." })}>
              <option value="." selected={props.understood.recipe.decimal !== ","}>
                .
              </option>
              <option value="," selected={props.understood.recipe.decimal === ","}>
                ,
              </option>
            </select>
          </label>
          <label>
            {words.sampling}
            <input
              class="short"
              placeholder={words.samplingHint}
              value={props.understood.recipe.sampling ?? ""}
              onChange={(event) => told({ sampling: event.currentTarget.value.trim() })}
            />
          </label>
        </div>
      </Show>
      <Show when={props.understood.datasets.length > 1}>
        <div class="pairs">
          <label>
            {words.dataset}
            <select onChange={(event) => signs({ dataset: event.currentTarget.value })}>
              <For each={props.understood.datasets}>
                {(name) => (
                  <option value={name} selected={name === props.understood.recipe.dataset}>
                    {name}
                  </option>
                )}
              </For>
            </select>
          </label>
        </div>
      </Show>
      <Show when={props.understood.head.length > 0}>
        <details>
          <summary>{words.firstLines}</summary>
          <pre tabindex="0">{props.understood.head.join("\n")}</pre>
        </details>
      </Show>
    </Panel>
  );
}
