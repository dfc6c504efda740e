/** Reads the numbers of a table where they lie in the bytes: a hundred megabytes in a few seconds, with its progress. */
import { tenTo } from "../numerics/power.ts";
import { isMissing } from "./cells.ts";
import { textBetween } from "./encoding.ts";
import type { Layout } from "./layout.ts";

export interface Progress {
  readonly done: number;
  readonly of: number;
}

/** A cell that is no number: where, and what stands there. */
export interface OddCell {
  /** From 1, as an editor counts. */
  readonly line: number;
  readonly column: number;
  readonly text: string;
}

export interface TableRows {
  /** One list a column that was asked for; a missing cell is NaN. */
  readonly columns: readonly Float64Array[];
  readonly rows: number;
  /** Line of each row, from 1. */
  readonly lines: Int32Array;
  /** Cells without a number, by column asked for. */
  readonly missing: readonly number[];
  /** The first cells that are neither number nor missing, and how many there are. */
  readonly odd: readonly OddCell[];
  readonly oddCount: number;
  /** Rows with more or fewer cells than the table has; lines of the first ones. */
  readonly ragged: readonly number[];
  readonly raggedCount: number;
  /** The last line has fewer cells and no end of line: the file was cut. */
  readonly cut: boolean;
}

const powers = Float64Array.from({ length: 23 }, (_, i) => tenTo(i));
const progressBytes = 1 << 20;
const listed = 20;

