/** Words that lead from page to page, and the open page itself, loaded when it is first wanted. */
import { createEffect, createMemo, ErrorBoundary, For, type JSX, lazy, on, Show, Suspense } from "solid-js";
import { Dynamic } from "solid-js/web";
import { pageKeys, pageWords } from "../../words/en/pages.ts";
import { shellWords as words } from "../../words/en/shell.ts";
import { pages } from "../pages.ts";
import { walkStep } from "../walk/walkStep.ts";
import { expectPage } from "./chartAhead.ts";
import { Later } from "./Later.tsx";
import { openPage, pageAddress } from "./route.ts";

const loaded = new Map(
  pageKeys.map((key) => {
    const load = pages[key];
    return [key, load === undefined ? undefined : lazy(load)] as const;
  }),
);

export function PageWords(): JSX.Element {
  return (
    <nav class="page-words" aria-label={words.pages}>
      <ul>
        <For each={pageKeys}>
          {(key) => (
            <li>
              <a
                href={pageAddress(key)}
                aria-current={openPage() === key ? "page" : undefined}
                onPointerEnter={() => expectPage(key)}
                onFocus={() => expectPage(key)}
              >
                {pageWords[key].name}
              </a>
            </li>
          )}
        </For>
      </ul>
    </nav>
  );
}

export function OpenPage(): JSX.Element {
  // A page that is left by its word is read from its title on.
  createEffect(
    on(
      openPage,
      () => {
        window.scrollTo(0, 0);
        // Who walks stays with the words of the walk.
        if (walkStep() === null) document.getElementById("page-title")?.focus({ preventScroll: true });
      },
      { defer: true },
    ),
  );
  const content = createMemo(() => loaded.get(openPage()));
  return (
    <ErrorBoundary
      fallback={(fault: unknown, again) => (
        <div class="fault">
          <p>{words.pageFault(pageWords[openPage()].name)}</p>
          <p class="aside">{fault instanceof Error ? fault.message : String(fault)}</p>
          <button type="button" onClick={again}>
            {words.again}
          </button>
        </div>
      )}
    >
      <Suspense fallback={<p class="state">{words.loading(pageWords[openPage()].name)}</p>}>
        <Show when={content()} fallback={<Later page={openPage()} />}>
          {(component) => <Dynamic component={component()} />}
        </Show>
      </Suspense>
    </ErrorBoundary>
  );
}
