import { expect, test } from "vitest";
import { chosenSound, sampling } from "./chosenSound.ts";

test("a recording of yours that was not chosen yet is asked for", async () => {
  expect(await chosenSound("own", { tone: "", file: null })).toEqual({
    ok: false,
    problems: [
      { code: "no-recording", path: [], message: expect.stringMatching(/No recording yet; needed: a WAV file/) },
    ],
  });
});

test("a recording goes on byte for byte; a tone at what was typed, and any other sound whatever was typed", async () => {
  const file = new Blob([new Uint8Array([1, 2, 3])]);
  expect(await chosenSound("own", { tone: "", file })).toMatchObject({ value: { wave: new Uint8Array([1, 2, 3]) } });
  expect(await chosenSound("tone", { tone: "2 kHz", file: null })).toMatchObject({
    value: { name: "tone", sampling, frequency: 2000 },
  });
  expect(await chosenSound("tone", { tone: "2 mm", file: null })).toMatchObject({
    problems: [{ path: ["frequency"] }],
  });
  expect(await chosenSound("clap", { tone: "2 mm", file: null })).toMatchObject({ value: { name: "clap" } });
});
