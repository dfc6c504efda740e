/** How far long work is, on standard error: one line that is written over where a person watches, nothing otherwise. */
export function createProgress(what: string): {
  readonly show: (done: number, of: number) => void;
  readonly end: () => void;
} {
  const watched = process.stderr.isTTY === true;
  let shown = -1;
  return {
    show(done, of) {
      const percent = Math.floor((100 * done) / Math.max(1, of));
      if (!watched || percent === shown) return;
      shown = percent;
      process.stderr.write(`\r${what} ${percent} %`);
    },
    end() {
      if (watched && shown >= 0) process.stderr.write("\r\u001b[K");
    },
  };
}

/** Calls back at the first Ctrl-C; the second one ends the program as usual. */
export function onInterrupt(stop: () => void): () => void {
  process.once("SIGINT", stop);
  return () => process.off("SIGINT", stop);
}
