/** Whether the work is kept: a word in the head of the page, and a panel where it needs a hand. */
import { type JSX, Match, Show, Switch } from "solid-js";
import { clock, shelfWords as words } from "../../words/en/shelf.ts";
import { useKeeping } from "./KeepingContext.ts";
import { ProblemList } from "./ProblemList.tsx";

export function KeepingWord(): JSX.Element {
  const keeping = useKeeping();
  return (
    <span class="aside keeping-word" role="status" data-keeping={keeping.state()}>
      <Switch>
        <Match when={keeping.state() === "keeping"}>{words.keeping}</Match>
        <Match when={keeping.state() === "failed" || keeping.state() === "conflict"}>{words.notKept}</Match>
        <Match when={keeping.state() === "kept"}>
          {keeping.at() === null ? words.inLibrary : words.keptAt(clock(keeping.at() ?? 0))}
        </Match>
      </Switch>
    </span>
  );
}

export function KeepingPanels(): JSX.Element {
  const keeping = useKeeping();
  return (
    <>
      <Show when={keeping.conflict()}>
        {(both) => (
          <section class="panel wrong conflict" role="alert">
            <h2>{words.conflictTitle}</h2>
            <p>{words.conflictSays(both().mine, both().theirs)}</p>
            <p>
              <button type="button" onClick={() => void keeping.choose("mine")}>
                {words.takeMine}
              </button>{" "}
              <button type="button" onClick={() => void keeping.choose("theirs")}>
                {words.takeTheirs}
              </button>
            </p>
          </section>
        )}
      </Show>
      <Show when={keeping.state() === "failed"}>
        <ProblemList title={words.notKeptTitle} problems={keeping.problems()}>
          <span class="aside">{words.notKeptHint}</span>{" "}
          <button type="button" class="word" onClick={() => void keeping.keep()}>
            {words.again}
          </button>
        </ProblemList>
      </Show>
    </>
  );
}
