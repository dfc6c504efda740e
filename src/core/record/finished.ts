/** Long work done at once, its progress unheard: in Node, in tests, in a small file. */
export function finished<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const { done, value } = work.next();
    if (done === true) return value;
  }
}
