/** Stepped tones: a record in which the excitation stays at one frequency after another, to a response over frequency. */
import { answer, type Outcome, type Problem, refuse } from "../problem.ts";
import { type RecordedResponse, type RecordPair, responseOfTone } from "./recordedResponse.ts";
import { fitTone, type Tone } from "./tone.ts";

interface Step {
  readonly from: number;
  readonly to: number;
  /** About [Hz]. */
  readonly frequency: number;
}

/** Share of each step in which the microphone is still getting there. */
const settling = 0.3;
const leastPeriods = 8;
/** Of one step, the mean of a few periods agrees with that of all within this, and an error of the crossings [samples]. */
const samePeriod = 0.004;
const crossingError = 0.06;

/**
 * Each step is found by the crossings of the reference (or by `told`, the frequency said for each sample [Hz]), its start is
 * left out, sines are fitted to both channels. The coherence is the share of the output that is the tone.
 *
 * Problems: `columns-unequal`, `no-steps`, those of `responseOfTone`. Remark: `steps-left-out`.
 */
export function responseOfSteps(
  { reference, output, sampling }: RecordPair,
  told?: ArrayLike<number>,
): Outcome<RecordedResponse> {
  if (reference.length !== output.length)
    return refuse({
      code: "columns-unequal",
      path: ["output"],
      message: `The reference has ${reference.length} samples, the output ${output.length}; needed: both at once.`,
    });
  const steps = told === undefined ? stepsOf(reference, sampling) : stepsTold(told);
  const long = steps.filter(({ from, to, frequency }) => ((to - from) * frequency) / sampling >= leastPeriods);
  if (long.length < 2)
    return refuse({
      code: "no-steps",
      path: ["reference"],
      message: `Steps of ${leastPeriods} periods or more found in the reference: ${long.length}; needed: two or more tones, one after the other. Is it a sweep, or noise?`,
    });
  const points: {
    readonly frequency: number;
    readonly re: number;
    readonly im: number;
    readonly standard: number;
    readonly coherence: number;
  }[] = [];
  let leftOut = 0;
  for (const { from, to, frequency } of long) {
    const begin = from + Math.floor(settling * (to - from));
    const part = (list: Float64Array) => list.slice(begin, to);
    const [x, y] = [part(reference), part(output)];
    const tone = x.some(Number.isNaN) || y.some(Number.isNaN) ? null : fitTone(x, sampling, frequency);
    const read =
      tone?.ok && isTone(tone.value)
        ? responseOfTone({ reference: x, output: y, sampling }, tone.value.frequency)
        : null;
    if (tone?.ok && read?.ok) points.push({ frequency: tone.value.frequency, ...read.value });
    else leftOut += 1;
  }
  if (points.length < 2)
    return refuse({
      code: "no-steps",
      path: ["reference"],
      message: `Steps that can be read: ${points.length} of ${long.length}; needed: two or more that hold a steady tone and no missing samples.`,
    });
  points.sort((a, b) => a.frequency - b.frequency);
  const list = (of: (point: (typeof points)[number]) => number) => Float64Array.from(points, of);
  const remarks: Problem[] =
    leftOut > 0
      ? [
          {
            code: "steps-left-out",
            path: ["reference"],
            message: `${leftOut} of ${long.length} steps were left out: samples are missing in them, or they hold no tone.`,
          },
        ]
      : [];
  return answer(
    {
      frequency: list(({ frequency }) => frequency),
      re: list(({ re }) => re),
      im: list(({ im }) => im),
      coherence: list(({ coherence }) => coherence),
      standard: list(({ standard }) => standard),
      averages: 1,
    },
    remarks,
  );
}

/** More than half of the power is the tone: noise has none. */
const isTone = ({ amplitude, residuals }: Tone) =>
  residuals.reduce((sum, value) => sum + value * value, 0) / residuals.length < amplitude ** 2 / 2;

function stepsTold(told: ArrayLike<number>): Step[] {
  const steps: Step[] = [];
  let from = 0;
  for (let i = 1; i <= told.length; i++) {
    if (i < told.length && told[i] === told[from]) continue;
    if (told[from]! > 0) steps.push({ from, to: i, frequency: told[from]! });
    from = i;
  }
  return steps;
}

/** Runs of equal periods between upward crossings. A crossing counts once the signal has been well below the middle. */
function stepsOf(reference: Float64Array, sampling: number): Step[] {
  let [sum, squares, count] = [0, 0, 0];
  for (const value of reference)
    if (!Number.isNaN(value)) {
      sum += value;
      squares += value * value;
      count += 1;
    }
  const mean = sum / Math.max(1, count);
  const below = -0.3 * Math.sqrt(Math.max(0, squares / Math.max(1, count) - mean * mean));
  const crossings: number[] = [];
  let armed = false;
  for (let i = 1; i < reference.length; i++) {
    const [before, here] = [reference[i - 1]! - mean, reference[i]! - mean];
    if (here < below) armed = true;
    if (!armed || !(before < 0 && here >= 0)) continue;
    crossings.push(i - here / (here - before));
    armed = false;
  }
  return runsOf(crossings, sampling);
}

/** From each start on as long as the last few periods are those of the whole run. */
function runsOf(crossings: readonly number[], sampling: number): Step[] {
  const steps: Step[] = [];
  const mean = (from: number, to: number) => (crossings[to]! - crossings[from]!) / (to - from);
  let first = 0;
  while (first + leastPeriods < crossings.length) {
    let last = first + leastPeriods;
    const goesOn = () => {
      const typical = mean(first, last);
      return (
        Math.abs(mean(last + 1 - leastPeriods, last + 1) - typical) <= samePeriod * typical + crossingError &&
        Math.abs(mean(last, last + 1) - typical) <= 0.25 * typical
      );
    };
    while (last + 1 < crossings.length && goesOn()) last += 1;
    const ended = last + 1 === crossings.length;
    // What broke the run lies within its last few periods.
    const to = ended ? last : last - leastPeriods;
    if (to - first >= leastPeriods)
      steps.push({
        from: Math.ceil(crossings[first]!),
        to: Math.floor(crossings[to]!),
        frequency: sampling / mean(first, to),
      });
    first = to - first >= leastPeriods ? last : first + 1;
  }
  return steps;
}
