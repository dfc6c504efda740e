/** Bytes and text. Core knows neither browser nor Node, so it reads UTF-8 itself. */
import { answer, type Outcome, refuse } from "../problem.ts";

/**
 * UTF-8 bytes as text, byte-order mark kept as its first character.
 *
 * Problems: `not-utf8`, with the offset of the byte; texts in UTF-16 are named as such.
 */
export function textOf(bytes: Uint8Array): Outcome<string> {
  const parts: string[] = [];
  let units: number[] = [];
  for (let i = 0; i < bytes.length; ) {
    const first = bytes[i] as number;
    const length = first < 0x80 ? 1 : first < 0xc2 ? 0 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : first < 0xf5 ? 4 : 0;
    let point = length === 1 ? first : first & (0xff >> (length + 1));
    let good = length > 0 && i + length <= bytes.length;
    for (let k = 1; good && k < length; k++) {
      const next = bytes[i + k] as number;
      good = (next & 0xc0) === 0x80;
      point = point * 64 + (next & 0x3f);
    }
    const least = [0, 0, 0x80, 0x800, 0x10000][length] ?? 0;
    if (!good || point < least || point > 0x10ffff || (point >= 0xd800 && point < 0xe000))
      return refuse(notUtf8(bytes, i));
    if (point < 0x10000) units.push(point);
    else units.push(0xd7c0 + (point >> 10), 0xdc00 + (point & 0x3ff));
    if (units.length > 8000) {
      parts.push(String.fromCharCode(...units));
      units = [];
    }
    i += length;
  }
  parts.push(String.fromCharCode(...units));
  return answer(parts.join(""));
}

function notUtf8(bytes: Uint8Array, offset: number) {
  const wide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const what = wide ? "The file is UTF-16 text" : `The file is not UTF-8 text: byte ${offset} does not belong`;
  return { code: "not-utf8", path: [], message: `${what}. Save it as UTF-8.` };
}

/** Text as UTF-8 bytes. A half of a surrogate pair cannot be written and becomes U+FFFD, as everywhere. */
export function bytesOf(text: string): Uint8Array {
  const bytes: number[] = [];
  for (const sign of text) {
    let point = sign.codePointAt(0) ?? 0;
    if (point >= 0xd800 && point < 0xe000) point = 0xfffd;
    if (point < 0x80) bytes.push(point);
    else if (point < 0x800) bytes.push(0xc0 | (point >> 6), 0x80 | (point & 63));
    else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
    else bytes.push(0xf0 | (point >> 18), 0x80 | ((point >> 12) & 63), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
  }
  return Uint8Array.from(bytes);
}
