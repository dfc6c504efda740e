/** The Bench: the microphone under the hand, its numbers and curves. */
import { createMemo, createSignal, type JSX, Show } from "solid-js";
import { Drawing } from "../drawing/Drawing.tsx";
import { PageFrame } from "../shell/PageFrame.tsx";
import { type Answer, useWork } from "../shell/work.ts";
import { Cards } from "./Cards.tsx";
import { Charts } from "./Charts.tsx";
import type { Part } from "./fieldList.ts";
import { Numbers } from "./Numbers.tsx";
import { Remarks } from "./Remarks.tsx";
import { Values } from "./Values.tsx";

export function Bench(): JSX.Element {
  const bench = useWork();
  const prediction = createMemo(() => bench.answer()?.prediction ?? null);
  // An exact answer that arrives when the next drag has begun is drawn after it.
  const rested = createMemo<Answer | null>((before) => (bench.held() ? before : bench.rested()), null);
  const [part, setPart] = createSignal<Part>("diaphragm");
  return (
    <PageFrame page="bench" grid="bench">
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
    </PageFrame>
  );
}
