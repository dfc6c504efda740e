/** The models of the nonlinear reference sets, as printed in their heads. */
type X = number | readonly number[];

interface StrdModel {
  readonly model: (b: readonly number[], x: X) => number;
  /** What the model's response is of the y printed. */
  readonly response: (y: number) => number;
}

const { exp, cos, sin, atan, log, PI } = Math;
const same = (y: number) => y;

const ofX = (model: (b: readonly number[], x: number) => number, response = same): StrdModel => ({
  model: (b, x) => model(b, x as number),
  response,
});

const gauss = ofX(
  ([b1, b2, b3, b4, b5, b6, b7, b8], x) =>
    b1! * exp(-b2! * x) + b3! * exp(-((x - b4!) ** 2) / b5! ** 2) + b6! * exp(-((x - b7!) ** 2) / b8! ** 2),
);
const cubes = ofX(
  ([b1, b2, b3, b4, b5, b6, b7], x) =>
    (b1! + b2! * x + b3! * x ** 2 + b4! * x ** 3) / (1 + b5! * x + b6! * x ** 2 + b7! * x ** 3),
);
const lanczos = ofX(([b1, b2, b3, b4, b5, b6], x) => b1! * exp(-b2! * x) + b3! * exp(-b4! * x) + b5! * exp(-b6! * x));
const saturation = ofX(([b1, b2], x) => b1! * (1 - exp(-b2! * x)));

export const strdModels: Readonly<Record<string, StrdModel>> = {
  Bennett5: ofX(([b1, b2, b3], x) => b1! * (b2! + x) ** (-1 / b3!)),
  BoxBOD: saturation,
  Chwirut1: ofX(([b1, b2, b3], x) => exp(-b1! * x) / (b2! + b3! * x)),
  DanWood: ofX(([b1, b2], x) => b1! * x ** b2!),
  ENSO: ofX(
    ([b1, b2, b3, b4, b5, b6, b7, b8, b9], x) =>
      b1! +
      b2! * cos((2 * PI * x) / 12) +
      b3! * sin((2 * PI * x) / 12) +
      b5! * cos((2 * PI * x) / b4!) +
      b6! * sin((2 * PI * x) / b4!) +
      b8! * cos((2 * PI * x) / b7!) +
      b9! * sin((2 * PI * x) / b7!),
  ),
  Gauss1: gauss,
  Gauss2: gauss,
  Hahn1: cubes,
  Lanczos1: lanczos,
  Lanczos3: lanczos,
  MGH09: ofX(([b1, b2, b3, b4], x) => (b1! * (x ** 2 + x * b2!)) / (x ** 2 + x * b3! + b4!)),
  MGH17: ofX(([b1, b2, b3, b4, b5], x) => b1! + b2! * exp(-x * b4!) + b3! * exp(-x * b5!)),
  Thurber: cubes,
  MGH10: ofX(([b1, b2, b3], x) => b1! * exp(b2! / (x + b3!))),
  Misra1a: saturation,
  Misra1b: ofX(([b1, b2], x) => b1! * (1 - (1 + (b2! * x) / 2) ** -2)),
  Misra1c: ofX(([b1, b2], x) => b1! * (1 - (1 + 2 * b2! * x) ** -0.5)),
  Nelson: {
    model: (b, x) => {
      const [x1, x2] = x as readonly number[];
      return b[0]! - b[1]! * x1! * exp(-b[2]! * x2!);
    },
    response: log,
  },
  Rat42: ofX(([b1, b2, b3], x) => b1! / (1 + exp(b2! - b3! * x))),
  Rat43: ofX(([b1, b2, b3, b4], x) => b1! / (1 + exp(b2! - b3! * x)) ** (1 / b4!)),
  Roszman1: ofX(([b1, b2, b3, b4], x) => b1! - b2! * x - atan(b3! / (x - b4!)) / PI),
};
