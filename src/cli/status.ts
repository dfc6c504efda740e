/** Exit status of the command. */
export const status = {
  done: 0,
  /** The answer is no: the brief is not met, the file has problems. */
  no: 1,
  /** Wrong use: an unknown verb, option or path, a file that is not there. */
  wrongUse: 2,
  /** Stopped by Ctrl-C: what was there by then is the answer. */
  stopped: 130,
  /** A fault of this program. */
  fault: 70,
} as const;

export type Status = (typeof status)[keyof typeof status];
