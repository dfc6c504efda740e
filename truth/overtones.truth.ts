/** A tone in one mode whose spring stiffens and whose film is squeezed: harmonics, in closed form and by other people's steps in time. */
import type { Balance } from "../src/core/microphone/loudest/harmonicBalance.ts";
import { forcesToThird, phasesToFifth } from "../src/core/microphone/loudest/overtones.ts";
import { absolute, complex, divide, multiply } from "../src/core/numerics/complex.ts";
import type { TruthRow } from "./row.ts";

/** w'' + friction w' / (1 - closing w)^3 + w + square w^2 + cube w^3 = p cos omega t, without dimension. */
interface Mode {
  readonly omega: number;
  readonly friction: number;
  readonly closing?: number;
  readonly square?: number;
  readonly cube?: number;
}

/** Amplitudes of w at 0 to 3 times the tone. */
function harmonics({ omega, friction, closing = 0, square = 0, cube = 0 }: Mode, p: number): readonly number[] {
  const zero = complex(0);
  const multiples = [0, 1, 2, 3].map((k) => {
    const turning = complex(0, k * omega);
    const moved = divide(complex(1), complex(1 - (k * omega) ** 2, k * omega * friction));
    const film = multiply(multiply(turning, complex(friction)), moved);
    const sound = k === 1 ? { moved, film } : { moved: zero, film: zero };
    return { moved: { sound: sound.moved, plate: moved }, film: { sound: sound.film, plate: film }, slow: complex(1) };
  });
  const balance: Balance = { multiples, stiffening: { square, cube }, closing };
  const reading = {
    sound: multiples[1]!.moved.sound,
    plate: multiples.map(({ moved }) => moved.plate),
    square: 0,
    cube: 0,
  };
  const [guide] = phasesToFifth(balance, [reading], forcesToThird(balance), p);
  return [guide!.shift, ...guide!.phases.map(absolute)];
}

const size = (k: number, { omega, friction }: Mode) => Math.hypot(1 - (k * omega) ** 2, k * omega * friction);
const duffing = { omega: 0.4, friction: 0.04, cube: 1 };
const helmholtz = { omega: 0.4, friction: 0.04, square: 1 };
const film = { omega: 0.4, friction: 0.5, closing: 1 };
const perturbed =
  "perturbation of a weakly nonlinear oscillator, [nayfeh-mook-1979] ch. 4 (from memory, to be confirmed)";
const faint = 1e-3;
const next = "the next power of the amplitude";

/** Amplitudes at 0 to 3 times the tone, and at the first multiple that is left out. */
const stepped: readonly (readonly [string, Mode, number, readonly number[], number])[] = [
  [
    "spring and film",
    { omega: 0.6, friction: 0.3, closing: 0.4, cube: 0.5 },
    0.2,
    [0.00035847481, 0.288003034, 0.017319488, 0.000804245845],
    1.37e-4,
  ],
  [
    "film at a fifth of its gap",
    { omega: 0.8, friction: 0.6, closing: 0.5 },
    0.3,
    [0, 0.48478308, 0.04740186, 0.00452783],
    7.29e-4,
  ],
  ["spring alone", { omega: 0.6, friction: 0.04, cube: 1 }, 0.05, [0, 0.0775245152, 0, 5.21837156e-5], 3.5e-8],
];

export const rows: readonly TruthRow[] = [
  {
    what: "Duffing's spring, faint tone: third harmonic over the cube of the first [-]",
    got: () => {
      const found = harmonics(duffing, faint);
      return found[3]! / found[1]! ** 3;
    },
    expected: 1 / 4 / size(3, duffing),
    within: 1e-5,
    why: next,
    origin: "exact",
    source: perturbed,
  },
  {
    what: "Duffing's spring: amplitude by which the tone is bent, [(1 - w^2 + 3 a^2 / 4)^2 + (d w)^2] a^2 over p^2 [-]",
    got: () => {
      const p = 0.02;
      const a = harmonics(duffing, p)[1]!;
      return (((1 - 0.4 ** 2 + 0.75 * a * a) ** 2 + (0.04 * 0.4) ** 2) * a * a) / p ** 2;
    },
    expected: 1,
    within: 1e-6,
    why: "the third harmonic's own share, a^4",
    origin: "exact",
    source: perturbed,
  },
  {
    what: "spring of a square term, faint tone: second harmonic over the square of the first [-]",
    got: () => {
      const found = harmonics(helmholtz, faint);
      return found[2]! / found[1]! ** 2;
    },
    expected: 1 / 2 / size(2, helmholtz),
    within: 1e-5,
    why: next,
    origin: "exact",
    source: perturbed,
  },
  {
    what: "spring of a square term, faint tone: steady shift over the square of the amplitude [-]",
    got: () => {
      const found = harmonics(helmholtz, faint);
      return found[0]! / found[1]! ** 2;
    },
    expected: -1 / 2,
    within: 1e-5,
    why: next,
    origin: "exact",
    source: perturbed,
  },
  {
    what: "friction that goes with the gap to the power -3, faint tone: second harmonic over the square of the first [-]",
    got: () => {
      const found = harmonics(film, faint);
      return found[2]! / found[1]! ** 2;
    },
    // Friction times (1 + 3 c w): 3 c d w w', the second harmonic's half.
    expected: (3 * 0.5 * 0.4) / 2 / size(2, film),
    within: 1e-5,
    why: next,
    origin: "exact",
    source: perturbed,
  },
  ...stepped.flatMap(([what, mode, p, expected, leftOut]) =>
    expected.map(
      (value, k): TruthRow => ({
        what: `${what}, steady tone: ${k === 0 ? "shift" : `harmonic ${k}`}`,
        got: () => harmonics(mode, p)[k]!,
        expected: value,
        within: value === 0 ? leftOut : leftOut / value,
        why: "the amplitude of the first multiple that is left out",
        origin: "independent method",
        source:
          "steps of eighth order in time (another library's Dormand and Prince) over 120 periods, to 1e-12, and their transform",
      }),
    ),
  ),
];
