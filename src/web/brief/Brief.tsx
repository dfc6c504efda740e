/** The Brief: what is asked, where the microphone will stand, and what that place demands. */
import type { JSX } from "solid-js";
import { briefWords as words } from "../../words/en/brief.ts";
import { Choose } from "../choose/Choose.tsx";
import { Field } from "../shell/Field.tsx";
import { PageFrame, Panel } from "../shell/PageFrame.tsx";
import { useWork } from "../shell/work.ts";
import { Precautions } from "./Precautions.tsx";
import { Requirements } from "./Requirements.tsx";
import { Site } from "./Site.tsx";
import "./brief.css";

export function Brief(): JSX.Element {
  const work = useWork();
  return (
    <PageFrame page="brief" grid="brief">
      <Requirements />
      <Choose />
      <div class="brief-more">
        <Site />
        <Precautions />
        <Panel title={words.project}>
          <Field
            bench={work}
            spec={{ path: "title", label: words.title, wide: true, empty: { path: "title", value: null } }}
          />
          <Field
            bench={work}
            spec={{ path: "notes", label: words.notes, wide: true, empty: { path: "notes", value: null } }}
          />
        </Panel>
      </div>
    </PageFrame>
  );
}
