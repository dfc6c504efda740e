/** Kept designs beside the present one: the values that differ, and what each would do. */
import { createMemo, For, type JSX, Show } from "solid-js";
import { keptWords as words } from "../../words/en/kept.ts";
import { Sign } from "../shell/Sign.tsx";
import { useWork } from "../shell/work.ts";
import { type Difference, numberDifferences, valueDifferences } from "./differences.ts";
import { laidDesigns } from "./laid.ts";

export function Differences(): JSX.Element {
  const work = useWork();
  // Written at rest: nobody reads a table under a moving hand.
  const laid = createMemo(() => laidDesigns(work));
  const present = () => work.rested();
  const values = createMemo(() => {
    const answer = present();
    return answer === null ? [] : valueDifferences([answer.project, ...laid().map(({ project }) => project)]);
  });
  const numbers = createMemo(() => {
    const answer = present();
    return answer === null ? [] : numberDifferences([answer.prediction, ...laid().map(({ prediction }) => prediction)]);
  });
  return (
    <section class="scroll differences" tabindex="0" aria-label={words.differences}>
      <table>
        <caption>{words.differences}</caption>
        <thead>
          <tr>
            <th scope="col">{words.value}</th>
            <th scope="col">{words.now}</th>
            <For each={laid()}>
              {({ name }, i) => (
                <th scope="col">
                  <svg class="sample" viewBox="0 0 28 8" aria-hidden="true">
                    <path class={`series-${i() + 1}`} d="M0 4H28" />
                  </svg>{" "}
                  {name}
                </th>
              )}
            </For>
          </tr>
        </thead>
        <tbody>
          <Show
            when={values().length > 0}
            fallback={
              <tr>
                <td class="aside none" colspan={2 + laid().length}>
                  {words.same}
                </td>
              </tr>
            }
          >
            <For each={values()}>{(row) => <Row row={row} />}</For>
          </Show>
        </tbody>
        <tbody>
          <tr>
            <th scope="rowgroup" colspan={2 + laid().length}>
              {words.predicted}
            </th>
          </tr>
          <For each={numbers()}>{(row) => <Row row={row} />}</For>
        </tbody>
      </table>
    </section>
  );
}

function Row(props: { readonly row: Difference }): JSX.Element {
  return (
    <tr data-difference={props.row.key}>
      <th scope="row">{props.row.label}</th>
      <For each={props.row.values}>
        {(value, i) => (
          <td classList={{ missed: props.row.met[i()] === false }}>
            <Show when={props.row.met[i()] === false}>
              <Sign met={false} />
            </Show>
            {value}
            <Show when={props.row.changes[i()]}>
              <span class="change">{props.row.changes[i()]}</span>
            </Show>
          </td>
        )}
      </For>
    </tr>
  );
}
