/** What the same tolerances would do to kept designs. */
import { For, type JSX, Show } from "solid-js";
import { spreadWords as words } from "../../words/en/spreadPage.ts";
import { type Laid, laidDesigns } from "../kept/laid.ts";
import { Panel } from "../shell/PageFrame.tsx";
import { partText } from "../shell/partText.ts";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { spreadParts } from "./parts.ts";
import { percent } from "./share.ts";
import { Bar } from "./YieldPanel.tsx";

/** More would make the present design's own run wait. */
const most = 1000;

export function KeptYields(props: {
  readonly own: { readonly value: number; readonly low: number; readonly high: number };
  readonly count: number;
  readonly seed: number;
  /** Nothing is asked while the present design is computed. */
  readonly ready: boolean;
}): JSX.Element {
  const work = useWork();
  return (
    <Show when={laidDesigns(work).length > 0}>
      <Panel title={words.kept} aside={words.keptAside}>
        <ul class="spread-bars">
          <li>
            <span class="what">{words.now}</span>
            <Bar share={props.own.value} />
            <span>{percent(props.own.value)}</span>
          </li>
          <For each={laidDesigns(work)}>
            {(laid) => (
              <KeptYield laid={laid} count={Math.min(props.count, most)} seed={props.seed} ready={props.ready} />
            )}
          </For>
        </ul>
      </Panel>
    </Show>
  );
}

function KeptYield(props: {
  readonly laid: Laid;
  readonly count: number;
  readonly seed: number;
  readonly ready: boolean;
}): JSX.Element {
  const answer = taskAnswer(
    "yieldOf",
    () =>
      props.ready ? { text: partText(props.laid.project, spreadParts), count: props.count, seed: props.seed } : null,
    `yield-${props.laid.name}`,
  );
  return (
    <li data-kept-yield={props.laid.name} data-state={answer.state()}>
      <span>{props.laid.name}</span>
      <Bar share={answer.value()?.value ?? 0} />
      <span>
        {answer.value() === null
          ? answer.state() === "refused"
            ? words.noPrice
            : "…"
          : percent(answer.value()!.value)}
      </span>
    </li>
  );
}
