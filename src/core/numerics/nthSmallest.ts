/** One value of a sorted list without sorting it: C. A. R. Hoare, Communications of the ACM 4 (1961), algorithm 65. */

/** The value that stands at place `n`, from 0, once `values` are sorted. They are moved about; none may be NaN. */
export function nthSmallest(values: Float64Array, n: number): number {
  let [low, high] = [0, values.length - 1];
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let [i, k] = [low, high];
    while (i <= k) {
      while (values[i]! < pivot) i += 1;
      while (values[k]! > pivot) k -= 1;
      if (i <= k) {
        const moved = values[i]!;
        values[i] = values[k]!;
        values[k] = moved;
        i += 1;
        k -= 1;
      }
    }
    // Up to k all are at most the pivot, from i on at least; between them it stands itself.
    if (n <= k) high = k;
    else if (n >= i) low = i;
    else return pivot;
  }
  return values[n]!;
}
