/** The first walk: the demo's own story, step by step. */
import type { PageKey } from "./pages.ts";

export interface WalkStep {
  readonly page: PageKey;
  readonly says: string;
  /** What the walk can do for who walks: a value typed as a step of the history. */
  readonly does?: { readonly word: string; readonly path: string; readonly value: string };
}

export const walkWords = {
  title: "A walk through the demo",
  step: (number: number, of: number) => `step ${number} of ${of}`,
  back: "back",
  next: "next",
  leave: "leave the walk",
  end: "end",
  other: "The walk tells the demo's story; another project lies on the table, so its numbers will differ.",
} as const;

export const walkSteps: readonly WalkStep[] = [
  {
    page: "brief",
    says: "Someone wants to listen beside a pulsed magnet, where no metal may go. The Brief says what is asked: level from 50 Hz to 7 kHz, loud sounds, little noise, and what the place demands of people.",
  },
  {
    page: "bench",
    says: "The Bench has a first design. The line above says what it misses: the band ends a little below 7 kHz. Everything drawn here can be dragged, or typed; look for the rings and the tinted values.",
  },
  {
    page: "bench",
    says: "The air film damps the diaphragm. Give it a little more room: from 38 µm to 40 µm the response stays up longer, and the cross in the line above becomes a check.",
    does: { word: "set the gap to 40 µm", path: "microphone.film.gap", value: "40 um" },
  },
  {
    page: "bench",
    says: "Too much of a good thing: at 44 µm the response rises beyond 2 dB before it falls, so the band ends early. Undo takes you back, one step at a time; nothing is lost.",
    does: { word: "try 44 µm", path: "microphone.film.gap", value: "44 um" },
  },
  {
    page: "bench",
    says: "Further down you can see the diaphragm move and hear what it does to a clap. Any number opens its card: formula, inputs, source.",
    does: { word: "back to 40 µm", path: "microphone.film.gap", value: "40 um" },
  },
  {
    page: "chart",
    says: "The Chart shows the plane of two values at once: where every requirement is met, and where you stand in it.",
  },
  {
    page: "light",
    says: "On Light the phase becomes a voltage: how far it may turn before that is no longer straight.",
  },
  { page: "limits", says: "Limits tells the faintest and the loudest sound, and which part sets each of them." },
  {
    page: "spread",
    says: "The workshop never delivers 40 µm. Spread says what its tolerances do to the design, and which of them matters.",
  },
  { page: "workshop", says: "What is built gets its drawings, mask and process sheet from here, with the cautions." },
  {
    page: "records",
    says: "A made specimen is measured; Records reads ring-downs and responses, with their uncertainty.",
  },
  {
    page: "learn",
    says: "Where theory and measurement differ, Learn says what can be told apart and what to measure next.",
  },
  { page: "report", says: "And the report carries it to others." },
  {
    page: "shelf",
    says: "Every change was kept on the Shelf by itself, with its line of time. Begin a project of your own there. Keys shows what the keyboard does; Words explains the trade's terms.",
  },
];
