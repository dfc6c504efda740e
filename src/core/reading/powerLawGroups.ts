/** Power laws of several groups of specimens: one exponent for all, a factor for each. */
import { fitLinear, type LinearFit } from "../numerics/linearFit.ts";
import { fisherShare, studentQuantile } from "../numerics/quantiles.ts";
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { fitPowerLaw, type LineQuestion, type PowerLaw } from "./powerLaw.ts";
import { coverageOfIntervals, type ReadValue, readValue } from "./reading.ts";
import { residualsOf } from "./whiteness.ts";

/** Above this share of chance the groups are not of one exponent. */
const demanded = 1 - 1e-3;

/**
 * ln y = ln c_g + n ln x, g the group: the exponent from what varies within the groups. Uncertainties of x count through the slope.
 *
 * Problems: those of `fitPowerLaw` and `fitLinear`. Remark: `groups-differ` where exponents of their own fit better than chance lets them.
 */
export function fitGroupedPowerLaw(question: LineQuestion & { readonly group: ArrayLike<number> }): Outcome<PowerLaw> {
  const { group, ...line } = question;
  const alone = fitPowerLaw(line);
  const names = [...new Set(Array.from(group))].sort((a, b) => a - b);
  if (!alone.ok || names.length < 2) return alone;
  if (line.x.length < names.length + 2)
    return refuse({
      code: "too-few-points",
      path: ["group"],
      message: `${line.x.length} points in ${names.length} groups; needed: two more points than groups.`,
    });
  const [lnX, lnY] = [Array.from(line.x, Math.log), Array.from(line.y, Math.log)];
  const members = names.map((name) => lnX.map((_, i) => (group[i] === name ? 1 : 0)));
  const standard = effective(line, alone.value.values.exponent.value);
  const weighted = standard === undefined ? {} : { standard };
  const common = fitLinear({ columns: [lnX, ...members], y: lnY, ...weighted });
  if (!common.ok) return common;
  const own = fitLinear({
    columns: [...members.map((list) => list.map((one, i) => one * lnX[i]!)), ...members],
    y: lnY,
    ...weighted,
  });
  const { values, standardUncertainties, degreesOfFreedom, residuals } = common.value;
  const factor = studentQuantile((1 + coverageOfIntervals) / 2, Math.max(1, degreesOfFreedom));
  const read = (i: number): ReadValue => readValue(values[i]!, standardUncertainties?.[i] ?? null, factor);
  const factorOf = (i: number): ReadValue => {
    const { value, standardUncertainty, low, high } = read(i);
    const c = Math.exp(value);
    return {
      value: c,
      standardUncertainty: standardUncertainty === null ? null : c * standardUncertainty,
      low: low === null ? null : Math.exp(low),
      high: high === null ? null : Math.exp(high),
    };
  };
  const model = residuals.map((rest, i) => Math.exp(lnY[i]! - rest));
  const left = model.map((value, i) => line.y[i]! - value);
  const law: PowerLaw = {
    ...alone.value,
    values: {
      exponent: read(0),
      factor: factorOf(1),
      ...Object.fromEntries(names.slice(1).map((name, k) => [`factor of ${name}`, factorOf(k + 2)])),
    },
    residuals: residualsOf(left),
    degreesOfFreedom,
    reducedSum: common.value.sumOfSquares / Math.max(1, degreesOfFreedom),
    model,
  };
  return answer(law, own.ok ? difference(common.value, own.value, names) : []);
}

function effective({ x, y, standardX, standardY }: LineQuestion, slope: number): number[] | undefined {
  if (standardX === undefined && standardY === undefined) return undefined;
  return Array.from(x, (value, i) =>
    Math.hypot((standardY?.[i] ?? 0) / y[i]!, (slope * (standardX?.[i] ?? 0)) / value),
  );
}

function difference(common: LinearFit, own: LinearFit, names: readonly number[]): Problem[] {
  const more = names.length - 1;
  if (own.degreesOfFreedom < 1 || !(own.sumOfSquares > 0)) return [];
  const ratio = ((common.sumOfSquares - own.sumOfSquares) / more / own.sumOfSquares) * own.degreesOfFreedom;
  if (!(fisherShare(ratio, more, own.degreesOfFreedom) > demanded)) return [];
  const list = names.map((name, i) => `${name}: ${own.values[i]!.toFixed(2)}`).join(", ");
  return [
    {
      code: "groups-differ",
      path: ["group"],
      message: `The groups do not share one exponent (${list}): something else differs between them. Fit them one by one.`,
    },
  ];
}
