import { describe, expect, it } from "vitest";
import { add, type Complex, complex, divide, multiply, scale } from "../../numerics/complex.ts";
import { sampleCurve } from "../response/curve.ts";
import { polesShown } from "./polesShown.ts";

interface Sum {
  /** Oscillators: S = share / (1 + 2 i zeta x - x^2), x = f / frequency. */
  readonly ringing?: readonly { readonly frequency: number; readonly dampingRatio: number; readonly share: number }[];
  /** S = share / (1 + i f / frequency). */
  readonly creeping?: readonly { readonly frequency: number; readonly share: number }[];
}

/** Poles shown of an exact sum between 10 Hz and 20 kHz, and how often its S was asked after the curve. */
function shownOf({ ringing = [], creeping = [] }: Sum) {
  let asked = 0;
  const respond = (omega: Complex): Complex => {
    asked++;
    const one = complex(1);
    let sum = complex(0);
    for (const { frequency, dampingRatio, share } of ringing) {
      const x = scale(omega, 1 / (2 * Math.PI * frequency));
      const below = add(add(one, multiply(complex(0, 2 * dampingRatio), x)), scale(multiply(x, x), -1));
      sum = add(sum, divide(complex(share), below));
    }
    for (const { frequency, share } of creeping) {
      const x = scale(omega, 1 / (2 * Math.PI * frequency));
      sum = add(sum, divide(complex(share), add(one, multiply(complex(0, 1), x))));
    }
    return sum;
  };
  const curve = sampleCurve((frequency) => respond(complex(2 * Math.PI * frequency)), {
    from: 10,
    to: 20e3,
    floor: 1e-3,
    tolerance: 1e-4,
    begin: 17,
  });
  asked = 0;
  const poles = polesShown(curve, { respond, lossless: (rate) => respond(complex(0, rate)).re }, 1);
  return { ...poles, asked };
}

const rateOf = (frequency: number) => 2 * Math.PI * frequency;

describe("polesShown", () => {
  it("what rings and what creeps come with frequency, damping and share, for a few evaluations", () => {
    const { resonances, decays, asked } = shownOf({
      ringing: [{ frequency: 9000, dampingRatio: 0.3, share: 0.4 }],
      creeping: [{ frequency: 400, share: 0.6 }],
    });
    expect(resonances).toHaveLength(1);
    expect(resonances[0]!.frequency / 9000).toBeCloseTo(1, 6);
    expect(resonances[0]!.dampingRatio).toBeCloseTo(0.3, 6);
    expect(resonances[0]!.share).toBeCloseTo(0.4, 4);
    expect(decays).toHaveLength(1);
    expect(decays[0]!.rate / rateOf(400)).toBeCloseTo(1, 6);
    expect(decays[0]!.share).toBeCloseTo(0.6, 4);
    expect(asked).toBeLessThanOrEqual(4);
  });

  it("two rates 4 % apart, which the curve takes for one, are told apart", () => {
    const { decays } = shownOf({
      ringing: [{ frequency: 12e3, dampingRatio: 0.1, share: 0.2 }],
      creeping: [
        { frequency: 560, share: 0.4 },
        { frequency: 582, share: 0.4 },
      ],
    });
    const strong = decays.filter(({ share }) => share > 0.1);
    expect(strong.map(({ rate }) => rate / rateOf(1))).toEqual([expect.closeTo(560, 1), expect.closeTo(582, 1)]);
    for (const { share } of strong) expect(share).toBeCloseTo(0.4, 2);
  });

  it("a pair that has nearly met on the axis still rings, with all it carries", () => {
    const { resonances, decays } = shownOf({
      ringing: [{ frequency: 900, dampingRatio: 0.99998, share: 1 }],
    });
    expect(decays.filter(({ share }) => Math.abs(share) > 0.1)).toEqual([]);
    expect(resonances[0]!.frequency / 900).toBeCloseTo(1, 4);
    expect(resonances[0]!.dampingRatio).toBeCloseTo(0.99998, 5);
    expect(resonances[0]!.share).toBeCloseTo(1, 2);
  });

  it("two pairs that have nearly met beside each other are both found, though their shares all but cancel", () => {
    const { resonances } = shownOf({
      ringing: [
        { frequency: 7716, dampingRatio: 0.99994, share: 3.76 },
        { frequency: 8748, dampingRatio: 0.9977, share: -2.75 },
      ],
    });
    expect(resonances.map(({ frequency }) => frequency)).toEqual([expect.closeTo(7716, 0), expect.closeTo(8748, 0)]);
    expect(resonances[1]!.dampingRatio).toBeCloseTo(0.9977, 4);
  });

  it("a vent slower than the curve's range is there with its share, the slowest first", () => {
    const { decays } = shownOf({
      ringing: [{ frequency: 9000, dampingRatio: 0.3, share: 0.1 }],
      creeping: [
        { frequency: 300, share: 0.3 },
        { frequency: 0.4, share: 0.6 },
      ],
    });
    expect(decays.map(({ rate }) => rate / rateOf(1))).toEqual([expect.closeTo(0.4, 5), expect.closeTo(300, 2)]);
    expect(decays[0]!.share).toBeCloseTo(0.6, 3);
  });

  it("what nothing damps is found, on whichever side of the real axis round-off puts it", () => {
    for (let i = 0; i < 60; i++) {
      const frequency = 3000 * 1.02 ** i;
      const { resonances } = shownOf({ ringing: [{ frequency, dampingRatio: 0, share: 1 }] });
      expect(resonances).toHaveLength(1);
      expect(resonances[0]!.frequency / frequency).toBeCloseTo(1, 6);
      expect(resonances[0]!.share).toBeCloseTo(1, 4);
    }
  });
});
