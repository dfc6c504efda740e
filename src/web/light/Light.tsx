/** The way of the light: readout with its operating point, bias, alternatives, guides, how a guide is made, its modes. */
import { type JSX, Show } from "solid-js";
import { CareNotes } from "../shell/CareNotes.tsx";
import { PageFrame } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";
import { GuidePanel } from "./GuidePanel.tsx";
import { GuidesPanel } from "./GuidesPanel.tsx";
import { wayOf } from "./guideFields.ts";
import { OtherReadouts } from "./OtherReadouts.tsx";
import { ReadoutPanel } from "./ReadoutPanel.tsx";
import { TimePanel } from "./TimePanel.tsx";
import { WherePanel } from "./WherePanel.tsx";
import { WindowPanel } from "./WindowPanel.tsx";
import "./light.css";

export function Light(): JSX.Element {
  const work = useWork();
  const way = () => wayOf(work.project());
  return (
    <PageFrame page="light" grid="panels light-page">
      <ReadoutPanel />
      <WherePanel />
      <GuidesPanel />
      <GuidePanel />
      <Show when={way() !== "hand"}>
        <WindowPanel />
      </Show>
      <Show when={way() === "bath"}>
        <TimePanel />
      </Show>
      <OtherReadouts wide={way() === "hand" || way() === "bath"} />
      <CareNotes page="light" />
    </PageFrame>
  );
}
