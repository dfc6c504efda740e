/** Which characters the bytes of a file are: told by their mark, their zeros and their order. */

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "latin-1";

export interface Text {
  readonly encoding: Encoding;
  /** One byte a character where it matters (digits, signs, separators); see `plain`. */
  readonly bytes: Uint8Array;
  /** First byte after the mark. */
  readonly start: number;
}

/** Signs that a number may hold and that are no ASCII: minus signs, spaces that don't break, thin spaces, µ, °, Ω. */
const spelled: Readonly<Record<number, string>> = {
  8722: "-",
  8211: "-",
  160: " ",
  8239: " ",
  8201: " ",
  8217: "'",
  181: "u",
  956: "u",
  937: "ohm",
  8486: "ohm",
  176: "deg",
  178: "^2",
  8730: "sqrt",
};

/**
 * The text as bytes of ASCII, so that numbers can be read where they lie. UTF-8 and Latin-1 whose numbers are plain ASCII
 * stay as they are; other texts are spelled anew. Returns null for bytes that are no text.
 */
export function readText(bytes: Uint8Array): Text | null {
  const encoding = encodingOf(bytes);
  const start = encoding === "utf-8" && bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  if (encoding === "utf-8" || encoding === "latin-1") {
    if (isRubbish(bytes, start)) return null;
    const foreign = hasForeign(bytes, start);
    return foreign ? { encoding, bytes: spell(bytes, encoding, start), start: 0 } : { encoding, bytes, start };
  }
  const marked = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  const plain = spell(bytes, encoding, marked ? 2 : 0);
  return isRubbish(plain, 0) ? null : { encoding, bytes: plain, start: 0 };
}

function encodingOf(bytes: Uint8Array): Encoding {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const seen = Math.min(bytes.length, 4096) & ~1;
  let [even, odd] = [0, 0];
  for (let i = 0; i < seen; i += 2) {
    if (bytes[i] === 0) even += 1;
    if (bytes[i + 1] === 0) odd += 1;
  }
  if (seen >= 8 && odd > 0.4 * (seen / 2) && even < 0.05 * seen) return "utf-16le";
  if (seen >= 8 && even > 0.4 * (seen / 2) && odd < 0.05 * seen) return "utf-16be";
  return isUtf8(bytes, Math.min(bytes.length, 1 << 18)) ? "utf-8" : "latin-1";
}

function isUtf8(bytes: Uint8Array, count: number): boolean {
  for (let i = 0; i < count; ) {
    const byte = bytes[i]!;
    const length =
      byte < 0x80
        ? 1
        : byte >= 0xc2 && byte < 0xe0
          ? 2
          : byte >= 0xe0 && byte < 0xf0
            ? 3
            : byte >= 0xf0 && byte < 0xf5
              ? 4
              : 0;
    if (length === 0) return false;
    // What the end of the sample cuts in two is not held against it.
    if (i + length > count) return true;
    for (let k = 1; k < length; k++) if ((bytes[i + k]! & 0xc0) !== 0x80) return false;
    i += length;
  }
  return true;
}

/** More than one in a hundred bytes is a control character that no text holds. */
function isRubbish(bytes: Uint8Array, start: number): boolean {
  const end = Math.min(bytes.length, start + 65536);
  let odd = 0;
  for (let i = start; i < end; i++) {
    const byte = bytes[i]!;
    if (byte < 9 || (byte > 13 && byte < 32 && byte !== 27 && byte !== 26) || byte === 127) odd += 1;
  }
  return odd * 100 > Math.max(1, end - start);
}

/** Headers may hold any letter; what counts is the part of the text where numbers lie: its first and its middle piece. */
function hasForeign(bytes: Uint8Array, start: number): boolean {
  const pieces = [
    [start, Math.min(bytes.length, start + 65536)],
    [bytes.length >> 1, Math.min(bytes.length, (bytes.length >> 1) + 65536)],
  ] as const;
  return pieces.some(([from, to]) => {
    for (let i = from; i < to; i++) if (bytes[i]! >= 0x80) return true;
    return false;
  });
}

/** The text in ASCII, other letters as "?" or as `spelled`. */
function spell(bytes: Uint8Array, encoding: Encoding, start: number): Uint8Array {
  const out = new Uint8Array(bytes.length * 2 + 16);
  let length = 0;
  for (let i = start; i < bytes.length; ) {
    const { code, next } = codeAt(bytes, i, encoding);
    i = next;
    if (code < 0x80) out[length++] = code;
    else for (const letter of spelled[code] ?? "?") out[length++] = letter.charCodeAt(0);
    if (length + 8 > out.length) throw new Error(`spell: no room for ${bytes.length} bytes`);
  }
  return out.slice(0, length);
}

function codeAt(bytes: Uint8Array, i: number, encoding: Encoding): { readonly code: number; readonly next: number } {
  const byte = bytes[i]!;
  if (encoding === "latin-1" || (encoding === "utf-8" && byte < 0x80)) return { code: byte, next: i + 1 };
  if (encoding !== "utf-8") {
    const other = bytes[i + 1] ?? 0;
    return { code: encoding === "utf-16le" ? byte | (other << 8) : (byte << 8) | other, next: i + 2 };
  }
  const length = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : byte >= 0xc0 ? 2 : 1;
  if (length === 1) return { code: 0xfffd, next: i + 1 };
  let code = byte & (0xff >> (length + 1));
  for (let k = 1; k < length; k++) code = (code << 6) | ((bytes[i + k] ?? 0) & 0x3f);
  return { code, next: i + length };
}

/** Characters from `from` to `to` of bytes that `readText` gave. */
export function textBetween(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  for (let i = from; i < to; i++) text += String.fromCharCode(bytes[i]!);
  return text;
}
