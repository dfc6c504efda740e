/** A typed formula laid through a table: linear where it is linear, else from a start and with a look for other minima; errors in x too. */
import { type Formula, readFormula } from "../numerics/formula.ts";
import { fitLinear } from "../numerics/linearFit.ts";
import { searchMinima } from "../numerics/minimaSearch.ts";
import type { NonlinearFitQuestion } from "../numerics/modelSquares.ts";
import { fitNonlinear, type NonlinearFit } from "../numerics/nonlinearFit.ts";
import { studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { isPoint, orthogonal, type Point, widening } from "./orthogonal.ts";
import { named, ofLinear, type PlainReading } from "./plainReading.ts";
import { correlationOf, coverageOfIntervals, readValue } from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

type Numbers = ArrayLike<number>;

export interface FormulaQuestion {
  readonly formula: string;
  readonly variables: Readonly<Record<string, Numbers>>;
  readonly y: Numbers;
  readonly start: Readonly<Record<string, number>>;
  /** Standard uncertainty of each y. */
  readonly standard?: Numbers;
  /** Standard uncertainties of variables, by their names: each point then lies at the nearest place of the curve. */
  readonly standardX?: Readonly<Record<string, Numbers>>;
}

/**
 * A typed formula of the named variables. Where it is linear in its parameters it is solved as such and needs no start; else
 * seeded starts look for other minima, and the values are those of the lowest that was found.
 *
 * Problems: those of `readFormula`, `fitLinear` and `fitNonlinear`, `start-missing`, `start-unknown`, `wrong-standard`.
 * Remarks: those of the fit, `error-term`, `lower-minimum`, `another-minimum`, `scatter-beyond-uncertainty`.
 */
export function readByFormula(question: FormulaQuestion): Outcome<PlainReading> {
  const { variables, y, start, standard, standardX } = question;
  const text = question.formula.replace(errorTerm, "");
  if (text !== question.formula && !("e" in variables) && !("e" in start) && !/\be\b/.test(text)) {
    const read = readByFormula({ ...question, formula: text });
    return read.ok ? answer(read.value, [withoutError, ...read.remarks]) : read;
  }
  const read = readFormula(question.formula, Object.keys(variables));
  if (!read.ok) return read;
  const formula = read.value;
  const { parameters, variables: used, value, slopes, response } = formula;
  const points = Array.from({ length: y.length }, (_, i) => used.map((name) => variables[name]![i]!));
  const seen = Float64Array.from(y, response);
  const inY = standard && Float64Array.from(standard, (one, i) => one * Math.abs(formula.responseSlope(y[i]!)));
  const inX = used.map((name) => standardX?.[name]);
  const problems = [...checkStart(start, parameters), ...checkStandards(inX, inY)];
  if (problems.length > 0) return refuse(...problems);
  const withErrors = inX.some((list) => list !== undefined);
  const linear = formula.linear.map((name) => parameters.indexOf(name));
  if (linear.length === parameters.length) {
    const zeros = new Array<number>(parameters.length).fill(0);
    const columns = parameters.map(() => new Float64Array(y.length));
    points.forEach((x, i) => {
      slopes(zeros, x).forEach((slope, k) => {
        columns[k]![i] = slope;
      });
    });
    const rest = points.map((x, i) => seen[i]! - value(zeros, x));
    const fit = fitLinear({ columns, y: rest, ...(inY && { standard: inY }) });
    if (!fit.ok) return fit;
    if (!withErrors) return answer(ofLinear("formula", fit.value, parameters, seen), fit.remarks);
    return downhill(formula, orthogonal(formula, { points, seen, inY: inY!, inX, start: fit.value.values }), null);
  }
  const missing = parameters.filter((name) => !(name in start));
  if (missing.length > 0)
    return refuse({
      code: "start-missing",
      path: ["start"],
      message: `No start is given for ${missing.join(", ")}; needed: about how large each parameter is, such as "${parameters.map((name) => `${name}=1`).join(", ")}".`,
    });
  const from = parameters.map((name) => start[name]!);
  if (withErrors) return downhill(formula, orthogonal(formula, { points, seen, inY: inY!, inX, start: from }), null);
  const plain = {
    model: value,
    derivatives: slopes,
    start: from,
    x: points,
    y: seen,
    ...(inY && { standard: inY }),
  };
  return downhill(formula, plain, { linear, places: used.length === 1 ? points.map(([x]) => x!) : null });
}

/** "... + e": a model as it is printed, with its error. */
const errorTerm = /\s*\+\s*e\s*$/;
const withoutError: Problem = {
  code: "error-term",
  path: ["formula"],
  message:
    'The "+ e" at the end is taken for the error of the model, not for a value that is sought. If it is one, give it a start.',
};

function checkStart(start: FormulaQuestion["start"], parameters: readonly string[]): Problem[] {
  const unknown = Object.keys(start).filter((name) => !parameters.includes(name));
  if (unknown.length === 0) return [];
  return [
    {
      code: "start-unknown",
      path: ["start"],
      message: `The start names ${unknown.join(", ")}; the formula has ${parameters.join(", ")}.`,
    },
  ];
}

/** Errors in x are weighed against those in y: both must be known. */
function checkStandards(inX: readonly (Numbers | undefined)[], inY: Numbers | undefined): Problem[] {
  if (inX.every((list) => list === undefined)) return [];
  const wrong = (message: string): Problem => ({ code: "wrong-standard", path: ["standard"], message });
  if (inY === undefined)
    return [
      wrong("Standard uncertainties are given for a predictor and none for what was measured; needed: both, or none."),
    ];
  const negative = inX.some((list) => list !== undefined && Array.from(list).some((one) => !(one >= 0)));
  return negative ? [wrong("A standard uncertainty of a predictor is below zero; needed: zero or more.")] : [];
}

/** `search`: the values in which the model is linear, and the places of the points on the axis; null: no other minimum is looked for. */
function downhill<X extends Point | readonly number[]>(
  { parameters, value }: Formula,
  question: NonlinearFitQuestion<X>,
  search: { readonly linear: readonly number[]; readonly places: readonly number[] | null } | null,
): Outcome<PlainReading> {
  const first = fitNonlinear(question);
  if (!first.ok) return first;
  const range =
    search === null || search.places === null
      ? null
      : { low: Math.min(...search.places), high: Math.max(...search.places) };
  const found = search === null ? null : searchMinima(question, first.value, { linear: search.linear, range });
  const fit = found?.lowest ?? first.value;
  const moved = fit !== first.value;
  const other = (moved ? null : found?.others.find((one) => isAlike(one, fit))) ?? null;
  const says = (one: NonlinearFit) =>
    `${parameters.map((name, i) => `${name} = ${one.values[i]!.toPrecision(5)}`).join(", ")} (sum of squares ${one.sumOfSquares.toPrecision(5)})`;
  const remarks: Problem[] = moved ? [] : [...first.remarks];
  if (moved)
    remarks.push({
      code: "lower-minimum",
      path: ["start"],
      message: `From the start given the fit ends at ${says(first.value)}. One of ${found!.drawn} seeded starts led lower: the values shown are those of ${says(fit)}. Look at both curves; a start near the one that is meant settles it.`,
    });
  if (other !== null)
    remarks.push({
      code: "another-minimum",
      path: ["start"],
      message: `Another minimum fits about as well: ${says(other)} beside ${says(fit)}. These data don't decide between them.`,
    });
  const { values, standardUncertainties, covariance, residuals, degreesOfFreedom, stopped, steps, sumOfSquares } = fit;
  const errorsInX = isPoint(question.x[0]);
  const reduced = degreesOfFreedom > 0 ? sumOfSquares / degreesOfFreedom : 0;
  const widened = errorsInX ? widening(reduced) : 1;
  if (errorsInX && reduced > 3) remarks.push(scatter(reduced));
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const standardOf = (i: number) => (standardUncertainties === null ? null : standardUncertainties[i]! * widened);
  return answer(
    {
      kind: "formula",
      values: named(parameters, (i) => readValue(values[i]!, standardOf(i), factor)),
      correlation: correlationOf(parameters, covariance),
      residuals: residualsOf(residuals),
      residualStandardDeviation: fit.residualStandardDeviation ?? (sumOfSquares === 0 ? 0 : null),
      sumOfSquares,
      coverage: coverageOfIntervals,
      degreesOfFreedom,
      stopped,
      steps,
      minima: found === null ? null : minimaOf(found.others, found, parameters),
      model: Float64Array.from({ length: question.x.length }, (_, i) => {
        const x = question.x[i]!;
        return value(values, isPoint(x) ? x.x : x);
      }),
    },
    remarks,
  );
}

const minimaOf = (
  others: readonly NonlinearFit[],
  { drawn, followed, seed }: { readonly drawn: number; readonly followed: number; readonly seed: number },
  parameters: readonly string[],
): NonNullable<PlainReading["minima"]> => ({
  drawn,
  followed,
  seed,
  others: others.map(({ values, sumOfSquares }) => ({
    sumOfSquares,
    values: Object.fromEntries(parameters.map((name, i) => [name, values[i]!])),
  })),
});

/** Within what the scatter of the points explains: ten variances, well beyond the 99 % of two values. */
const isAlike = (one: NonlinearFit, lowest: NonlinearFit): boolean =>
  lowest.degreesOfFreedom > 0 && one.sumOfSquares <= lowest.sumOfSquares * (1 + 10 / lowest.degreesOfFreedom);

const scatter = (reduced: number): Problem => ({
  code: "scatter-beyond-uncertainty",
  path: ["standard"],
  message: `The points scatter ${Math.sqrt(reduced).toPrecision(2)} times as much as their uncertainties say; the intervals were widened. Is the formula the right one?`,
});
