import { afterEach, expect, test, vi } from "vitest";

afterEach(() => vi.unstubAllGlobals());

test("a server that doesn't answer: every question says so, and how the work is kept", async () => {
  vi.stubGlobal("document", { querySelector: () => null });
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("connection refused")));
  const { library } = await import("./library.ts");
  const gone = {
    ok: false,
    problems: [
      {
        code: "no-server",
        path: [],
        message: expect.stringMatching(/does not answer\. Start `glassdrum open` again; your work stays/),
      },
    ],
  };
  expect(await library.shelf()).toEqual(gone);
  expect(await library.save("one", { base: 1, text: "", says: "" })).toEqual(gone);
});
