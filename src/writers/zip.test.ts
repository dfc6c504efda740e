import { expect, test } from "vitest";
import { bytesOfText, filesOf, textOfBytes, zipOf } from "./zip.ts";

const zip = zipOf(new Map([["a.txt", bytesOfText("0".repeat(1000))]]));

test("the same files give the same bytes, and come back", () => {
  expect(zipOf(new Map([["a.txt", bytesOfText("0".repeat(1000))]]))).toEqual(zip);
  const files = filesOf(zip, { atMost: 1000 });
  expect(files.ok && textOfBytes(files.value.get("a.txt")!)).toBe("0".repeat(1000));
});

test("what claims to hold more than is taken is refused, and so is what is no ZIP", () => {
  const codes = (bytes: Uint8Array, atMost: number) => {
    const files = filesOf(bytes, { atMost });
    return files.ok ? [] : files.problems.map(({ code }) => code);
  };
  expect(codes(zip, 999)).toEqual(["zip-too-large"]);
  expect(codes(bytesOfText("no ZIP"), 1000)).toEqual(["not-a-zip"]);
});
