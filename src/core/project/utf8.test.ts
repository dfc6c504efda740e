import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bytesOf, textOf } from "./utf8.ts";

/** Characters of one to four bytes, no half of a surrogate pair. */
const points = fc.oneof(
  ...[
    [0, 0x7f],
    [0x80, 0x7ff],
    [0x800, 0xd7ff],
    [0xe000, 0xffff],
    [0x10000, 0x10ffff],
  ].map(([min, max]) => fc.integer({ min: min!, max: max! })),
);
const texts = fc.array(points, { maxLength: 200 }).map((list) => String.fromCodePoint(...list));

describe("UTF-8", () => {
  it("is written and read as the platform does it", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const bytes = bytesOf(text);
        expect(Buffer.compare(bytes, new TextEncoder().encode(text))).toBe(0);
        const back = textOf(bytes);
        expect(back.ok && back.value).toBe(text);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it("is refused where the platform refuses it", () => {
    const strict = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 6 }), (bytes) => {
        let expected: string | null = null;
        try {
          expected = strict.decode(bytes);
        } catch {}
        const got = textOf(bytes);
        expect(got.ok ? got.value : null).toBe(expected);
      }),
      { seed: 20261125, numRuns: 3000 },
    );
  });

  it.each([
    ["an overlong form of three bytes", [0xe0, 0x80, 0x80]],
    ["an overlong form of four bytes", [0xf0, 0x80, 0x80, 0x80]],
    ["half of a surrogate pair", [0xed, 0xa0, 0x80]],
    ["a point beyond Unicode", [0xf4, 0x90, 0x80, 0x80]],
    ["a cut character", [0xe2, 0x82]],
  ])("refuses %s", (_, bytes) => expect(textOf(Uint8Array.from(bytes)).ok).toBe(false));

  it("reads long texts", () => {
    const text = "µ€😀x".repeat(20000);
    const back = textOf(bytesOf(text));
    expect(back.ok && back.value === text).toBe(true);
  });

  it("names UTF-16", () => {
    const got = textOf(Uint8Array.from([0xff, 0xfe, 0x7b, 0]));
    expect(got.ok ? "" : got.problems[0]?.code).toBe("not-utf8");
    expect(got.ok ? "" : got.problems[0]?.message).toContain("UTF-16");
  });
});
