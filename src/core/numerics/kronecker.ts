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
  for (const { x, y } of terms) {
    for (let k = 0; k < nx; k++) {
      const inner = new Float64Array(ny);
      for (let j = 0; j < ny; j++) {
        let sum = 0;
        for (let l = 0; l < ny; l++) sum += y[j * ny + l]! * vector[k * ny + l]!;
        inner[j] = sum;
      }
      for (let i = 0; i < nx; i++) {
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

/** The same for a matrix that stands in band storage, in its place. */
export function factoredBand(matrix: BandCholesky): BandCholesky | null {
  for (let i = 0; i < matrix.size; i++) if (!factorRow(matrix, i)) return null;
  return matrix;
}

/** Row i of the factor, those above it being done; false where the pivot is not positive. */
function factorRow({ half, lower }: BandCholesky, i: number): boolean {
  const width = half + 1;
  const rowI = i * width + half - i;
  const first = Math.max(0, i - half);
  const given = lower[rowI + i]!;
  for (let j = first; j < i; j++) {
    const rowJ = j * width + half - j;
    let value = lower[rowI + j]!;
    for (let k = Math.max(first, j - half); k < j; k++) value -= lower[rowI + k]! * lower[rowJ + k]!;
    lower[rowI + j] = value / lower[rowJ + j]!;
  }
  let pivot = given;
  for (let k = first; k < i; k++) pivot -= lower[rowI + k]! ** 2;
  if (!(pivot > 1e-13 * Math.abs(given))) return false;
  lower[rowI + i] = Math.sqrt(pivot);
  return true;
}

/** Solves with the factor. */
export function bandSolve({ size, half, lower }: BandCholesky, right: Float64Array): Float64Array {
  const width = half + 1;
  const x = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    const row = i * width + half - i;
    let value = x[i]!;
    for (let k = Math.max(0, i - half); k < i; k++) value -= lower[row + k]! * x[k]!;
    x[i] = value / lower[row + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    const row = i * width + half - i;
    const value = x[i]! / lower[row + i]!;
    x[i] = value;
    for (let k = Math.max(0, i - half); k < i; k++) x[k]! -= lower[row + k]! * value;
  }
  return x;
}
