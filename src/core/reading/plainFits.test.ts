import { describe, expect, test } from "vitest";
import { good } from "../../../tests/outcomes.ts";
import { readFormula } from "../numerics/formula.ts";
import { readByFormula } from "./byFormula.ts";
import { readPlane, readPolynomial, readStatistics } from "./plainFits.ts";

const codes = (outcome: { readonly ok: boolean; readonly problems?: readonly { readonly code: string }[] }) =>
  (outcome.problems ?? []).map(({ code }) => code);
describe("a typed formula", () => {
  test("reads as in mathematics: powers from the right and before the sign, products before sums", () => {
    const at = (text: string, b: readonly number[], x: readonly number[] = []) =>
      good(readFormula(text, ["x"])).value(b, x);
    expect(at("b - x^2", [1], [3])).toBe(-8);
    expect(at("-b^2", [3])).toBe(-9);
    expect(at("b^3^2", [2])).toBe(512);
    expect(at("2*b/4*3", [8])).toBe(12);
    expect(at("b**-2", [2])).toBe(0.25);
    expect(at("y = exp(-[b]*x) + 1e-2 + .5", [0], [7])).toBe(1.51);
    expect(at("atan(b)*4/pi", [1])).toBe(1);
  });

  test("its derivatives are those of differences", () => {
    const formula = good(
      readFormula("a*sin(b*x)^2/(1 + exp(-c*x)) + sqrt(a*b)*log(c) - tanh(b/x) + cosh(a)*abs(c) + x^b + log10(a*c)", [
        "x",
      ]),
    );
    const b = [1.3, 0.7, 2.1];
    for (const x of [0.4, 1.7])
      formula.slopes(b, [x]).forEach((slope, k) => {
        const beside = (h: number) =>
          formula.value(
            b.map((value, i) => value + (i === k ? h : 0)),
            [x],
          );
        expect(slope).toBeCloseTo((beside(1e-6) - beside(-1e-6)) / 2e-6, 7);
      });
  });

  test("what can't be read is said with its place", () => {
    for (const [text, at] of [
      ["b1*(x + 2", 10],
      ["b1 $ x", 3],
      ["sinus(b1*x)", 1],
      ["b1 x", 4],
      ["", 1],
      ["y = b1 = x", 8],
      ["z = b1*x", 1],
    ] as const) {
      const read = readFormula(text, ["x"]);
      expect(codes(read), text).toEqual(["formula-unreadable"]);
      expect(read.ok ? "" : read.problems[0]!.message, text).toContain(`place ${at} `);
    }
    expect(codes(readFormula("2*x", ["x"]))).toEqual(["formula-without-parameters"]);
    expect(codes(readFormula("(".repeat(300), ["x"]))).toEqual(["formula-unreadable"]);
  });
});

describe("plain fits", () => {
  const x = Array.from({ length: 21 }, (_, i) => i / 4 + 0.25);

  test("a formula that is linear in its parameters needs no start; another one asks for it", () => {
    const y = x.map((one) => 3 - 2 * one + 0.5 * Math.log(one));
    const flat = good(readByFormula({ formula: "a + b*x + c*log(x)", variables: { x }, y, start: {} }));
    expect(
      [flat.values["a"]!.value, flat.values["b"]!.value, flat.values["c"]!.value].map((one) => one.toFixed(9)),
    ).toEqual(["3.000000000", "-2.000000000", "0.500000000"]);
    const formula = "y = a*(1 - exp(-b*x))";
    const bend = x.map((one) => 4 * (1 - Math.exp(-0.7 * one)));
    expect(codes(readByFormula({ formula, variables: { x }, y: bend, start: {} }))).toEqual(["start-missing"]);
    expect(codes(readByFormula({ formula, variables: { x }, y: bend, start: { a: 1, b: 1, d: 1 } }))).toEqual([
      "start-unknown",
    ]);
    const far = good(readByFormula({ formula, variables: { x }, y: bend, start: { a: 500, b: 0.001 } }));
    expect([far.values["a"]!.value.toFixed(6), far.values["b"]!.value.toFixed(6)]).toEqual(["4.000000", "0.700000"]);
  });

  test("what stands left of the sign is fitted: log(y)", () => {
    const y = x.map((one) => Math.exp(1 + 2 * one));
    const { values } = good(readByFormula({ formula: "log(y) = a + b*x", variables: { x }, y, start: {} }));
    expect(values["b"]!.value).toBeCloseTo(2, 9);
  });

  test("a polynomial, a plane with and without its constant, statistics", () => {
    const y = x.map((one) => 1 - one + 0.25 * one ** 2);
    expect(good(readPolynomial(x, y, 2)).values["b2"]!.value).toBeCloseTo(0.25, 12);
    expect(codes(readPolynomial(x, y, 1.5))).toEqual(["degree-missing"]);
    const second = x.map((one) => Math.cos(9 * one));
    const sum = x.map((one, i) => 2 * one - 3 * second[i]!);
    expect(good(readPlane([x, second], sum, { throughZero: true })).values["b2"]!.value).toBeCloseTo(-3, 12);
    expect(good(readPlane([x, second], sum)).values["b0"]!.value).toBeCloseTo(0, 12);
    // Mean 0, squares sum to 10 over 4 degrees of freedom, products of neighbors to 4: by hand.
    const described = readStatistics([-2, -1, 0, 1, 2]);
    const { values } = good(described);
    expect(values["mean"]!.value).toBe(0);
    expect(values["standardDeviation"]!.value).toBeCloseTo(Math.sqrt(2.5), 14);
    expect(values["lagOne"]!.value).toBeCloseTo(0.4, 14);
    const rising = readStatistics(x);
    expect(rising.ok && rising.remarks.map(({ code }) => code)).toEqual(["not-independent"]);
  });
});