/** Rows from byte `from`, which lies at the start of line `firstLine` (from 1). `wanted`: columns that are kept. */
export function* tableRows(
  bytes: Uint8Array,
  from: number,
  firstLine: number,
  layout: Layout,
  wanted: readonly number[],
): Generator<Progress, TableRows> {
  const { separator, columns: width } = layout;
  const mark = separator === "tab" ? 9 : separator === "space" ? -1 : separator.charCodeAt(0);
  const decimal = layout.decimal.charCodeAt(0);
  const group = layout.group === "" ? -1 : layout.group.charCodeAt(0);
  const place = new Int32Array(width).fill(-1);
  wanted.forEach((column, i) => {
    if (column < width) place[column] = i;
  });
  let room = roomFor(bytes, from, width);
  const lists = wanted.map(() => new Float64Array(room));
  let lines = new Int32Array(room);
  const missing = wanted.map(() => 0);
  const odd: OddCell[] = [];
  const ragged: number[] = [];
  let [oddCount, raggedCount, rows, line, at] = [0, 0, 0, firstLine, from];
  let cut = false;
  let nextProgress = from + progressBytes;
  const end = bytes.length;
  const isEnd = (byte: number) => byte === 10 || byte === 13;

  /** Value of the number at `at`, which moves behind it; NaN where there is none, and `at` stays. */
  function number(): number {
    const begin = at;
    let negative = false;
    if (bytes[at] === 45) {
      negative = true;
      at += 1;
    } else if (bytes[at] === 43) at += 1;
    let mantissa = 0;
    let digits = 0;
    let exponent = 0;
    let any = false;
    let grouped = false;
    for (;;) {
      const byte = bytes[at]!;
      if (byte >= 48 && byte <= 57) {
        any = true;
        if (digits < 15) {
          mantissa = mantissa * 10 + (byte - 48);
          if (mantissa > 0) digits += 1;
        } else {
          digits += 1;
          exponent += 1;
        }
        at += 1;
      } else if (byte === group && any && bytes[at + 1]! >= 48 && bytes[at + 1]! <= 57) {
        grouped = true;
        at += 1;
      } else break;
    }
    if (bytes[at] === decimal) {
      at += 1;
      for (;;) {
        const byte = bytes[at]!;
        if (!(byte >= 48 && byte <= 57)) break;
        any = true;
        if (digits < 15) {
          mantissa = mantissa * 10 + (byte - 48);
          exponent -= 1;
          if (mantissa > 0) digits += 1;
        } else digits += 1;
        at += 1;
      }
    }
    if (!any) {
      at = begin;
      return Number.NaN;
    }
    const letter = bytes[at]! | 32;
    if (letter === 101 || letter === 100) {
      const back = at;
      at += 1;
      const sign = bytes[at] === 45 ? -1 : 1;
      if (bytes[at] === 45 || bytes[at] === 43) at += 1;
      let power = 0;
      let found = false;
      for (;;) {
        const byte = bytes[at]!;
        if (!(byte >= 48 && byte <= 57)) break;
        found = true;
        power = Math.min(9999, power * 10 + (byte - 48));
        at += 1;
      }
      if (found) exponent += sign * power;
      else at = back;
    }
    let value: number;
    // Up to 15 digits and 10^22 one rounding is all; beyond, the exact conversion of the text.
    if (digits <= 15 && exponent >= -22 && exponent <= 22)
      value = exponent < 0 ? mantissa / powers[-exponent]! : mantissa * powers[exponent]!;
    else {
      let text = textBetween(bytes, begin, at).replace(/[dD]/, "e");
      if (grouped) text = text.replaceAll(layout.group, "");
      return Number(decimal === 44 ? text.replace(",", ".") : text);
    }
    return negative ? -value : value;
  }

  const blank = (byte: number) => byte === 32 || (byte === 9 && mark !== 9);

  while (at < end) {
    if (at >= nextProgress) {
      nextProgress = at + progressBytes;
      yield { done: at, of: end };
    }
    while (at < end && blank(bytes[at]!)) at += 1;
    const first = bytes[at]!;
    const comment =
      first === 35 || first === 37 || first === 33 || first === 42 || (first === 47 && bytes[at + 1] === 47);
    if (at >= end) break;
    if (isEnd(first) || comment || first === 0 || first === 26) {
      while (at < end && !isEnd(bytes[at]!)) at += 1;
    } else {
      if (rows === room) {
        room *= 2;
        for (let i = 0; i < lists.length; i++) lists[i] = grown(lists[i]!, room);
        const more = new Int32Array(room);
        more.set(lines);
        lines = more;
      }
      for (const list of lists) list[rows] = Number.NaN;
      let cell = 0;
      let filled = 0;
      for (;;) {
        while (at < end && blank(bytes[at]!)) at += 1;
        const begin = at;
        const quoted = bytes[at] === 34;
        if (quoted) at += 1;
        const slot = cell < width ? place[cell]! : -1;
        const value = slot >= 0 ? number() : Number.NaN;
        if (quoted && bytes[at] === 34) at += 1;
        while (at < end && blank(bytes[at]!) && mark >= 0) at += 1;
        const after = at < end ? bytes[at]! : 10;
        const whole = isEnd(after) || after === mark || (mark < 0 && (after === 32 || after === 9));
        if (whole && !Number.isNaN(value)) {
          lists[slot]![rows] = value;
          filled += 1;
        } else {
          at = begin;
          let inside = false;
          while (at < end && !isEnd(bytes[at]!)) {
            if (bytes[at] === 34) inside = !inside;
            else if (!inside && (bytes[at] === mark || (mark < 0 && (bytes[at] === 32 || bytes[at] === 9)))) break;
            at += 1;
          }
          if (slot >= 0) {
            const text = textBetween(bytes, begin, Math.min(at, begin + 40))
              .trim()
              .replace(/^"|"$/g, "")
              .trim();
            missing[slot]! += 1;
            if (!isMissing(text)) {
              oddCount += 1;
              if (odd.length < listed) odd.push({ line, column: cell, text });
            }
          }
        }
        cell += 1;
        if (mark < 0) while (at < end && blank(bytes[at]!)) at += 1;
        if (at >= end || isEnd(bytes[at]!)) break;
        if (mark >= 0) {
          at += 1;
          // A separator before the end of the line opens one more, empty cell.
          if (at >= end || isEnd(bytes[at]!)) {
            if (cell < width && place[cell]! >= 0) missing[place[cell]!]! += 1;
            cell += 1;
            break;
          }
        }
      }
      lines[rows] = line;
      rows += 1;
      if (cell !== width) {
        const last = at >= end;
        if (last && cell < width && rows > 2) {
          // Its last number may be a part of one.
          cut = true;
          for (let c = 0; c < cell; c++)
            if (place[c]! >= 0 && Number.isNaN(lists[place[c]!]![rows - 1]!)) missing[place[c]!]! -= 1;
          rows -= 1;
          break;
        }
        raggedCount += 1;
        if (ragged.length < listed) ragged.push(line);
        for (let c = cell; c < width; c++) if (place[c]! >= 0) missing[place[c]!]! += 1;
        // A line of words between rows of numbers is told as odd cells; it is no row.
        if (filled === 0) {
          rows -= 1;
        }
      }
    }
    if (bytes[at] === 13) {
      at += 1;
      if (bytes[at] === 10) at += 1;
    } else at += 1;
    line += 1;
  }
  return {
    columns: lists.map((list) => list.slice(0, rows)),
    rows,
    lines: lines.slice(0, rows),
    missing,
    odd,
    oddCount,
    ragged,
    raggedCount,
    cut,
  };
}

/** As many rows as there would be if all were as long as the first lines, and some more: what is too little grows. */
function roomFor(bytes: Uint8Array, from: number, width: number): number {
  const rest = bytes.length - from;
  const seen = Math.min(rest, 4096);
  let ends = 1;
  for (let i = from; i < from + seen; i++) if (bytes[i] === 10 || (bytes[i] === 13 && bytes[i + 1] !== 10)) ends += 1;
  // A number and a separator for each cell are the shortest row, whatever the first lines are.
  return 1024 + Math.ceil(Math.min((1.02 * ends * rest) / Math.max(1, seen), rest / (2 * width)));
}

function grown(list: Float64Array, room: number): Float64Array<ArrayBuffer> {
  const more = new Float64Array(room);
  more.set(list);
  return more;
}
