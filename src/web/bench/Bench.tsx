/** The Bench: the microphone under the hand, its numbers and curves. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import { type Problem, type Project, pathText } from "../../core/index.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { Drawing } from "../drawing/Drawing.tsx";
import { Header } from "../shell/Header.tsx";
import { takeFiles } from "../shell/openFile.ts";
import { RequirementLine } from "../shell/RequirementLine.tsx";
import { Cards } from "./Cards.tsx";
import { Charts } from "./Charts.tsx";
import { fieldGroups, type Part } from "./fieldList.ts";
import { Numbers } from "./Numbers.tsx";
import { Remarks } from "./Remarks.tsx";
import { type Answer, createBench, problemsAt } from "./state.ts";
import { Values } from "./Values.tsx";

export function Bench(props: { readonly project: Project; readonly name: string | null }): JSX.Element {
  const bench = createBench(props.project);
  const prediction = createMemo(() => bench.answer()?.prediction ?? null);
  // An exact answer that arrives when the next drag has begun is drawn after it.
  const rested = createMemo<Answer | null>((before) => (bench.held() ? before : bench.rested()), null);
  const [name, setName] = createSignal(props.name);
  const [saved, setSaved] = createSignal(props.project);
  const [part, setPart] = createSignal<Part>("diaphragm");
  const [unopened, setUnopened] = createSignal<{ name: string; problems: readonly Problem[] } | null>(null);
  const open = takeFiles({
    opened: (project, from) => {
      setUnopened(null);
      setName(from);
      bench.replace(project, `${words.openedFile} ${from}`);
      setSaved(bench.project());
    },
    refused: (from, problems) => setUnopened({ name: from, problems }),
  });
  /** Problems that neither a field nor a part of the drawing can show. */
  const elsewhere = createMemo(() => {
    const paths = fieldGroups(bench.project()).flatMap(({ fields }) => fields.map(({ path }) => path));
    return bench.failure().filter((problem) => !paths.some((path) => problemsAt(path, [problem]).length > 0));
  });
  return (
    <>
      <Header
        bench={bench}
        name={name()}
        changed={saved() !== bench.project()}
        onSaved={() => setSaved(bench.project())}
        onOpen={open}
      />
      <main data-answer={bench.answer()?.id ?? 0} data-asked={bench.asked()} data-freshness={bench.freshness()}>
        <RequirementLine verdict={prediction()?.verdict ?? []} />
        <p class="state" role="status">
          {bench.freshness() === "old" ? words.old : bench.freshness() === "none" ? words.noAnswer : ""}
          {prediction() === null && bench.freshness() === "computing" ? words.computing : ""}
        </p>
        <Show when={unopened()}>
          {(file) => (
            <ProblemList title={`${words.notOpened} ${file().name}`} problems={file().problems}>
              <button type="button" class="word" onClick={() => setUnopened(null)}>
                {words.close}
              </button>
            </ProblemList>
          )}
        </Show>
        <Show when={elsewhere().length > 0}>
          <ProblemList title={words.problems} problems={elsewhere()} />
        </Show>
        <div class="bench">
          <div class="hand">
            <Drawing bench={bench} touch={setPart} />
            <Values bench={bench} part={part()} choose={setPart} />
          </div>
          <div class="answers">
            <Show when={prediction()}>
              {(known) => <Numbers prediction={known()} cards={rested()?.prediction.cards ?? known().cards} />}
            </Show>
            <Show when={rested()}>{(answer) => <Charts bench={bench} rested={answer()} />}</Show>
          </div>
          <Show when={rested()}>
            {(answer) => (
              <div class="notes">
                <Remarks prediction={answer().prediction} />
                <Cards prediction={answer().prediction} />
              </div>
            )}
          </Show>
        </div>
      </main>
    </>
  );
}

function ProblemList(props: {
  readonly title: string;
  readonly problems: readonly Problem[];
  readonly children?: JSX.Element;
}): JSX.Element {
  return (
    <section class="panel wrong" role="alert">
      <h2>
        {props.title} {props.children}
      </h2>
      <ul>
        <For each={props.problems}>
          {({ path, message }) => (
            <li>
              <span class="aside">{pathText(path)}</span> {message}
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}
