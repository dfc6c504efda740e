/** The Shelf: what is on the table, and every project of the library with its line of time. */
import { createMemo, createSignal, For, type JSX, Show } from "solid-js";
import { demoText, loadProject, type Problem, starterText } from "../../core/index.ts";
import type { Imported, ShelfLine } from "../../server/api.ts";
import { shelfWords as words } from "../../words/en/shelf.ts";
import { answered } from "../shell/answered.ts";
import { useKeeping } from "../shell/KeepingContext.ts";
import { library } from "../shell/library.ts";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { ProblemList } from "../shell/ProblemList.tsx";
import { goTo } from "../shell/route.ts";
import { useWork } from "../shell/work.ts";
import { ProjectLine } from "./ProjectLine.tsx";
import { Table } from "./Table.tsx";
import "./shelf.css";

/** Lines that are written at once; a search looks through all. */
const firstLines = 60;

export function Shelf(): JSX.Element {
  const keeping = useKeeping();
  const work = useWork();
  const { answer: shelf, again: refetch } = answered(keeping.changes, library.shelf);
  const [search, setSearch] = createSignal("");
  const [all, setAll] = createSignal(false);
  const [refused, setRefused] = createSignal<readonly Problem[]>([]);
  const [broughtIn, setBroughtIn] = createSignal<readonly Imported[]>([]);
  let picker!: HTMLInputElement;
  const found = createMemo(() => {
    const answer = shelf();
    return answer?.ok ? answer.value : null;
  });
  const problems = () => {
    const answer = shelf();
    return [...refused(), ...(answer && !answer.ok ? answer.problems : [])];
  };
  const shown = createMemo(() => matching(found()?.projects ?? [], search()));
  const byId = createMemo(() => new Map(shown().map((line) => [line.id, line])));
  const onShelf = () => shown().filter(({ removed }) => removed === null);
  const away = () => shown().filter(({ removed }) => removed !== null);

  async function open(id: string, state?: number): Promise<void> {
    setRefused(await keeping.open(id, state));
    if (refused().length === 0) goTo("bench");
  }
  async function putAway(id: string, is: boolean): Promise<void> {
    const answer = await library.away(id, is);
    setRefused(answer.ok ? [] : answer.problems);
    await refetch();
  }
  async function bringIn(file: File): Promise<void> {
    const answer = await library.bringIn(file);
    setRefused(answer.ok ? [] : answer.problems);
    setBroughtIn(answer.ok ? answer.value : []);
    await refetch();
  }
  function begin(text: string): void {
    const loaded = loadProject(text);
    if (!loaded.ok) return void setRefused(loaded.problems);
    work.open(loaded.value, null);
    goTo("bench");
  }
  const lines = (of: readonly ShelfLine[]) => (
    <ul class="projects">
      {/* By id: a list that was read anew must not close what somebody looks at. */}
      <For each={of.map(({ id }) => id)}>
        {(id) => (
          <Show when={byId().get(id)}>
            {(line) => (
              <ProjectLine line={line()} here={id === keeping.id()} open={open} putAway={putAway} changed={refetch} />
            )}
          </Show>
        )}
      </For>
    </ul>
  );
  return (
    <PageFrame page="shelf" grid="shelf">
      <Show when={problems().length > 0}>
        <ProblemList title={words.noLibrary} problems={problems()} />
      </Show>
      <Panel title={words.projects} aside={words.projectsHint(onShelf().length)} class="shelf-list">
        <label class="search">
          {words.search}
          <input
            type="search"
            autocomplete="off"
            value={search()}
            onInput={(event) => setSearch(event.currentTarget.value)}
          />
        </label>
        <Show
          when={onShelf().length > 0}
          fallback={
            <p class="aside" role="status">
              {found() === null ? "" : search() === "" ? words.empty : words.nothingFound(search())}
            </p>
          }
        >
          {lines(all() ? onShelf() : onShelf().slice(0, firstLines))}
          <Show when={!all() && onShelf().length > firstLines}>
            <p>
              <button type="button" onClick={() => setAll(true)}>
                {words.showAll(onShelf().length)}
              </button>
            </p>
          </Show>
        </Show>
        <Show when={away().length > 0}>
          <details class="away">
            <summary>{words.awayList(away().length)}</summary>
            {lines(away())}
          </details>
        </Show>
      </Panel>
      <div class="shelf-side">
        <Table />
        <Panel title={words.begin}>
          <p>
            <button type="button" onClick={() => begin(starterText())}>
              {words.newProject}
            </button>{" "}
            <span class="aside">{words.newProjectHint}</span>
          </p>
          <p>
            <button type="button" onClick={() => begin(demoText)}>
              {words.demo}
            </button>{" "}
            <span class="aside">{words.demoHint}</span>
          </p>
        </Panel>
        <Panel title={words.inOut}>
          <p>
            <input
              ref={picker}
              type="file"
              accept=".zip,application/zip"
              class="picker"
              tabindex="-1"
              aria-label={words.bringIn}
              onChange={(event) => {
                const file = event.currentTarget.files?.[0];
                if (file !== undefined) void bringIn(file);
                event.currentTarget.value = "";
              }}
            />
            <button type="button" onClick={() => picker.click()}>
              {words.bringIn}
            </button>
          </p>
          <Show when={broughtIn().length > 0}>
            <ul class="brought-in" role="status">
              <For each={broughtIn()}>
                {({ title, as }) => (
                  <li>
                    {words.broughtIn}: {title} <span class="aside">{words.as[as]}</span>
                  </li>
                )}
              </For>
            </ul>
          </Show>
          <p>
            <a href={library.archiveOf()} download="">
              {words.takeOut}
            </a>
          </p>
          <Show when={found()}>
            {(known) => (
              <p class="aside where">
                {words.file} {known().file}
              </p>
            )}
          </Show>
        </Panel>
      </div>
    </PageFrame>
  );
}

/** Every word that is searched for stands in the title or in a specimen's name. */
function matching(projects: readonly ShelfLine[], search: string): readonly ShelfLine[] {
  const wanted = search.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return projects;
  return projects.filter(({ title, specimens }) => {
    const text = [title, ...specimens.flatMap(({ id, name }) => [id, name])].join(" ").toLowerCase();
    return wanted.every((word) => text.includes(word));
  });
}
