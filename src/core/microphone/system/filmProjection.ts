/** Deflection of the plate on the film's pressure functions and back, in two one-dimensional passes. */
import { type ComplexVector, complexVector } from "../../numerics/complexSymmetric.ts";
import { rowProducts } from "../../numerics/rowProducts.ts";
import type { Plate } from "../../parts/diaphragm/plate.ts";
import type { PreparedFilm } from "./prepare.ts";

/** C^T q: row-major across x along. */
export function projectOnFilm(plate: Plate, film: PreparedFilm, q: Float64Array): Float64Array {
  const { projectAcross, projectAlong } = film;
  const [nx, ny] = [plate.across.count, plate.along.count];
  const [mx, my] = [film.across.wavenumbers.length, film.along.wavenumbers.length];
  const result = new Float64Array(mx * my);
  const half = new Float64Array(ny);
  for (let m = 0; m < mx; m++) {
    half.fill(0);
    for (let i = 0; i < nx; i++) {
      const c = projectAcross[i * mx + m]!;
      for (let j = 0; j < ny; j++) half[j]! += c * q[i * ny + j]!;
    }
    for (let n = 0; n < my; n++) {
      let sum = 0;
      for (let j = 0; j < ny; j++) sum += half[j]! * projectAlong[j * my + n]!;
      result[m * my + n] = sum;
    }
  }
  return result;
}

/** The same for a complex deflection. */
export function projectComplex(plate: Plate, film: PreparedFilm, q: ComplexVector): ComplexVector {
  return { re: projectOnFilm(plate, film, q.re), im: projectOnFilm(plate, film, q.im) };
}

/** C p: the force of a film pressure on the plate's functions. */
export function fromFilm(plate: Plate, film: PreparedFilm, pressure: ComplexVector): ComplexVector {
  const [nx, ny] = [plate.across.count, plate.along.count];
  const [mx, my] = [film.across.count, film.along.count];
  const half = complexVector(ny * mx);
  const force = complexVector(nx * ny);
  rowProducts(film.projectAlong, pressure, { width: my, count: mx, part: "all" }, half);
  rowProducts(film.projectAcross, half, { width: mx, count: ny, part: "all" }, force);
  return force;
}
