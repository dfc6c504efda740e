import cephes from "cephes";
import { beforeAll, describe, expect, test } from "vitest";
import { besselValues, hankelExpansion } from "./bessel.ts";
import { roundFunctions } from "./besselRatio.ts";
import { sphericalHankelSlopes } from "./besselSpherical.ts";
import { struveH1 } from "./besselStruve.ts";
import { absolute, add, type Complex, complex, divide, multiply, subtract } from "./complex.ts";

beforeAll(() => cephes.compiled);

describe("Bessel functions of real arguments", () => {
  test("agree with an independent library: orders 0 and 1 on both sides of the switch, higher ones below it", () => {
    for (const x of [1e-12, 1e-3, 0.7, 2.404825557695773, 7.3, 15, 29.99, 30, 30.01, 47, 100, 333.3, 2000]) {
      const values = besselValues(12, x);
      expect(values[0], `J_0(${x})`).toBeCloseTo(cephes.j0(x), 13);
      expect(values[1], `J_1(${x})`).toBeCloseTo(cephes.j1(x), 13);
      if (x < 30) for (let n = 2; n < 12; n++) expect(values[n], `J_${n}(${x})`).toBeCloseTo(cephes.jn(n, x), 12);
    }
  });

  test("agree with 30-digit values beyond it, where the library's higher orders are off by 1e-6", () => {
    // mpmath 1.3.0: order, x, value.
    const printed: readonly (readonly [number, number, number])[] = [
      [3, 47, -0.08487450320992204],
      [11, 47, 0.043880550861313865],
      [11, 100, 0.05229032601893648],
      [5, 333.25, -0.021226843273398865],
      [11, 2000, -0.016575695883403848],
    ];
    for (const [n, x, value] of printed) expect(besselValues(12, x)[n]! / value, `J_${n}(${x})`).toBeCloseTo(1, 11);
  });

  test("hold orders far above the argument, and around it, to relative digits", () => {
    expect(besselValues(60, 40)[55]! / cephes.jv(55, 40)).toBeCloseTo(1, 9);
    expect(besselValues(20, 0.5)[15]! / cephes.jv(15, 0.5)).toBeCloseTo(1, 12);
    // mpmath 1.3.0, 30 digits.
    expect(besselValues(1001, 1000)[1000]! / 0.04473067294796404).toBeCloseTo(1, 13);
    expect([...besselValues(4, 0)]).toEqual([1, 0, 0, 0]);
  });

  test("sum of squares is one: J_0^2 + 2 sum J_n^2", () => {
    for (const x of [0.3, 5, 29, 60]) {
      const values = besselValues(200, x);
      expect(values.reduce((sum, v, n) => sum + (n === 0 ? 1 : 2) * v * v, 0)).toBeCloseTo(1, 13);
    }
  });

  test("Y_0 and Y_1 agree with an independent library beyond 30", () => {
    for (const x of [30, 55.5, 1000]) {
      expect(hankelExpansion(0, x).second).toBeCloseTo(cephes.y0(x), 13);
      expect(hankelExpansion(1, x).second).toBeCloseTo(cephes.y1(x), 13);
    }
  });
});

describe("Struve function", () => {
  // mpmath 1.3.0, 40 digits.
  const printed: readonly (readonly [number, number])[] = [
    [0.001, 2.1220657664208812e-7],
    [0.1, 0.0021206516014255538],
    [1, 0.1984573362019444],
    [8, 0.4881160461214211],
    [20, 0.47268818429104287],
    [39.9, 0.618651457892852],
    [40.1, 0.6438217690935232],
    [100, 0.6163111032720133],
    [5000, 0.6432678704429946],
  ];
  test("agrees with 40-digit values, on both sides of the switch", () => {
    for (const [x, value] of printed) expect(struveH1(x) / value, `H1(${x})`).toBeCloseTo(1, 13);
  });
});

