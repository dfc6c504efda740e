/** How far a long piece of work is. A generator yields it; who drives it may stop by not asking for more. */
export interface Progress {
  readonly done: number;
  readonly of: number;
}

/** Runs a generator to its end and gives what it returns. */
export function drain<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}
