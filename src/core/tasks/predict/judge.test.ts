import { expect, test } from "vitest";
import { agreements, within } from "../../../../tests/whole/judgeAgreement.ts";
import { demoText } from "../../project/demo.ts";
import { measures } from "./judge.ts";

test("quick verdicts of specimens agree with their whole predictions, spanned and alone", () => {
  const found = agreements(demoText, 2);
  expect(found.map(({ route }) => route)).toEqual(["span", "span", "alone"]);
  for (const { route, differences, estimate } of found) {
    expect(estimate).toBeLessThan(1e-3);
    for (const measure of measures)
      expect(differences[measure] ?? 0, `${measure}, ${route}`).toBeLessThan(within[measure]);
  }
});
