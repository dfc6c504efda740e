/** What of a microphone's numbers can be drawn as a line. */
import type { Measures } from "../predict/judge.ts";

/** What hardly turns before it has died is a pair about to meet on the axis, or one that has (mainResonance.ts). */
const turning = 0.9999;

/** An overdamped one has no damping ratio to draw, and no resonance: the rates of its creeping jump from pair to pair. */
export const drawn = (measures: Measures): Measures =>
  measures.damping === null || measures.damping > turning ? { ...measures, resonance: null, damping: null } : measures;
