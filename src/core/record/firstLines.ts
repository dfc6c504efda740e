/** The first lines of a text, by which its layout is told. */
import { textBetween } from "./encoding.ts";

/** As much as is looked at. */
const sampleBytes = 65536;
const sampleLines = 400;

export interface Line {
  /** Its first byte. */
  readonly from: number;
  /** Without its end. */
  readonly text: string;
}

/** The lines from byte `start` on, at most 400 in 64 kB. */
export function firstLines(bytes: Uint8Array, start: number): readonly Line[] {
  const lines: Line[] = [];
  const end = Math.min(bytes.length, start + sampleBytes);
  let from = start;
  let at = start;
  while (at < end && lines.length < sampleLines) {
    if (bytes[at] === 10 || bytes[at] === 13) {
      lines.push({ from, text: textBetween(bytes, from, at) });
      if (bytes[at] === 13 && bytes[at + 1] === 10) at += 1;
      from = at + 1;
    }
    at += 1;
  }
  // A last line that goes on beyond the sample counts only where it is all there is.
  if (from < end && (end === bytes.length || lines.length === 0) && lines.length < sampleLines) {
    let last = end;
    const far = Math.min(bytes.length, from + (1 << 22));
    while (last < far && bytes[last] !== 10 && bytes[last] !== 13) last += 1;
    lines.push({ from, text: textBetween(bytes, from, last) });
  }
  return lines;
}