describe("functions of a round tube", () => {
  // k^2, mean, flow: mpmath 1.3.0, 40 digits. Decaying motion (negative k^2) and both sides of |k^2| = 625 among them.
  const printed: readonly (readonly [number, number, number, number, number, number])[] = [
    [1.0e-6, 0.0, 0.9999998750000209, 0.0, 0.12499997916667024, 0.0],
    [0.0, 0.01, 0.9999979166728515, -0.0012499964192815257, 0.12499964192815258, -0.00020833271484559882],
    [0.0, 3.0, 0.8519775810896385, -0.2987939152983156, 0.0995979717661052, -0.04934080630345384],
    [-20.0, 1.0, 0.30362046248538854, -0.057652059587976937, -0.034588375787292396, -0.004612021768763467],
    [-3.0, 0.5, 1.7182797984190135, -0.2533538975700608, 0.24665041557211573, -0.043342896594667654],
    [0.0, 100.0, 0.14162546834790396, -0.13124807777628505, 0.0013124807777628506, -0.00858374531652096],
    [-400.0, 5.0, 0.03948292746617203, -0.013903370012740864, -0.0024004831255333074, -6.47644641010185e-5],
    [50.0, 200.0, 0.1086560677525721, -0.08093765605133148, 0.001429523007591475, -0.004099338909339271],
    [0.0, 624.0, 0.05662586278295751, -0.054999978669384435, 8.814099145734685e-5, -0.0015118175275914143],
    [0.0, 626.0, 0.056535294345167214, -0.054914642914822356, 8.77230717489175e-5, -0.0015071321176594772],
    [-700.0, 3.0, 0.04602535087955195, -0.005676670538118499, -0.0013627611418824946, -1.3949934233951404e-5],
    [-625.0, 0.3, -0.10415810854918184, -0.001343736508584761, -0.0017666515346525388, -2.9979711503688364e-6],
    [0.0, 10000.0, 0.014142314928032126, -0.014041958875484314, 1.4041958875484314e-6, -9.858576850719678e-5],
    [-90000.0, 40.0, 0.00633059673681088, -0.0008445206287604055, -1.1040764796004715e-5, -1.4290569117784379e-8],
    [0.0, 1.0e8, 0.0001414213564141112, -0.00014141135606053282, 1.414113560605328e-12, -9.998585786435859e-9],
  ];
  test("agree with 40-digit values to round-off", () => {
    for (const [re, im, meanRe, meanIm, flowRe, flowIm] of printed) {
      const { mean, flow } = roundFunctions({ re, im });
      const wanted = { mean: complex(meanRe, meanIm), flow: complex(flowRe, flowIm) };
      expect(absolute(subtract(divide(mean, wanted.mean), complex(1))), `mean at ${re}, ${im}`).toBeLessThan(3e-14);
      expect(absolute(subtract(divide(flow, wanted.flow), complex(1))), `flow at ${re}, ${im}`).toBeLessThan(3e-14);
    }
  });

  test("agree with an independent library where k is real and where it is imaginary", () => {
    for (const k of [0.01, 1, 5, 24.9, 25.1, 80]) {
      const growing = roundFunctions(complex(k * k));
      expect(growing.mean.re).toBeCloseTo((2 * cephes.i1e(k)) / (k * cephes.i0e(k)), 13);
      const turning = roundFunctions(complex(-k * k));
      expect(turning.mean.re / ((2 * cephes.j1(k)) / (k * cephes.j0(k)))).toBeCloseTo(1, 10);
      expect(turning.mean.im).toBeCloseTo(0, 12);
    }
  });

  test("solve their own equation: with m = mean, s = k^2: s m' = 1 - m - s m^2 / 4", () => {
    // From u = I0, (k u')' = k u and k u' = s m u / 2: Riccati's form in s.
    const derivative = (s: Complex) => {
      const step = 1e-4 * absolute(s);
      const ahead = roundFunctions(add(s, complex(step))).mean;
      const behind = roundFunctions(subtract(s, complex(step))).mean;
      return divide(subtract(ahead, behind), complex(2 * step));
    };
    for (const s of [complex(0.3, 2), complex(-7, 4), complex(40, 300), complex(-300, 200), complex(100, 900)]) {
      const { mean } = roundFunctions(s);
      const left = multiply(s, derivative(s));
      const right = subtract(subtract(complex(1), mean), divide(multiply(s, multiply(mean, mean)), complex(4)));
      expect(absolute(subtract(left, right))).toBeLessThan(1e-6);
    }
  });
});

describe("spherical Hankel slopes", () => {
  test("agree with an independent library's functions of half order, above and below x", () => {
    for (const x of [0.4, 1, 3, 17, 60]) {
      const size = Math.sqrt(Math.PI / (2 * x));
      const h = (n: number) => complex(size * cephes.jv(n + 0.5, x), -size * cephes.yv(n + 0.5, x));
      const slopes = sphericalHankelSlopes(20, x);
      for (let n = 1; n < 20; n++) {
        const wanted = subtract(h(n - 1), multiply(complex((n + 1) / x), h(n)));
        expect(absolute(subtract(divide(slopes[n]!, wanted), complex(1))), `h_${n}'(${x})`).toBeLessThan(1e-9);
      }
    }
  });

  test("stop before they overflow", () => {
    const slopes = sphericalHankelSlopes(2000, 0.01);
    expect(slopes.length).toBeLessThan(100);
    expect(slopes.every(({ re, im }) => Number.isFinite(re) && Number.isFinite(im))).toBe(true);
  });
});
