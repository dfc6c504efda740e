import { expect, test } from "vitest";
import { changed, demo } from "../../../tests/demoProject.ts";
import { readChoices } from "./choices.ts";

test("a project that does not say what may be chosen is told what is free", () => {
  const read = readChoices(changed(demo, { choices: "[]" }));
  expect(read.ok && read.remarks.map(({ code }) => code)).toEqual(["usual-choices"]);
  expect(read.ok && read.value.map(({ path }) => path.text)).toContain("microphone.film.gap");
});
