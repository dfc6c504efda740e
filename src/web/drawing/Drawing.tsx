/** The microphone to scale, section over plan: the control of the page. */
import { createMemo, createSignal, For, type JSX, onCleanup, onMount, Show } from "solid-js";
import { benchWords as words } from "../../words/en/bench.ts";
import type { Part } from "../bench/fieldList.ts";
import { placeText } from "../shell/placeText.ts";
import { problemsAt, type Work } from "../shell/work.ts";
import { PartsList } from "./PartsList.tsx";
import { Plan } from "./Plan.tsx";
import { Section } from "./Section.tsx";
import { drawingScale } from "./scales.ts";
import { shapeOf } from "./shapeOf.ts";
import { Toggles } from "./Toggles.tsx";

export function Drawing(props: { readonly bench: Work; readonly touch: (part: Part) => void }): JSX.Element {
  let place!: HTMLDivElement;
  const [width, setWidth] = createSignal(0);
  onMount(() => {
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(place);
    onCleanup(() => observer.disconnect());
  });
  const shape = createMemo(() => shapeOf(props.bench.project()));
  // The scale stands still under a hand.
  const scale = createMemo<ReturnType<typeof drawingScale> | null>(
    (before) => (props.bench.held() ? before : width() > 0 ? drawingScale(shape(), width()) : null),
    null,
  );
  return (
    <section class="panel drawing" aria-labelledby="section">
      <h2 id="section">
        {words.section}{" "}
        <span class="aside">
          {words.sectionHint(scale()?.raised ?? 1, scale()?.section.cut ?? false, shape().pressure)}
        </span>
      </h2>
      <div ref={place}>
        <Show when={scale()}>
          {(known) => (
            <>
              <Section bench={props.bench} touch={props.touch} shape={shape()} scale={known()} />
              <h3>
                {words.plan} <span class="aside">{words.planHint(shape().front !== null)}</span>
              </h3>
              <Plan bench={props.bench} touch={props.touch} shape={shape()} scale={known()} />
            </>
          )}
        </Show>
      </div>
      <Toggles bench={props.bench} touch={props.touch} />
      <PartsList bench={props.bench} touch={props.touch} />
      <Problems bench={props.bench} />
    </section>
  );
}

/** What is wrong with a part, under the drawing that shows it. */
function Problems(props: { readonly bench: Work }): JSX.Element {
  const found = () => {
    const { bench } = props;
    const drafted = Object.entries(bench.drafts()).flatMap(([, { problems }]) => problems);
    const all = [...drafted, ...bench.failure()];
    return all.filter(({ path }) => problemsAt("microphone", [{ code: "", path, message: "" }]).length > 0);
  };
  return (
    <div role="status">
      <For each={found()}>
        {({ path, message }) => (
          <p class="problem at-part">
            <b>{placeText(path)}:</b> {message}
          </p>
        )}
      </For>
    </div>
  );
}
