/** Sampling where no column holds the time: from the head of a file or the recipe. */
import { readQuantity } from "../quantity/read.ts";
import type { TimeBase } from "./timeBase.ts";

const number = "([+-]?\\d[\\d.,]*(?:[eE][+-]?\\d+)?)";
const rate = new RegExp(
  `(?:sampl\\w*[ _]?(?:rate|freq\\w*)|\\bfs\\b|\\brate\\b|abtastrate)[^\\d+-]{0,12}${number}\\s*([kM]?(?:Hz|S/s|Sa/s))?`,
  "i",
);
const interval = new RegExp(
  `(?:sampl\\w*[ _]?(?:interval|period|time)|\\binterval\\b|\\bincrement\\b|\\bdt\\b|\\bx ?incr\\w*|time[ _]?step|delta[ _]?t|h(?:orizontal)?[ _](?:interval|resolution))[^\\d+-]{0,12}${number}\\s*[,;\\t ]*([num]?s)?\\b`,
  "i",
);

/** "96 kHz" from a line of the head; null where none says it. */
export function samplingInHead(head: readonly string[]): string | null {
  for (const line of head) {
    const asRate = rate.exec(line);
    if (asRate !== null)
      return `${plain(asRate[1]!)} ${(asRate[2] ?? "Hz").replace(/Sa?\/s/i, "Hz").replace(/hz/i, "Hz")}`;
    const asInterval = interval.exec(line);
    if (asInterval === null) continue;
    const factor = { s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9 }[asInterval[2] ?? "s"] ?? 1;
    const step = Number(plain(asInterval[1]!)) * factor;
    if (step > 0) return `${Number((1 / step).toPrecision(12))} Hz`;
  }
  return null;
}

const plain = (text: string) => text.replace(/[,;]$/, "").replace(",", ".");

/** The time base of "96 kHz"; null where there is none or it can't be read. */
export function samplingOf(text: string | null | undefined): TimeBase | null {
  if (text === null || text === undefined) return null;
  const read = readQuantity(text, "frequency", ["sampling"]);
  if (!read.ok || !(read.value > 0)) return null;
  return { start: 0, step: 1 / read.value, sampling: read.value, jitter: 0, gaps: [], rounded: false, spacing: 0 };
}
