/** Fewer points to draw that hide no peak: of each stretch its lowest and its highest sample, in their order. */

/** Indices to draw of `y`, at most about 2 `stretches`; all of them where there are not more. NaN is passed over. */
export function decimated(y: ArrayLike<number>, stretches: number): Int32Array {
  const count = y.length;
  if (count <= 2 * stretches) return Int32Array.from({ length: count }, (_, i) => i);
  const kept: number[] = [];
  for (let s = 0; s < stretches; s++) {
    const from = Math.floor((s * count) / stretches);
    const to = Math.floor(((s + 1) * count) / stretches);
    let [low, high] = [-1, -1];
    for (let i = from; i < to; i++) {
      const value = y[i]!;
      if (Number.isNaN(value)) continue;
      if (low < 0 || value < y[low]!) low = i;
      if (high < 0 || value > y[high]!) high = i;
    }
    if (low < 0) continue;
    if (low === high) kept.push(low);
    else kept.push(Math.min(low, high), Math.max(low, high));
  }
  return Int32Array.from(kept);
}
