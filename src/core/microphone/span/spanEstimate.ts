/**
 * Error of a device's response on the first functions of a span, from those that it left out.
 *
 *     dS = (l_Z - T_Zf y) . e,   T_ZZ e = b_Z - T_Zf x
 *
 * x is the answer and y that to the output itself, both on the functions used (f); Z are the functions left out, plate and film
 * kept apart, so that the matrix T is a sum with factors. What neither of them holds is not seen: spanShapes leaves far less of it.
 * Derivation: docs/theory/engine.md.
 */
import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import {
  type ComplexVector,
  complexVector,
  factorSymmetric,
  type SymmetricWork,
  symmetricForms,
  symmetricWork,
} from "../../numerics/complexSymmetric.ts";
import { type Room, sharedRoom } from "../../numerics/room.ts";
import { type Rows, rowProducts } from "../../numerics/rowProducts.ts";
import { termFactors } from "../../parts/diaphragm/plate.ts";
import { plateShape } from "../../parts/diaphragm/shape.ts";
import { type ReducedSystem, reducedDuals } from "../basis/reduced.ts";
import { apply, type Part, partOf, type ShapeSpan, type SpannedDevice } from "./shapeSpan.ts";

/** Largest |dS| / max(|S|, floor) at some frequencies [rad/s], floor in rad/Pa [-]. */
export function spanEstimate(
  span: ShapeSpan,
  device: SpannedDevice,
  system: ReducedSystem,
  { at, floor }: { readonly at: readonly Complex[]; readonly floor: number },
): number {
  const { count, filmCount, few } = span;
  if (count + filmCount === few.count + few.filmCount) return 0;
  const rest = restOf(span, device, system);
  return at.reduce((worst, omega) => {
    const { off, response } = offAt(rest, device, system, omega);
    return Math.max(worst, off / Math.max(absolute(response), floor));
  }, 0);
}

/** What no frequency changes of the functions left out: rows of T on those used (f) and on themselves, loads, and room. */
interface Rest {
  readonly count: number;
  readonly filmCount: number;
  /** Plate rows on the plate's functions used: stiffness, and its bending alone, null where that is all. */
  readonly stiff: Float64Array;
  readonly bending: Float64Array | null;
  /** Plate rows on the film's functions used, film rows on the plate's, film rows on the film's. */
  readonly coupling: Float64Array;
  readonly filmCoupling: Float64Array;
  readonly waves: Float64Array;
  /** The same among themselves, the third film rows on plate rows. */
  readonly own: {
    readonly stiff: Float64Array;
    readonly bending: Float64Array | null;
    readonly coupling: Float64Array;
    readonly waves: Float64Array;
  };
  readonly load: Float64Array;
  readonly ones: Float64Array;
  /** The line of light: mass and tension on the plate rows, influence on the film rows. */
  readonly mass: Float64Array;
  readonly tension: Float64Array | null;
  readonly film: Float64Array;
  /** Right side b and left side l, and the matrix. */
  readonly sides: ComplexVector;
  readonly matrix: ComplexVector;
  readonly work: SymmetricWork;
  readonly forms: ComplexVector;
  /** For what one frequency needs and leaves behind. */
  readonly room: Room;
}

