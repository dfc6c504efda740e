/** A complex curve, given as two lists, as people draw it: level and phase. */

/** Level, dB re `reference` (a positive magnitude in the unit of the curve): 20 log10(|S| / reference); null where S = 0. */
export function levelsDb(
  { re, im }: { readonly re: readonly number[]; readonly im: readonly number[] },
  reference: number,
): (number | null)[] {
  return re.map((x, i) => {
    const magnitude = Math.hypot(x, im[i] ?? 0);
    return magnitude > 0 ? 20 * Math.log10(magnitude / reference) : null;
  });
}

/**
 * Phase [rad] without jumps: each value lies within pi of the one before, the first in (-pi, pi].
 * Holds: neighbors on the curve differ by less than half a turn; a curve that is sampled too coarsely loses whole turns.
 */
export function unwrappedPhase({
  re,
  im,
}: {
  readonly re: readonly number[];
  readonly im: readonly number[];
}): number[] {
  const phases: number[] = [];
  let before = 0;
  for (const [i, x] of re.entries()) {
    const raw = Math.atan2(im[i] ?? 0, x);
    const turns = i === 0 ? 0 : Math.round((before - raw) / (2 * Math.PI));
    before = raw + 2 * Math.PI * turns;
    phases.push(before);
  }
  return phases;
}
