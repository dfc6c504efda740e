/** The project on the table: whether the library has it, and a way to put it there. */
import { type JSX, Show } from "solid-js";
import { benchWords } from "../../words/en/bench.ts";
import { clock, shelfWords as words } from "../../words/en/shelf.ts";
import { useKeeping } from "../shell/KeepingContext.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";

export function Table(): JSX.Element {
  const work = useWork();
  const keeping = useKeeping();
  return (
    <Panel title={words.onTable}>
      <p>
        <b>{work.project().file.title ?? benchWords.untitled}</b>
      </p>
      <Show
        when={keeping.id() === null}
        fallback={
          <p class="aside">{keeping.at() === null ? words.inLibrary : words.keptAt(clock(keeping.at() ?? 0))}</p>
        }
      >
        <p class="aside">{words.notYet}</p>
        <p>
          <button type="button" onClick={() => void keeping.keep()}>
            {words.keepNow}
          </button>
        </p>
      </Show>
      <Show when={keeping.file()}>
        {(name) => (
          <p>
            <button type="button" onClick={() => void keeping.writeFile()}>
              {words.writeFile(name())}
            </button>{" "}
            <span class="aside">{words.writeFileHint}</span>
          </p>
        )}
      </Show>
    </Panel>
  );
}