function restOf(span: ShapeSpan, { light, line }: SpannedDevice, { microphone }: ReducedSystem): Rest {
  const shape = plateShape(microphone.diaphragm);
  const factors = termFactors(shape);
  const { few } = span;
  const [count, filmCount] = [span.count - few.count, span.filmCount - few.filmCount];
  const size = count + filmCount;
  const stressed = line.tension !== null;
  // What two frequencies take; a third one's comes by itself.
  const room = sharedRoom(
    4 * size * (size + 3) + 2 * size * (span.count + span.filmCount) + 16 * (span.count + span.filmCount + size),
  );
  /** Stiffness and its bending alone, null where that is all. */
  const stiffOn = (part: Part) => {
    const bending = partOf(span.bending, factors.bending, part, room);
    if (!stressed) return { stiff: bending, bending: null };
    const stiff = partOf(span.tension, factors.tension, part, room);
    for (let at = 0; at < stiff.length; at++) stiff[at]! += bending[at]!;
    return { stiff, bending };
  };
  const wavesOn = (part: Part) => partOf([span.filmAcross, span.filmAlong], [1, 1 / shape.aspect ** 2], part, room);
  const couplingOn = (part: Part) => partOf([span.coupling], [1], part, room);
  const rows = (width: number, from: number, rowCount: number, columnFrom: number, columns: number): Part => ({
    width,
    from: [from, columnFrom],
    count: [rowCount, columns],
  });
  const onPlate = rows(span.count, few.count, count, 0, few.count);
  const inPlate = rows(span.count, few.count, count, few.count, count);
  const onRows = (matrix: Float64Array, from: number, rowCount: number) =>
    apply(matrix.subarray(from * light.length), light, light.length, rowCount, room);
  const stretched = span.light.stretched.map((matrix) => (stressed ? onRows(matrix, few.count, count) : null));
  return {
    count,
    filmCount,
    ...stiffOn(onPlate),
    coupling: couplingOn(rows(span.filmCount, few.count, count, 0, few.filmCount)),
    filmCoupling: transposed(couplingOn(rows(span.filmCount, 0, few.count, few.filmCount, filmCount)), filmCount, room),
    waves: wavesOn(rows(span.filmCount, few.filmCount, filmCount, 0, few.filmCount)),
    own: {
      ...stiffOn(inPlate),
      coupling: transposed(
        couplingOn(rows(span.filmCount, few.count, count, few.filmCount, filmCount)),
        filmCount,
        room,
      ),
      waves: wavesOn(rows(span.filmCount, few.filmCount, filmCount, few.filmCount, filmCount)),
    },
    load: span.load.subarray(few.count),
    ones: span.ones.subarray(few.filmCount),
    mass: onRows(span.light.mass, few.count, count),
    tension: stressed
      ? partOf(
          stretched.map((row) => row!),
          factors.tension,
          rows(count, 0, 1, 0, count),
        )
      : null,
    film: onRows(span.light.film, few.filmCount, filmCount),
    sides: complexVector(2 * size, room),
    matrix: complexVector(size * size, room),
    work: symmetricWork(size, room),
    forms: complexVector(4, room),
    room,
  };
}

/** |dS| at a frequency [rad/Pa], and S. */
function offAt(rest: Rest, device: SpannedDevice, system: ReducedSystem, omega: Complex) {
  const { response, sound, output } = reducedDuals(system, device.line, omega);
  const { microphone, scales, numbers } = system;
  const at: Frequency = {
    eta: microphone.diaphragm.lossFactor,
    lambda: scale(multiply(omega, omega), scales.lambda),
    perK: numbers?.perK ?? zero,
    uniform: numbers?.uniform ?? zero,
    net: subtract(sound.front, sound.back),
    behind: numbers ? multiply(numbers.compression, sound.back) : zero,
  };
  const plate = turnedBack(device.turn, sound.plate, output.plate, rest.room);
  const film = turnedBack(device.filmTurn, sound.film, output.film, rest.room);
  fillSides(rest, plate, film, at);
  fillMatrix(rest, at);
  const { work, matrix, sides, forms } = rest;
  factorSymmetric(work, matrix.re, matrix.im);
  symmetricForms(work, sides, 2, forms);
  return { off: Math.hypot(forms.re[2]!, forms.im[2]!), response };
}

interface Frequency {
  readonly eta: number;
  readonly lambda: Complex;
  readonly perK: Complex;
  readonly uniform: Complex;
  /** Pressure before less that behind, and what that behind stores in the film. */
  readonly net: Complex;
  readonly behind: Complex;
}

/**
 * b and l less what the functions used hold of them, x and y one after the other. An element of the plate is K + i eta K_b, one of
 * the film -k^2 / K; lambda and what is the same for all of the film stand on the diagonal alone, where none of these lies.
 */
