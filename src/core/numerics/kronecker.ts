/**
 * Sums of Kronecker products of small banded symmetric matrices: sum_t X_t x Y_t.
 *
 * Unknown i * ny + j belongs to row i of X and row j of Y. X and Y are row-major, nx x nx and ny x ny.
 */
export interface KroneckerSum {
  readonly nx: number;
  readonly ny: number;
  readonly terms: readonly { readonly x: Float64Array; readonly y: Float64Array }[];
}

/** The whole matrix, row-major. */
export function dense({ nx, ny, terms }: KroneckerSum): Float64Array {
  const size = nx * ny;
  const result = new Float64Array(size * size);
  for (const { x, y } of terms) {
    for (let i = 0; i < nx; i++) {
      for (let k = 0; k < nx; k++) {
        const factor = x[i * nx + k]!;
        if (factor === 0) continue;
        for (let j = 0; j < ny; j++) {
          const row = (i * ny + j) * size + k * ny;
          for (let l = 0; l < ny; l++) result[row + l]! += factor * y[j * ny + l]!;
        }
      }
    }
  }
  return result;
}

/** Product with a vector of nx * ny unknowns. */
export function multiplyKronecker({ nx, ny, terms }: KroneckerSum, vector: Float64Array): Float64Array {
  const result = new Float64Array(nx * ny);
  const inner = new Float64Array(ny);
  for (const { x, y } of terms) {
    const reachX = bandwidth(x, nx);
    const reachY = bandwidth(y, ny);
    for (let k = 0; k < nx; k++) {
      for (let j = 0; j < ny; j++) {
        let sum = 0;
        const last = Math.min(ny - 1, j + reachY);
        for (let l = Math.max(0, j - reachY); l <= last; l++) sum += y[j * ny + l]! * vector[k * ny + l]!;
        inner[j] = sum;
      }
      const last = Math.min(nx - 1, k + reachX);
      for (let i = Math.max(0, k - reachX); i <= last; i++) {
        const factor = x[i * nx + k]!;
        if (factor === 0) continue;
        for (let j = 0; j < ny; j++) result[i * ny + j]! += factor * inner[j]!;
      }
    }
  }
  return result;
}

/** How far from the diagonal a matrix has entries. */
function bandwidth(matrix: Float64Array, n: number): number {
  let widest = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i - widest; j++) if (matrix[i * n + j] !== 0) widest = i - j;
  }
  return widest;
}

/** Cholesky factor in band storage: row i holds columns i - half .. i. */
export interface BandCholesky {
  readonly size: number;
  readonly half: number;
  readonly lower: Float64Array;
}

/** Factor of a positive definite sum; null where it is not positive definite. Work: size * half^2 / 2. */
export function bandCholesky(sum: KroneckerSum): BandCholesky | null {
  return factoredBand(bandOf(sum));
}

/** The lower half of a sum in band storage. */
function bandOf({ nx, ny, terms }: KroneckerSum): BandCholesky {
  const size = nx * ny;
  const reaches = terms.map(({ x, y }) => ({ x: bandwidth(x, nx), y: bandwidth(y, ny) }));
  const half = reaches.reduce((most, reach) => Math.max(most, reach.x * ny + reach.y), 0);
  const lower = new Float64Array(size * (half + 1));
  terms.forEach(({ x, y }, t) => {
    const reach = reaches[t]!;
    for (let i = 0; i < nx; i++) {
      for (let k = Math.max(0, i - reach.x); k <= i; k++) {
        const factor = x[i * nx + k]!;
        if (factor !== 0) addBlock(lower, { half, ny, i, k, reach: reach.y }, factor, y);
      }
    }
  });
  return { size, half, lower };
}

/** Adds factor times Y to the block of rows i ny .. and columns k ny ..; of a block on the diagonal its lower half. */
function addBlock(
  lower: Float64Array,
  at: { readonly half: number; readonly ny: number; readonly i: number; readonly k: number; readonly reach: number },
  factor: number,
  y: Float64Array,
): void {
  const { half, ny, i, k, reach } = at;
  for (let j = 0; j < ny; j++) {
    const last = Math.min(k === i ? j : ny - 1, j + reach);
    // Entry (row, column) stands at row (half + 1) + column - row + half.
    const row = (i * ny + j) * half + k * ny + half;
    for (let l = Math.max(0, j - reach); l <= last; l++) lower[row + l]! += factor * y[j * ny + l]!;
  }
}

