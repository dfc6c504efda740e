/** Upper triangles of least-squares problems: Householder's reduction, substitution, the inverse. Row-major. */

/**
 * Reduces columns | right to R and Q^T right, in place on the columns given (column-major, `rows` a column).
 * Source: Golub 1965 (from memory, to be confirmed). Holds: rows >= columns.
 */
export function reduceToTriangle(
  columns: readonly Float64Array[],
  right: Float64Array,
  rows: number,
): { readonly triangle: Float64Array; readonly projected: Float64Array } {
  const count = columns.length;
  const triangle = new Float64Array(count * count);
  for (let k = 0; k < count; k++) {
    const pivot = columns[k]!;
    let largest = 0;
    for (let i = k; i < rows; i++) largest = Math.max(largest, Math.abs(pivot[i]!));
    if (largest > 0) {
      let sum = 0;
      for (let i = k; i < rows; i++) sum += (pivot[i]! / largest) ** 2;
      const size = Math.sqrt(sum) * largest;
      const alpha = pivot[k]! > 0 ? -size : size;
      const first = pivot[k]! - alpha;
      // v = (first, pivot below); v^T v / 2 = -alpha first
      const factor = 1 / (-alpha * first);
      pivot[k] = first;
      for (const other of [...columns.slice(k + 1), right]) {
        let dot = 0;
        for (let i = k; i < rows; i++) dot += pivot[i]! * other[i]!;
        dot *= factor;
        for (let i = k; i < rows; i++) other[i]! -= dot * pivot[i]!;
      }
      triangle[k * count + k] = alpha;
    }
    for (let j = k + 1; j < count; j++) triangle[k * count + j] = columns[j]![k]!;
  }
  return { triangle, projected: right.slice(0, count) };
}

/** Solves R x = right; null where R is singular. */
export function backSubstitute(triangle: Float64Array, right: Float64Array): Float64Array | null {
  const count = right.length;
  const x = Float64Array.from(right);
  for (let i = count - 1; i >= 0; i--) {
    for (let j = i + 1; j < count; j++) x[i]! -= triangle[i * count + j]! * x[j]!;
    const pivot = triangle[i * count + i]!;
    if (pivot === 0) return null;
    x[i]! /= pivot;
  }
  return x;
}

/** (R^T R)^-1, row-major; null where R is singular to round-off. Columns are scaled to one length first. */
export function inverseOfNormal(triangle: Float64Array, count: number): Float64Array | null {
  const norms = Float64Array.from({ length: count }, (_, j) => {
    let sum = 0;
    for (let i = 0; i <= j; i++) sum += triangle[i * count + j]! ** 2;
    return Math.sqrt(sum);
  });
  const inverse = new Float64Array(count * count);
  for (let j = 0; j < count; j++) {
    const unit = new Float64Array(count);
    unit[j] = 1;
    const column =
      norms[j]! > 0 && Math.abs(triangle[j * count + j]!) > 1e-15 * norms[j]! ? backSubstitute(triangle, unit) : null;
    if (column === null) return null;
    for (let i = 0; i < count; i++) inverse[i * count + j] = column[i]!;
  }
  const out = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      let sum = 0;
      for (let k = Math.max(i, j); k < count; k++) sum += inverse[i * count + k]! * inverse[j * count + k]!;
      out[i * count + j] = sum;
    }
  return out;
}