function fillSides(rest: Rest, plate: ComplexVector, film: ComplexVector, at: Frequency): void {
  const { count, filmCount, sides, load, ones, mass, tension, film: onFilm } = rest;
  const { eta, lambda, perK, net, behind } = at;
  const size = count + filmCount;
  const stiff = times(rest.stiff, plate, count, rest.room);
  const bent = rest.bending ? times(rest.bending, plate, count, rest.room) : stiff;
  const under = times(rest.coupling, film, count, rest.room);
  const over = times(rest.filmCoupling, plate, filmCount, rest.room);
  const waves = times(rest.waves, film, filmCount, rest.room);
  const inverse = divide(complex(1), complex(1, eta));
  for (let i = 0; i < count; i++) {
    const [x, y] = [2 * i, 2 * i + 1];
    sides.re[i] = net.re * load[i]! - stiff.re[x]! + eta * bent.im[x]! - under.re[x]!;
    sides.im[i] = net.im * load[i]! - stiff.im[x]! - eta * bent.re[x]! - under.im[x]!;
    const ownRe = lambda.re * mass[i]!;
    const ownIm = lambda.im * mass[i]! + (tension ? eta * tension[i]! : 0);
    const to = size + i;
    sides.re[to] = ownRe * inverse.re - ownIm * inverse.im - stiff.re[y]! + eta * bent.im[y]! - under.re[y]!;
    sides.im[to] = ownRe * inverse.im + ownIm * inverse.re - stiff.im[y]! - eta * bent.re[y]! - under.im[y]!;
  }
  for (let j = 0; j < filmCount; j++) {
    const [x, y] = [2 * j, 2 * j + 1];
    const to = count + j;
    sides.re[to] = behind.re * ones[j]! - over.re[x]! + perK.re * waves.re[x]! - perK.im * waves.im[x]!;
    sides.im[to] = behind.im * ones[j]! - over.im[x]! + perK.re * waves.im[x]! + perK.im * waves.re[x]!;
    sides.re[size + to] = -onFilm[j]! * inverse.re - over.re[y]! + perK.re * waves.re[y]! - perK.im * waves.im[y]!;
    sides.im[size + to] = -onFilm[j]! * inverse.im - over.im[y]! + perK.re * waves.im[y]! + perK.im * waves.re[y]!;
  }
}

/** T_ZZ, lower triangle. */
function fillMatrix({ count, filmCount, own, matrix }: Rest, { eta, lambda, perK, uniform }: Frequency): void {
  const { re, im } = matrix;
  const size = count + filmCount;
  const bending = own.bending ?? own.stiff;
  for (let i = 0; i < count; i++) {
    for (let k = 0; k <= i; k++) {
      re[i * size + k] = own.stiff[i * count + k]!;
      im[i * size + k] = eta * bending[i * count + k]!;
    }
    re[i * size + i]! -= lambda.re;
    im[i * size + i]! -= lambda.im;
  }
  for (let j = 0; j < filmCount; j++) {
    const row = (count + j) * size;
    for (let k = 0; k < count; k++) {
      re[row + k] = own.coupling[j * count + k]!;
      im[row + k] = 0;
    }
    for (let m = 0; m <= j; m++) {
      const wave = own.waves[j * filmCount + m]!;
      re[row + count + m] = -wave * perK.re;
      im[row + count + m] = -wave * perK.im;
    }
    re[row + count + j]! -= uniform.re;
    im[row + count + j]! -= uniform.im;
  }
}

const zero = complex(0);

/** Rows of a matrix times two vectors that stand one after the other; the two products of a row side by side. */
function times(matrix: Float64Array, vectors: ComplexVector, rows: number, room: Room): ComplexVector {
  const products = complexVector(2 * rows, room);
  const shape: Rows = { width: vectors.re.length / 2, count: 2, part: "all" };
  rowProducts(matrix, vectors, shape, products);
  return products;
}

/** Coefficients of two vectors on the functions of the span, one after the other, from those on turned ones. */
function turnedBack(turn: Float64Array, one: ComplexVector, other: ComplexVector, room: Room): ComplexVector {
  const n = one.re.length;
  const { re, im } = complexVector(2 * n, room);
  for (let i = 0, at = 0; i < n; i++) {
    const [aRe, aIm, bRe, bIm] = [one.re[i]!, one.im[i]!, other.re[i]!, other.im[i]!];
    for (let k = 0; k < n; k++, at++) {
      const t = turn[at]!;
      re[k]! += t * aRe;
      im[k]! += t * aIm;
      re[n + k]! += t * bRe;
      im[n + k]! += t * bIm;
    }
  }
  return { re, im };
}

/** The transpose of a matrix of so many columns. */
function transposed(matrix: Float64Array, columns: number, room: Room): Float64Array {
  const rows = columns === 0 ? 0 : matrix.length / columns;
  const result = room(matrix.length);
  for (let i = 0, at = 0; i < rows; i++) for (let k = 0; k < columns; k++, at++) result[k * rows + i] = matrix[at]!;
  return result;
}
