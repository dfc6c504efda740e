import { describe, expect, test } from "vitest";
import { seededNormal } from "../numerics/random.ts";
import { type FormulaQuestion, readByFormula } from "./byFormula.ts";
import { nearestPlace } from "./nearestPlace.ts";

function read(question: FormulaQuestion) {
  const found = readByFormula(question);
  if (!found.ok) throw new Error(found.problems.map(({ message }) => message).join(" "));
  return { ...found.value, codes: found.remarks.map(({ code }) => code) };
}
const problems = (question: FormulaQuestion) => {
  const found = readByFormula(question);
  return found.ok ? [] : found.problems.map(({ code }) => code);
};
const x = Array.from({ length: 25 }, (_, i) => i / 2.4);
const peak = (at: number, width: number) => (one: number) => Math.exp(-(((one - at) / width) ** 2));

describe("a start far from the lowest minimum", () => {
  const noise = seededNormal(11);
  const tone = x.map((one) => 3 * Math.sin(2.2 * one) + 0.05 * noise());

  test("is left for it, and that is said with both", () => {
    const found = read({ formula: "a*sin(b*x)", variables: { x }, y: tone, start: { a: 1, b: 4 } });
    expect(found.values["b"]!.value).toBeCloseTo(2.2, 2);
    expect(found.codes).toEqual(["lower-minimum"]);
    expect(found.minima).toMatchObject({ seed: 1, drawn: 192 });
    const again = read({ formula: "a*sin(b*x)", variables: { x }, y: tone, start: { a: 1, b: 4 } });
    expect(again.values).toEqual(found.values);
  });

  test("near it nothing is said, whatever two peaks are called", () => {
    expect(read({ formula: "a*sin(b*x)", variables: { x }, y: tone, start: { a: 1, b: 2.1 } }).codes).toEqual([]);
    const two = x.map((one) => 2 * peak(3, 0.8)(one) + peak(7, 1.2)(one));
    const formula = "a*exp(-((x - b)/c)^2) + d*exp(-((x - e)/f)^2)";
    const start = { a: 1, b: 2.5, c: 1, d: 1, e: 7.5, f: 1 };
    const found = read({ formula, variables: { x }, y: two, start });
    expect([found.codes, found.values["b"]!.value.toFixed(6)]).toEqual([[], "3.000000"]);
  });

  test("two that fit alike are both named", () => {
    const y = x.map((one) => peak(2.5, 0.7)(one) + 1.001 * peak(7.5, 0.7)(one));
    const found = read({
      formula: "a*exp(-((x - b)/c)^2)",
      variables: { x },
      y,
      start: { a: 1, b: 7, c: 1 },
    });
    expect(found.codes).toEqual(["another-minimum"]);
  });
});

describe("errors in x", () => {
  const noise = seededNormal(5);
  const y = x.map((one) => 2 + 0.5 * one + 0.1 * noise());
  const [sx, sy] = [x.map((_, i) => 0.02 + 0.01 * (i % 5)), x.map((_, i) => 0.1 + 0.01 * (i % 7))];

  test("which column is called y does not matter", () => {
    const forward = read({ formula: "a + b*x", variables: { x }, y, start: {}, standard: sy, standardX: { x: sx } });
    const back = read({ formula: "c + d*u", variables: { u: y }, y: x, start: {}, standard: sx, standardX: { u: sy } });
    expect(back.values["d"]!.value).toBeCloseTo(1 / forward.values["b"]!.value, 9);
    expect(back.sumOfSquares).toBeCloseTo(forward.sumOfSquares, 9);
  });

  test("the nearest place of a circle's arc lies on its radius", () => {
    const arc = (at: readonly number[]) => Math.sqrt(4 - at[0]! ** 2);
    const found = nearestPlace({
      x: [1.8],
      y: 2.4,
      standardX: [0.3],
      standardY: 0.3,
      value: arc,
      slopes: ([one]) => [-one! / arc([one!])],
    });
    expect(found.at[0]).toBeCloseTo(2 * 0.6, 9);
    expect(found.distance).toBeCloseTo(-(3 - 2) / 0.3, 9);
  });

  test("a curve is followed, and points beyond their uncertainties widen the interval", () => {
    const bent = x.map((one) => 4 * Math.exp(-0.3 * one));
    const question = { formula: "a*exp(-b*x)", variables: { x }, start: { a: 1, b: 0.1 } };
    const exact = read({ ...question, y: bent, standard: sy, standardX: { x: sx } });
    expect(exact.values["b"]!.value).toBeCloseTo(0.3, 9);
    const shaken = bent.map((one) => one + 0.5 * noise());
    const tight = { standard: sy.map((one) => one / 10), standardX: { x: sx } };
    expect(read({ ...question, y: shaken, ...tight }).codes).toContain("scatter-beyond-uncertainty");
  });

  test("without one for y, or below zero, is refused", () => {
    const question = { formula: "a + b*x", variables: { x }, y, start: {} };
    expect(problems({ ...question, standardX: { x: sx } })).toEqual(["wrong-standard"]);
    expect(problems({ ...question, standard: sy, standardX: { x: sx.map((one) => -one) } })).toEqual([
      "wrong-standard",
    ]);
  });
});

test("a model as it is printed may end with its error", () => {
  const y = x.map((one) => 1 + 2 * one);
  const found = read({ formula: "y = b0 + b1*x  +  e", variables: { x }, y, start: {} });
  expect([found.codes, Object.keys(found.values)]).toEqual([["error-term"], ["b0", "b1"]]);
});

test("uncertainties of y are those of its logarithm where that is fitted", () => {
  const y = x.map((one) => Math.exp(0.2 * one));
  const standard = y.map((one) => 0.01 * one);
  const found = read({ formula: "log(y) = a + b*x", variables: { x }, y, start: {}, standard });
  const plain = read({
    formula: "a + b*x",
    variables: { x },
    y: y.map(Math.log),
    start: {},
    standard: y.map(() => 0.01),
  });
  expect(found.values["b"]!.standardUncertainty).toBeCloseTo(plain.values["b"]!.standardUncertainty!, 12);
});
