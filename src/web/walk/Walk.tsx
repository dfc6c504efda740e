/** The first walk: a strip over the page that leads through the demo's story and can be left at any step. */
import { createEffect, type JSX, on, Show } from "solid-js";
import { demoText, loadProject } from "../../core/index.ts";
import { walkSteps, walkWords as words } from "../../words/en/walk.ts";
import { pages } from "../pages.ts";
import { goTo } from "../shell/route.ts";
import { useWork } from "../shell/work.ts";
import { setWalkStep, walkStep } from "./walkStep.ts";

/** Steps whose page has content: the walk grows with the pages. */
const steps = walkSteps.filter(({ page }) => pages[page] !== undefined);

export function Walk(): JSX.Element {
  const work = useWork();
  const step = () => {
    const at = walkStep();
    return at === null ? undefined : steps[at];
  };
  const at = () => walkStep() ?? 0;
  createEffect(
    on(walkStep, () => {
      const present = step();
      if (present !== undefined) goTo(present.page);
    }),
  );
  const loaded = loadProject(demoText);
  const title = loaded.ok ? loaded.value.file.title : undefined;
  const elsewhere = () => work.project().file.title !== title;
  return (
    <Show when={step()}>
      {(present) => (
        <section class="walk" aria-label={words.title}>
          <p class="aside">
            {words.title}, {words.step(at() + 1, steps.length)}
            <Show when={elsewhere()}>. {words.other}</Show>
          </p>
          <p role="status">{present().says}</p>
          <p class="walk-do">
            <Show when={present().does}>
              {(does) => (
                <button
                  type="button"
                  onClick={() => work.type(does().path, does().value, { path: does().path, value: does().value }, true)}
                >
                  {does().word}
                </button>
              )}
            </Show>
            <button type="button" disabled={at() === 0} onClick={() => setWalkStep(at() - 1)}>
              {words.back}
            </button>
            <button
              type="button"
              ref={(next) => queueMicrotask(() => next.focus())}
              onClick={() => setWalkStep(at() + 1 < steps.length ? at() + 1 : null)}
            >
              {at() + 1 < steps.length ? words.next : words.end}
            </button>
            <button type="button" class="word" onClick={() => setWalkStep(null)}>
              {words.leave}
            </button>
          </p>
        </section>
      )}
    </Show>
  );
}
