import { expect, test } from "vitest";
import { finished } from "../core/index.ts";
import { awaitedBytes, fileBytes } from "./fileBytes.ts";

test("the bytes of a file come as they are", async () => {
  expect(await fileBytes(new Blob(["1;2\n"]))).toMatchObject({ ok: true, value: new TextEncoder().encode("1;2\n") });
});

test("a task waits for the bytes of a file and goes on with them", async () => {
  const work = awaitedBytes(new Blob(["1;2\n"]));
  await work.next().value;
  expect(finished(work)).toMatchObject({ ok: true, value: new TextEncoder().encode("1;2\n") });
});

test("a file that was changed since it was chosen is refused in words", async () => {
  const file = new Blob(["1;2\n"]);
  file.arrayBuffer = () => Promise.reject(new Error("The file has changed."));
  expect(await fileBytes(file)).toMatchObject({
    ok: false,
    problems: [{ code: "not-readable", message: expect.stringContaining("The file has changed. Needed:") }],
  });
});
