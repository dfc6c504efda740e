/** Records: drop a file, see how it was read, fit it, and know how sure the values are. */
import { createEffect, For, type JSX, on, onCleanup, Show, untrack } from "solid-js";
import { projectText } from "../../core/index.ts";
import { recordsWords as words } from "../../words/en/records.ts";
import { CareNotes } from "../shell/CareNotes.tsx";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { ProblemList } from "../shell/ProblemList.tsx";
import { useWork } from "../shell/work.ts";
import { Budget } from "./Budget.tsx";
import { FitPanel } from "./FitPanel.tsx";
import { IntoSpecimen } from "./IntoSpecimen.tsx";
import { Overlay } from "./Overlay.tsx";
import { Picture, ResponsePicture } from "./Pictures.tsx";
import { simulatedFile } from "./simulated.ts";
import { besideFiles, chosen, chosenId, lay, records, setChosenId, setState, stateOf, takeAway } from "./table.ts";
import { UnderstoodPanel } from "./UnderstoodPanel.tsx";
import "./records.css";

export function Records(): JSX.Element {
  const work = useWork();
  createEffect(
    on(chosen, async (record) => {
      if (record === undefined) return work.worker.stop("record");
      const { id, name, file, recipe, options, excitation } = record;
      setState(id, { is: "reading", share: 0 });
      const text = projectText(work.project());
      const input = { name, file, recipe, options, text, excitation, beside: untrack(() => besideFiles(record)) };
      const reply = await work.worker.ask("record", "record", input, {
        urgency: "refine",
        onStep: ({ done, of }) => setState(id, { is: "reading", share: done / of }),
      });
      if (chosen() !== record) return;
      if (reply.kind === "answer") setState(id, { is: "done", answer: reply.value, remarks: reply.remarks });
      if (reply.kind === "refused") setState(id, { is: "refused", problems: reply.problems });
    }),
  );
  onCleanup(() => work.worker.stop("record"));
  const state = () => stateOf(chosenId());
  const answer = () => {
    const now = state();
    return now?.is === "done" ? now.answer : null;
  };
  return (
    <PageFrame page="records" grid="records">
      <div class="records-side">
        <Bring />
        <Show when={chosen() && answer()}>
          {(shown) => <UnderstoodPanel record={chosen()!} understood={shown().understood} />}
        </Show>
      </div>
      <div class="records-main" data-record={state()?.is ?? "none"}>
        <Show when={refusal(state())}>{(problems) => <ProblemList title={words.refused} problems={problems()} />}</Show>
        <Show when={chosen() && answer()}>
          {(shown) => (
            <>
              <FitPanel record={chosen()!} answer={shown()} />
              <Show when={shown().picture}>
                {(picture) => <Picture record={chosen()!} kind={shown().understood.fitKind} picture={picture()} />}
              </Show>
              <Show when={shown().response}>
                {(response) => <ResponsePicture record={chosen()!} response={response()} />}
              </Show>
              <Show when={shown().fit}>
                {(found) => (
                  <>
                    <Budget record={chosen()!} fit={found()} />
                    <IntoSpecimen record={chosen()!} answer={shown()} />
                  </>
                )}
              </Show>
            </>
          )}
        </Show>
        <Overlay />
        <CareNotes page="records" />
      </div>
    </PageFrame>
  );
}

const refusal = (state: ReturnType<typeof stateOf>) => (state?.is === "refused" ? state.problems : null);

function Bring(): JSX.Element {
  const work = useWork();
  const take = (files: FileList | null | undefined) => {
    for (const file of files ?? []) lay(file.name, file, work.project());
  };
  let seeds = 0;
  function simulate(): void {
    const prediction = work.rested()?.prediction;
    seeds += 1;
    const file = prediction === undefined ? null : simulatedFile(prediction, seeds);
    if (file !== null) lay(`simulated ${seeds}.csv`, file);
  }
  return (
    <Panel title={words.bring} aside={words.bringHint}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button inside is the first */}
      <div
        class="drop"
        onDragOver={(event) => event.preventDefault()}
        onDrop={(event) => {
          event.preventDefault();
          take(event.dataTransfer?.files);
        }}
      >
        <p>{words.drop}</p>
        <label class="file">
          {words.choose}
          <input
            type="file"
            multiple
            onChange={(event) => {
              take(event.currentTarget.files);
              event.currentTarget.value = "";
            }}
          />
        </label>
        <button type="button" onClick={simulate} disabled={work.rested() === null}>
          {words.simulate}
        </button>
      </div>
      <p class="aside">{words.simulateHint}</p>
      <p class="aside">{words.stays}</p>
      <Show when={records().length > 0}>
        <h4>{words.loaded}</h4>
        <ul class="laid">
          <For each={records()}>
            {({ id, name }) => (
              <li>
                <button type="button" class="word" aria-pressed={id === chosenId()} onClick={() => setChosenId(id)}>
                  {name}
                </button>
                <span class="aside" role="status">
                  {progress(id)}
                </span>
                <button type="button" class="word" aria-label={`${words.remove}: ${name}`} onClick={() => takeAway(id)}>
                  {words.remove}
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </Panel>
  );
}

function progress(id: number): string {
  const state = stateOf(id);
  // A file that another one took the place of waits until it is chosen again.
  if (id !== chosenId() || state?.is !== "reading") return "";
  return state.share < 1 ? words.reading(state.share) : words.fitting;
}
