/** A page whose content has not come yet says so in one sentence. */
import type { JSX } from "solid-js";
import { type PageKey, pageWords } from "../../words/en/pages.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import { PageFrame } from "./PageFrame.tsx";

export function Later(props: { readonly page: PageKey }): JSX.Element {
  return (
    <PageFrame page={props.page}>
      <p class="later">
        {words.notYet} {pageWords[props.page].later}
      </p>
    </PageFrame>
  );
}
