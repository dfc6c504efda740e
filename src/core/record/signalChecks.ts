/** What the samples of one channel betray: clipping, silence. */

export interface Clipping {
  /** Samples that lie at the upper and at the lower stop. */
  readonly upper: number;
  readonly lower: number;
  /** Row of the first one, from 0. */
  readonly first: number;
}

/**
 * Clipping: runs of three and more equal samples at the extreme value that the slope before them would have passed by more
 * than three steps of the converter. A natural crest that is flat by quantization alone is none.
 */
export function clippingOf(values: Float64Array): Clipping | null {
  let [smallest, largest, quantum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
    const step = Math.abs(value - (values[i - 1] ?? value));
    if (step > 0 && step < quantum) quantum = step;
  }
  if (!(largest > smallest)) return null;
  const fine = (largest - smallest) * 1e-9;
  if (quantum < fine) quantum = fine;
  const upper = stopped(values, largest, 1, quantum);
  const lower = stopped(values, smallest, -1, quantum);
  if (upper.count + lower.count === 0) return null;
  return { upper: upper.count, lower: lower.count, first: Math.min(upper.first, lower.first) };
}

function stopped(values: Float64Array, stop: number, sign: 1 | -1, quantum: number) {
  let [count, first] = [0, Number.POSITIVE_INFINITY];
  for (let i = 2; i < values.length; ) {
    if (values[i] !== stop || values[i - 1] === stop) {
      i += 1;
      continue;
    }
    let end = i;
    while (values[end] === stop) end += 1;
    const slope = sign * (values[i - 1]! - values[i - 2]!);
    const after = sign * ((values[end] ?? stop) - (values[end + 1] ?? stop));
    const length = end - i;
    if (length >= 3 && (Math.max(slope, after) * length) / 4 > 3 * quantum) {
      count += length;
      first = Math.min(first, i);
    }
    i = end;
  }
  return { count, first };
}
