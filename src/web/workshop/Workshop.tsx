/** What the workshop must be careful about; drawings, mask and process sheet come to this page. */
import type { JSX } from "solid-js";
import { pageWords } from "../../words/en/pages.ts";
import { shellWords } from "../../words/en/shell.ts";
import { CareNotes } from "../shell/CareNotes.tsx";
import { PageFrame } from "../shell/PageFrame.tsx";

export function Workshop(): JSX.Element {
  return (
    <PageFrame page="workshop">
      <p class="later">
        {shellWords.notYet} {pageWords.workshop.later}
      </p>
      <CareNotes page="workshop" />
    </PageFrame>
  );
}
