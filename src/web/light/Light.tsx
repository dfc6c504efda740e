/** The way of the light: readout with its operating point, drift, guide with process and modes, window of one mode. */
import type { JSX } from "solid-js";
import { PageFrame } from "../shell/PageFrame.tsx";
import { GuidePanel } from "./GuidePanel.tsx";
import { ReadoutPanel } from "./ReadoutPanel.tsx";
import "./light.css";

export function Light(): JSX.Element {
  return (
    <PageFrame page="light" grid="panels light-page">
      <ReadoutPanel />
      <GuidePanel />
    </PageFrame>
  );
}
