import { expect, test } from "vitest";
import { lookUp } from "../../core/project/lookUp.ts";
import { glossary } from "./glossary.ts";
import { termOf } from "./terms.ts";

test.each([
  ["microphone.film.gap", "air film"],
  ["microphone.guide[1].at", "guide"],
  ["brief.noise.atMost", "noise"],
  ["brief.loudest.atLeast", "loudest sound"],
  ["brief.site.staticOverpressure", "static overpressure"],
  ["microphone.readout.bias", "bias"],
])("%s is explained by the word %s, which the glossary has", (path, term) => {
  expect(lookUp(path).ok).toBe(true);
  expect(termOf(path)).toBe(term);
  expect(glossary.map((one) => one.term)).toContain(term);
});

test("a value that no word explains has none", () => {
  expect(termOf("microphone.light.wavelength")).toBeUndefined();
});
