/** Paper-white or night-dark: the user's setting, kept by the browser. */
import { createSignal } from "solid-js";

export const papers = ["system", "light", "dark"] as const;
export type Paper = (typeof papers)[number];

const key = "glassdrum.paper";

export const isPaper = (text: string | null): text is Paper => papers.some((one) => one === text);

const kept = localStorage.getItem(key);
const [paper, setPaper] = createSignal<Paper>(isPaper(kept) ? kept : "system");

export { paper };

/** Sets the page to the kept setting; called once, before anything is shown. */
export function dressPage(): void {
  document.documentElement.dataset["paper"] = paper();
}

export function keepPaper(wanted: Paper): void {
  setPaper(wanted);
  localStorage.setItem(key, wanted);
  dressPage();
}
