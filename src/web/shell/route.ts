/** Which page is open: the part of the address behind #, "#bench" or "#workshop/mask". */
import { createMemo, createRoot, createSignal } from "solid-js";
import { type PageKey, pageKeys } from "../../words/en/pages.ts";

const firstPage: PageKey = "bench";

const [hash, setHash] = createSignal(location.hash);
window.addEventListener("hashchange", () => setHash(location.hash));

const steps = (): readonly string[] => hash().replace(/^#/, "").split("/").map(decode);

const isPage = (text: string | undefined): text is PageKey => pageKeys.some((key) => key === text);

/** The open page; an address that names none leads to the Bench. */
export const openPage = createRoot(() =>
  createMemo<PageKey>(() => {
    const [first] = steps();
    return isPage(first) ? first : firstPage;
  }),
);

export const pageAddress = (page: PageKey, ...place: readonly string[]): string =>
  `#${[page, ...place.map(encodeURIComponent)].join("/")}`;

/** Leads to a page, as a click on its word does. */
export function goTo(page: PageKey, ...place: readonly string[]): void {
  location.hash = pageAddress(page, ...place);
}

function decode(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
