/** Median and quartiles of a few times. */

const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);

/** Value below which a share of the sorted values lies, between neighbors by proportion. */
export function quantile(values: readonly number[], share: number): number {
  const order = sorted(values);
  const at = share * (order.length - 1);
  const below = order[Math.floor(at)] ?? Number.NaN;
  const above = order[Math.ceil(at)] ?? Number.NaN;
  return below + (at - Math.floor(at)) * (above - below);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** Distance of the quartiles over the median [-]. */
export const spread = (values: readonly number[]): number =>
  (quantile(values, 0.75) - quantile(values, 0.25)) / median(values);
