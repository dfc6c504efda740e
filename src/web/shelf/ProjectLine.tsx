/** One project of the library: when it was saved, its specimens, and its line of time where somebody looks. */
import { createSignal, For, type JSX, Show } from "solid-js";
import type { ShelfLine, StateLine } from "../../server/api.ts";
import { whenSaved, shelfWords as words } from "../../words/en/shelf.ts";
import { answered } from "../shell/answered.ts";
import { useKeeping } from "../shell/KeepingContext.ts";
import { library } from "../shell/library.ts";

export function ProjectLine(props: {
  readonly line: ShelfLine;
  /** It lies on the table. */
  readonly here: boolean;
  readonly open: (id: string, state?: number) => Promise<void>;
  readonly putAway: (id: string, away: boolean) => Promise<void>;
  readonly changed: () => unknown;
}): JSX.Element {
  const [looked, setLooked] = createSignal(false);
  const about = () =>
    [
      whenSaved(props.line.saved),
      words.states(props.line.states),
      ...(props.line.records > 0 ? [words.records(props.line.records)] : []),
    ].join(", ");
  return (
    <li class="project-line" data-project={props.line.id}>
      <div class="project-head">
        <button
          type="button"
          class="word project-title"
          aria-label={words.openThis(props.line.title)}
          onClick={() => void props.open(props.line.id)}
        >
          {props.line.title}
        </button>
        <span class="aside">{about()}</span>
        <Show when={props.here}>
          <span class="here">{words.here}</span>
        </Show>
      </div>
      <Show when={props.line.specimens.length > 0}>
        <p class="aside">
          {words.specimens}: {props.line.specimens.map(({ name }) => name).join(", ")}
        </p>
      </Show>
      <div class="project-do">
        <details onToggle={(event) => setLooked(event.currentTarget.open)}>
          <summary aria-label={`${words.lineOfTime}: ${props.line.title}`}>{words.lineOfTime}</summary>
          <Show when={looked()}>
            <LineOfTime line={props.line} open={props.open} changed={props.changed} />
          </Show>
        </details>
        <a href={library.archiveOf(props.line.id)} download="" aria-label={`${props.line.title} ${words.zip}`}>
          {words.zip}
        </a>
        <button
          type="button"
          class="word"
          aria-label={`${props.line.removed === null ? words.putAway : words.putBack}: ${props.line.title}`}
          onClick={() => void props.putAway(props.line.id, props.line.removed === null)}
        >
          {props.line.removed === null ? words.putAway : words.putBack}
        </button>
      </div>
    </li>
  );
}

function LineOfTime(props: {
  readonly line: ShelfLine;
  readonly open: (id: string, state?: number) => Promise<void>;
  readonly changed: () => unknown;
}): JSX.Element {
  const keeping = useKeeping();
  const { answer: history, again } = answered(keeping.changes, () => library.history(props.line.id));
  const known = () => {
    const answer = history();
    return answer?.ok ? answer.value : null;
  };
  async function name(number: number, text: string): Promise<void> {
    await library.name(props.line.id, number, text.trim() === "" ? null : text.trim());
    await again();
    props.changed();
  }
  return (
    <ol class="line-of-time" reversed>
      <For each={(known()?.states ?? []).map(({ number }) => number).reverse()}>
        {(number) => (
          <Show when={known()?.states.find((one) => one.number === number)}>
            {(state) => (
              <State
                state={state()}
                counts={number === known()?.head}
                name={name}
                open={() => props.open(props.line.id, number)}
              />
            )}
          </Show>
        )}
      </For>
    </ol>
  );
}

function State(props: {
  readonly state: StateLine;
  readonly counts: boolean;
  readonly name: (number: number, text: string) => Promise<void>;
  readonly open: (number: number) => Promise<void>;
}): JSX.Element {
  const [text, setText] = createSignal(props.state.name ?? "");
  return (
    <li value={props.state.number}>
      <Show when={props.state.name}>{(called) => <b>{called()} </b>}</Show>
      {props.state.says} <span class="aside">{whenSaved(props.state.saved)}</span>{" "}
      <Show
        when={props.counts}
        fallback={
          <button type="button" class="word" onClick={() => void props.open(props.state.number)}>
            {words.goOn}
          </button>
        }
      >
        <span class="here">{words.counts}</span>
      </Show>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void props.name(props.state.number, text());
        }}
      >
        <input
          type="text"
          autocomplete="off"
          maxlength="60"
          aria-label={`${words.nameIt} ${props.state.number}`}
          placeholder={words.nameIt}
          value={text()}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        <button type="submit">{words.nameDo}</button>
      </form>
    </li>
  );
}
