/** The faintest and the loudest sound, what breaks the diaphragm, what the site changes, and which limits were compared. */
import { type JSX, Show } from "solid-js";
import { projectText } from "../../core/index.ts";
import { limitsWords as words } from "../../words/en/limitsPage.ts";
import { PageFrame } from "../shell/PageFrame.tsx";
import { TaskState } from "../shell/TaskState.tsx";
import { taskAnswer } from "../shell/taskAnswer.ts";
import { useWork } from "../shell/work.ts";
import { LoudestPanel } from "./LoudestPanel.tsx";
import { NoisePanel } from "./NoisePanel.tsx";
import { PrecautionsPanel } from "./PrecautionsPanel.tsx";
import { RangePanel } from "./RangePanel.tsx";
import { RecoveryPanel } from "./RecoveryPanel.tsx";
import { SitePanel } from "./SitePanel.tsx";
import { StrengthPanel } from "./StrengthPanel.tsx";
import "./limits.css";

export function Limits(): JSX.Element {
  const work = useWork();
  const answer = taskAnswer("limits", () => ({ text: projectText(work.project()) }));
  return (
    <PageFrame page="limits" grid="panels limits">
      <TaskState answer={answer} what={words.what} />
      <Show when={answer.value()}>
        {(limits) => (
          <>
            <RangePanel limits={limits()} />
            <NoisePanel limits={limits()} />
            <LoudestPanel limits={limits()} />
            <SitePanel limits={limits()} />
            <StrengthPanel limits={limits()} />
            <Show when={limits().recovery}>{(recovery) => <RecoveryPanel recovery={recovery()} />}</Show>
            <PrecautionsPanel limits={limits()} />
          </>
        )}
      </Show>
    </PageFrame>
  );
}
