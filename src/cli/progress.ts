/** Between two lines where nobody watches [ms]: a short run says nothing. */
const between = 10_000;

/** How far long work is, on standard error: one line that is written over where a person watches, else a line now and then. */
export function createProgress(what: string): {
  readonly show: (done: number, of: number) => void;
  readonly end: () => void;
} {
  const watched = process.stderr.isTTY === true;
  let shown = -1;
  let said = performance.now();
  return {
    show(done, of) {
      const percent = Math.floor((100 * done) / Math.max(1, of));
      if (percent === shown || (!watched && performance.now() - said < between)) return;
      shown = percent;
      said = performance.now();
      process.stderr.write(watched ? `\r${what} ${percent} %` : `${what} ${percent} %\n`);
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
