import { expect, test } from "vitest";
import { agreements, within } from "../../../../tests/whole/judgeAgreement.ts";
import { demoText } from "../../project/demo.ts";
import { measures } from "./judge.ts";

test.each([
  { says: "the demo", text: demoText },
  { says: "an overdamped one", text: demoText.replaceAll('"5.5 mm"', '"7.2 mm"') },
])("quick verdicts of specimens agree with their whole predictions, spanned and alone: $says", ({ text }) => {
  const found = agreements(text, 1);
  expect(found.map(({ route }) => route)).toEqual(["span", "alone"]);
  for (const { route, differences, estimate } of found) {
    expect(estimate).toBeLessThan(1e-3);
    for (const measure of measures)
      expect(differences[measure] ?? 0, `${measure}, ${route}`).toBeLessThan(within[measure]);
  }
});
