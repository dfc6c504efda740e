/** The house: one project on the table, its requirements in sight, and the page that is open. */
import { createEffect, createMemo, createSignal, type JSX, lazy, Show, Suspense } from "solid-js";
import type { Problem, Project } from "../../core/index.ts";
import type { OpenedProject } from "../../server/api.ts";
import { benchWords as words } from "../../words/en/bench.ts";
import { pageWords } from "../../words/en/pages.ts";
import { shellWords } from "../../words/en/shell.ts";
import { fieldGroups } from "../bench/fieldList.ts";
import { walkStep } from "../walk/walkStep.ts";
import { chartAhead } from "./chartAhead.ts";
import { createWork } from "./createWork.ts";
import { Header } from "./Header.tsx";
import { KeepingContext } from "./KeepingContext.ts";
import { KeepingPanels } from "./KeepingState.tsx";
import { createKeeping } from "./keeping.ts";
import { library } from "./library.ts";
import { takeFiles } from "./openFile.ts";
import { OpenPage, PageWords } from "./Pages.tsx";
import { ProblemList } from "./ProblemList.tsx";
import { RequirementLine } from "./RequirementLine.tsx";
import { goTo, openPage } from "./route.ts";
import { loadTypeface } from "./typeface.ts";
import { problemsAt, WorkContext } from "./work.ts";

const Walk = lazy(() => import("../walk/Walk.tsx").then(({ Walk }) => ({ default: Walk })));

export function App(props: { readonly project: Project; readonly opened: OpenedProject }): JSX.Element {
  const work = createWork(props.project, props.opened.name);
  chartAhead(work);
  const keeping = createKeeping(work, props.opened);
  const [unopened, setUnopened] = createSignal<{ name: string; problems: readonly Problem[] } | null>(null);
  const open = takeFiles({
    opened: (project, from) => {
      setUnopened(null);
      work.open(project, from);
    },
    refused: (from, problems) => setUnopened({ name: from, problems }),
    record: async (from, file) => {
      const { lay } = await import("../records/table.ts");
      setUnopened(null);
      lay(from, file, work.project());
      goTo("records");
    },
    archive: async (file) => {
      const answer = await library.bringIn(file);
      if (answer.ok) goTo("shelf");
      else setUnopened({ name: file.name, problems: answer.problems });
    },
  });
  const prediction = createMemo(() => work.answer()?.prediction ?? null);
  /** Problems that neither a field nor a drawing of the open page shows. */
  const elsewhere = createMemo(() => {
    if (openPage() !== "bench")
      return [...work.failure(), ...Object.values(work.drafts()).flatMap(({ problems }) => problems)];
    const paths = fieldGroups(work.project()).flatMap(({ fields }) => fields.map(({ path }) => path));
    return work.failure().filter((problem) => !paths.some((path) => problemsAt(path, [problem]).length > 0));
  });
  createEffect(() => {
    if (work.replied() > 0) loadTypeface();
  });
  createEffect(() => {
    document.title = `${work.project().file.title ?? words.untitled} · ${pageWords[openPage()].name} · Glassdrum`;
  });
  return (
    <WorkContext.Provider value={work}>
      <KeepingContext.Provider value={keeping}>
        <button type="button" class="skip" onClick={() => document.getElementById("page-title")?.focus()}>
          {shellWords.toPage}
        </button>
        <Header onOpen={open} />
        <PageWords />
        <main
          data-page={openPage()}
          data-answer={work.answer()?.id ?? 0}
          data-replied={work.replied()}
          data-asked={work.asked()}
          data-freshness={work.freshness()}
        >
          <RequirementLine
            verdict={prediction()?.verdict ?? []}
            stale={work.answer()?.stale ?? []}
            unasked={prediction() !== null}
          />
          <p class="state" role="status">
            {work.freshness() === "old" ? words.old : work.freshness() === "none" ? words.noAnswer : ""}
            {prediction() === null && work.freshness() === "computing" ? words.computing : ""}
          </p>
          <KeepingPanels />
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
          <Suspense>
            <Show when={walkStep() !== null}>
              <Walk />
            </Show>
          </Suspense>
          <OpenPage />
        </main>
      </KeepingContext.Provider>
    </WorkContext.Provider>
  );
}
