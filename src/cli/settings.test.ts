import { expect, test } from "vitest";
import { readSetting } from "./settings.ts";

test("a setting is parted at its first equals sign, blanks around it do not count", () => {
  expect(readSetting(" microphone.film.gap = 50 um ")).toMatchObject({
    value: { path: "microphone.film.gap", value: "50 um" },
  });
  expect(readSetting("title=a = b")).toMatchObject({ value: { path: "title", value: "a = b" } });
});

test("a setting without a value or without a path is refused", () => {
  const code = (text: string) => {
    const outcome = readSetting(text);
    return outcome.ok ? "" : outcome.problems[0]?.code;
  };
  expect(code("microphone.film.gap")).toBe("set-without-value");
  expect(code("=50 um")).toBe("set-without-path");
});
