/** Where the walk is; null: nobody walks. */
import { createSignal } from "solid-js";

export const [walkStep, setWalkStep] = createSignal<number | null>(null);
