/** What a timed task is. One file a task; `tasks.ts` lists them. */

/** Something done in this process, over and over. */
export interface Repeated {
  readonly kind: "repeated";
  readonly name: string;
  /** What was asked of it: "0.5 ms". */
  readonly asked?: string;
  /** Made before anything is timed; `i` counts repetitions, so that each can differ from all before. */
  readonly make: () => (i: number) => void;
}

/** A process of its own, timed from start to end against another one, in turns. */
export interface Process {
  readonly kind: "process";
  readonly name: string;
  readonly asked?: string;
  /** Arguments of node. */
  readonly args: readonly string[];
  /** The process that it is compared with, and what that is called. */
  readonly against: { readonly name: string; readonly args: readonly string[] };
  readonly repetitions: number;
  /** Exit statuses that count as done. */
  readonly statuses: readonly number[];
}

export type Task = Repeated | Process;

/** Times [s], in order of measurement, and the same over those of the kernel measured next to them [-]. */
export interface Timed {
  readonly name: string;
  readonly asked?: string;
  readonly seconds: readonly number[];
  readonly overKernel: readonly number[];
  /** What else was measured, in words. */
  readonly notes: readonly string[];
}
