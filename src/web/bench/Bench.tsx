/** The Bench: the microphone under the hand, its numbers and curves. */
import { createMemo, createSignal, type JSX, lazy, Show, Suspense } from "solid-js";
import { projectText, withSensitivities } from "../../core/index.ts";
import { Drawing } from "../drawing/Drawing.tsx";
import { PageFrame } from "../shell/PageFrame.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { type Answer, useWork } from "../shell/work.ts";
import { Cards } from "./Cards.tsx";
import { Charts } from "./Charts.tsx";
import type { Part } from "./fieldList.ts";
import { Numbers } from "./Numbers.tsx";
import { Remarks } from "./Remarks.tsx";
import { Values } from "./Values.tsx";

/** Comes after the first answer: nobody waits for it. */
const Motion = lazy(() => import("../motion/Motion.tsx").then(({ Motion }) => ({ default: Motion })));
const LightWay = lazy(() => import("../lightWay/LightWay.tsx").then(({ LightWay }) => ({ default: LightWay })));
const Sound = lazy(() => import("../sound/Sound.tsx").then(({ Sound }) => ({ default: Sound })));

export function Bench(): JSX.Element {
  const bench = useWork();
  const prediction = createMemo(() => bench.answer()?.prediction ?? null);
  // An exact answer that arrives when the next drag has begun is drawn after it.
  const rested = createMemo<Answer | null>((before) => (bench.held() ? before : bench.rested()), null);
  const [opened, setOpened] = createSignal(0);
  /** A card stays open or closes. */
  const turn = (open: boolean) => setOpened((count) => count + (open ? 1 : -1));
  // It takes seconds: asked for only while somebody reads a card.
  const depends = taskAnswer("sensitivities", () => (opened() > 0 ? { text: projectText(bench.project()) } : null));
  const cards = createMemo(() => {
    const known = rested()?.prediction.cards ?? prediction()?.cards ?? {};
    const found = depends.state() === "current" ? depends.value() : null;
    return found === null ? known : withSensitivities(known, found);
  });
  const [part, setPart] = createSignal<Part>("diaphragm");
  return (
    <PageFrame page="bench" grid="bench">
      <div class="hand">
        <Drawing bench={bench} touch={setPart} />
        <Values bench={bench} part={part()} choose={setPart} />
      </div>
      <div class="answers">
        <Show when={prediction()}>
          {(known) => <Numbers prediction={known()} cards={cards()} depends={depends} onTurn={turn} />}
        </Show>
        <Show when={rested()}>{(answer) => <Charts bench={bench} rested={answer()} />}</Show>
        <Show when={rested()}>
          <Suspense>
            <LightWay touch={setPart} />
            <Motion />
            <Sound />
          </Suspense>
        </Show>
      </div>
      <Show when={rested()}>
        {(answer) => (
          <div class="notes">
            <Remarks prediction={answer().prediction} />
            <Cards cards={cards()} depends={depends} onTurn={turn} />
          </div>
        )}
      </Show>
    </PageFrame>
  );
}
