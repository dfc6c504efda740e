/** What every page looks like: its title, one sentence about it, then panels. */
import { createUniqueId, type JSX, Show } from "solid-js";
import { type PageKey, pageWords } from "../../words/en/pages.ts";

export function PageFrame(props: {
  readonly page: PageKey;
  /** In place of the page's own grid: "bench". */
  readonly grid?: string;
  readonly children: JSX.Element;
}): JSX.Element {
  return (
    <article class="page" aria-labelledby="page-title">
      <header class="page-head">
        <h2 id="page-title" class="page-title" tabindex="-1">
          {pageWords[props.page].name}
        </h2>
        <p class="aside">{pageWords[props.page].purpose}</p>
      </header>
      <div class={props.grid ?? "panels"}>{props.children}</div>
    </article>
  );
}

/** A card with a hairline around it. `wide`: over the whole page. */
export function Panel(props: {
  readonly title: string;
  readonly aside?: string | undefined;
  readonly class?: string;
  readonly wide?: boolean;
  readonly children: JSX.Element;
}): JSX.Element {
  const id = createUniqueId();
  return (
    <section
      class={`panel ${props.class ?? ""}`}
      classList={{ wide: props.wide === true }}
      aria-labelledby={`${id}-title`}
    >
      <h3 id={`${id}-title`}>
        {props.title}
        <Show when={props.aside}>{(text) => <span class="aside">{text()}</span>}</Show>
      </h3>
      {props.children}
    </section>
  );
}
