/**
 * The sensitivity by comparison with a reference, or by a known pressure. An electrostatic actuator is impossible without a
 * conductor on the diaphragm.
 */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type Budget, combineUncertainty } from "./budget.ts";
import type { BudgetInput } from "./budgetQuestion.ts";

/** Phase of an output by the sine curve between `low` and `high` [V], zero at its middle. Outside the curve there is none: NaN. */
export function phaseOfOutput(
  output: Float64Array,
  { low, high }: { readonly low: number; readonly high: number },
): { readonly phase: Float64Array; readonly outside: number } {
  const [middle, half] = [(low + high) / 2, (high - low) / 2];
  let outside = 0;
  const phase = output.map((value) => {
    const share = (value - middle) / half;
    if (Math.abs(share) > 1) outside += 1;
    return Math.abs(share) > 1 ? Number.NaN : Math.asin(share);
  });
  return { phase, outside };
}

/** What stands behind a sound pressure; each a share of it (0.01 is 1 %), as a standard uncertainty. */
export interface PressureLines {
  readonly reference: number;
  readonly level: number;
  readonly volume: number;
  readonly ambient: number;
  readonly position: number;
  readonly repeat: number;
  readonly drift: number;
  readonly biasSlope: number;
}

/** Names of the lines in the order of a budget. Source: common practice, after [iec-60942], [iec-61094-5], [iec-61094-8]. */
export const pressureLineNames: readonly (keyof PressureLines)[] = [
  "reference",
  "level",
  "volume",
  "ambient",
  "position",
  "repeat",
  "drift",
  "biasSlope",
];

export interface SensitivityComparison {
  /** Output of the microphone [rad or V] and of the reference [V], at one frequency. */
  readonly output: number;
  readonly referenceOutput: number;
  /** Sensitivity of the reference [V/Pa]. */
  readonly referenceSensitivity: number;
  /**
   * "substitution": one after the other in the same field; "simultaneous": side by side; "calibrator": a known pressure in place
   * of the reference, with the volume that the microphone adds to its coupler.
   */
  readonly how: "substitution" | "simultaneous" | "calibrator";
  /** Coupler's volume and what the microphone adds [m^3]; the pressure falls by V / (V + added). Only for a calibrator. */
  readonly coupler?: { readonly volume: number; readonly added: number };
  /** Lines as shares; those absent are zero and say so in the budget. */
  readonly lines: Partial<PressureLines>;
  /** Readings of the repeat line. */
  readonly repeats?: number;
  /** Scatter of the fits behind the two outputs, as a share. */
  readonly scatter?: { readonly share: number; readonly degreesOfFreedom: number };
}

/**
 * Sensitivity by comparison, S = output / pressure, with its budget. Problems: `no-reference`, those of `combineUncertainty`.
 * Remark: `line-missing` with the lines that are not given.
 */
export function compareSensitivity(question: SensitivityComparison): Outcome<Budget> {
  const { output, referenceOutput, referenceSensitivity, how, coupler, lines, repeats, scatter } = question;
  if (!(referenceSensitivity > 0) || !(referenceOutput !== 0))
    return refuse({
      code: "no-reference",
      path: ["referenceSensitivity"],
      message: `Reference: ${referenceOutput} at ${referenceSensitivity} per pascal; needed: an output other than zero and a sensitivity above zero.`,
    });
  const load = how === "calibrator" && coupler !== undefined ? coupler.volume / (coupler.volume + coupler.added) : 1;
  const pressure = (referenceOutput / referenceSensitivity) * load;
  const inputs = pressureLineNames.map(
    (name): BudgetInput => ({
      name,
      value: 1,
      standard: lines[name] ?? 0,
      ...(name === "repeat" && repeats !== undefined && repeats > 1 && { degreesOfFreedom: repeats - 1 }),
    }),
  );
  if (scatter !== undefined)
    inputs.push({
      name: "scatter",
      value: 1,
      standard: scatter.share,
      degreesOfFreedom: Math.max(1, scatter.degreesOfFreedom),
    });
  const combined = combineUncertainty({
    model: (factors) => (output / pressure) * factors.reduce((product, factor) => product * factor, 1),
    inputs,
    monteCarlo: { count: 20_000, seed: 1 },
  });
  if (!combined.ok) return combined;
  const missing = pressureLineNames.filter((name) => lines[name] === undefined);
  return answer(combined.value, [
    ...combined.remarks,
    ...(missing.length === 0
      ? []
      : [
          {
            code: "line-missing",
            path: ["lines"],
            message: `Lines of the budget that were not given count as zero: ${missing.join(", ")}. Give each, or say why it is nothing.`,
          } satisfies Problem,
        ]),
  ]);
}
