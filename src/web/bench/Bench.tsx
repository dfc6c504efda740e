/** The Bench: values, numbers and curves of one microphone. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import { type Project, pathText } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { Header } from "../shell/Header.tsx";
import { RequirementLine } from "../shell/RequirementLine.tsx";
import { Charts } from "./Charts.tsx";
import { fieldGroups } from "./fieldList.ts";
import { Numbers } from "./Numbers.tsx";
import { createBench, problemsAt } from "./state.ts";
import { Values } from "./Values.tsx";

export function Bench(props: { readonly project: Project; readonly name: string | null }): JSX.Element {
  const bench = createBench(props.project);
  const prediction = createMemo(() => bench.answer()?.prediction ?? null);
  const [saved, setSaved] = createSignal(props.project);
  /** Problems that no field on the page can show. */
  const elsewhere = createMemo(() => {
    const paths = fieldGroups(bench.project()).flatMap(({ fields }) => fields.map(({ path }) => path));
    return bench.failure().filter((problem) => !paths.some((path) => problemsAt(path, [problem]).length > 0));
  });
  return (
    <>
      <Header
        project={bench.project()}
        name={props.name}
        changed={saved() !== bench.project()}
        onSaved={() => setSaved(bench.project())}
      />
      <main data-answer={bench.answer()?.id ?? 0} data-freshness={bench.freshness()}>
        <RequirementLine verdict={prediction()?.verdict ?? []} />
        <p class="state" role="status">
          {bench.freshness() === "old" ? words.old : bench.freshness() === "none" ? words.noAnswer : ""}
          {prediction() === null && bench.freshness() === "computing" ? words.computing : ""}
        </p>
        <Show when={elsewhere().length > 0}>
          <section class="panel wrong" aria-labelledby="problems">
            <h2 id="problems">{words.problems}</h2>
            <ul>
              <For each={elsewhere()}>
                {({ path, message }) => (
                  <li>
                    <span class="aside">{pathText(path)}</span> {message}
                  </li>
                )}
              </For>
            </ul>
          </section>
        </Show>
        <div class="bench">
          <Show when={prediction()}>{(known) => <Numbers prediction={known()} />}</Show>
          <Values bench={bench} />
          <Show when={bench.answer()}>
            {(answer) => <Charts prediction={answer().prediction} project={answer().project} />}
          </Show>
        </div>
      </main>
    </>
  );
}