/** The same for a matrix that stands in band storage, in its place; two rows at a time. */
export function factoredBand(matrix: BandCholesky): BandCholesky | null {
  for (let i = 0; i < matrix.size; i += 2) if (!factorRows(matrix, i, Math.min(i + 1, matrix.size - 1))) return null;
  return matrix;
}

/**
 * Rows i and next = i + 1 of the factor, those above them being done; false where a pivot is not positive. Two rows by two columns
 * at a time: half the reading of one by one. The last row of an odd number is its own partner, and so is a last column.
 */
function factorRows({ half, lower }: BandCholesky, i: number, next: number): boolean {
  const width = half + 1;
  const rowI = i * width + half - i;
  const rowN = next * width + half - next;
  const start = Math.max(0, next - half);
  // The upper row may begin a column earlier.
  const early = Math.max(0, i - half);
  const given = [lower[rowI + i]!, lower[rowN + next]!] as const;
  const first = early < start ? lower[rowI + early]! / lower[early * width + half]! : 0;
  if (early < start) lower[rowI + early] = first;
  for (let j = start; j < i; j += 2) {
    const other = j + 1 < i ? j + 1 : j;
    const rowJ = j * width + half - j;
    const rowO = other * width + half - other;
    let a = lower[rowI + j]!;
    let b = lower[rowI + other]!;
    let c = lower[rowN + j]!;
    let d = lower[rowN + other]!;
    if (early < start) {
      a -= first * lower[rowJ + early]!;
      b -= first * lower[rowO + early]!;
    }
    for (let k = start; k < j; k++) {
      const u = lower[rowI + k]!;
      const v = lower[rowN + k]!;
      const l = lower[rowJ + k]!;
      const m = lower[rowO + k]!;
      a -= u * l;
      b -= u * m;
      c -= v * l;
      d -= v * m;
    }
    const pivot = 1 / lower[rowJ + j]!;
    lower[rowI + j] = a * pivot;
    lower[rowN + j] = c * pivot;
    if (other === j) break;
    const between = lower[rowO + j]!;
    const last = 1 / lower[rowO + other]!;
    lower[rowI + other] = (b - a * pivot * between) * last;
    lower[rowN + other] = (d - c * pivot * between) * last;
  }
  let p = given[0] - first * first;
  let q = lower[rowN + i]!;
  let r = given[1];
  for (let k = start; k < i; k++) {
    const u = lower[rowI + k]!;
    const v = lower[rowN + k]!;
    p -= u * u;
    q -= u * v;
    r -= v * v;
  }
  if (!(p > leastPivot * Math.abs(given[0]))) return false;
  const root = Math.sqrt(p);
  lower[rowI + i] = root;
  if (next === i) return true;
  const between = q / root;
  lower[rowN + i] = between;
  r -= between * between;
  if (!(r > leastPivot * Math.abs(given[1]))) return false;
  lower[rowN + next] = Math.sqrt(r);
  return true;
}

/** Pivots below this share of what stood in their place are noise: the matrix is not positive definite. */
const leastPivot = 1e-13;

/** Solves with the factor. */
export function bandSolve({ size, half, lower }: BandCholesky, right: Float64Array): Float64Array {
  const width = half + 1;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    const row = i * width + half - i;
    let value = x[i]!;
    // Two sums, so that one need not wait for the other.
    let other = 0;
    let k = Math.max(0, i - half);
    for (; k + 1 < i; k += 2) {
      value -= lower[row + k]! * x[k]!;
      other -= lower[row + k + 1]! * x[k + 1]!;
    }
    if (k < i) value -= lower[row + k]! * x[k]!;
    x[i] = (value + other) / lower[row + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = i * width + half - i;
    const value = x[i]! / lower[row + i]!;
    x[i] = value;
    for (let k = Math.max(0, i - half); k < i; k++) x[k]! -= lower[row + k]! * value;
  }
  return x;
}
