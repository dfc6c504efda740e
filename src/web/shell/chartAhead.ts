/**
 * The Chart's first pictures are made before its page is opened: when a pointer or the keyboard comes to its word, and else when
 * nobody has done anything for a while. A hand that takes hold of something ends that at once.
 */
import { createEffect, on, onCleanup, onMount } from "solid-js";
import { pages } from "../pages.ts";
import { openPage } from "./route.ts";
import type { Work } from "./work.ts";

/** How long nothing must have happened [ms]. */
const quiet = 4000;

/** Words of pages that somebody is about to open are seen here. */
const listeners = new Set<(page: string) => void>();
export function expectPage(page: string): void {
  for (const heard of listeners) heard(page);
}

export function chartAhead(work: Work): void {
  /** Text of the project that it was begun for. */
  let begun: string | null = null;
  let leave = () => {};
  let waiting = 0;
  async function begin(): Promise<void> {
    const project = work.still();
    if (project === null || work.held() || openPage() === "chart" || begun === project.text) return;
    begun = project.text;
    const [{ beginPlane, leavePlane }] = await Promise.all([import("../chart/question.ts"), pages.chart?.()]);
    leave = () => leavePlane(work);
    if (begun === project.text && !work.held() && openPage() !== "chart") beginPlane(work);
  }
  function end(): void {
    if (begun === null) return;
    begun = null;
    if (openPage() !== "chart") leave();
  }
  function wait(): void {
    window.clearTimeout(waiting);
    if (document.visibilityState === "visible") waiting = window.setTimeout(() => void begin(), quiet);
  }
  const happenings = ["pointermove", "pointerdown", "keydown", "wheel", "visibilitychange"] as const;
  const expected = (page: string) => {
    if (page === "chart") void begin();
  };
  onMount(() => {
    for (const name of happenings) document.addEventListener(name, wait, { passive: true });
    listeners.add(expected);
  });
  onCleanup(() => {
    window.clearTimeout(waiting);
    for (const name of happenings) document.removeEventListener(name, wait);
    listeners.delete(expected);
  });
  createEffect(on(work.still, wait));
  createEffect(on(work.held, (held) => held && end()));
}
