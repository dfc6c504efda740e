/** Plate and film of a whole basis in their own shapes: the form that reduced.ts takes, nothing left out. */
import { cholesky } from "../../numerics/cholesky.ts";
import { generalizedEigen } from "../../numerics/symmetricEigen.ts";
import { projectOnFilm } from "../system/filmProjection.ts";
import { filmOnes, type Prepared, wholeStiffness } from "../system/prepare.ts";
import { dot, type ReducedMatrices, squaredWavenumbers } from "./reducedBasis.ts";

/** Without one hole in the wall, and of a film of one gap. */
export function ownMatrices(prepared: Prepared): ReducedMatrices {
  const { plate, film, nearField } = prepared;
  const n = plate.size;
  const factor = cholesky(wholeStiffness(prepared), n);
  if (factor === null) throw new Error("A plate that is not buckled has a positive stiffness.");
  const { values, vectors } = generalizedEigen(factor, prepared.mass);
  const rows = Array.from({ length: n }, (_, i) => vectors.subarray(i * n, (i + 1) * n));
  const kappa = film ? squaredWavenumbers(prepared) : new Float64Array(0);
  const coupling = new Float64Array(n * kappa.length);
  if (film) for (const [i, row] of rows.entries()) coupling.set(projectOnFilm(plate, film, row), i * kappa.length);
  const bent = (row: Float64Array) =>
    Float64Array.from({ length: n }, (_, k) => dot(prepared.bending.subarray(k * n, (k + 1) * n), row));
  const bending = prepared.tension && new Float64Array(n * n);
  if (bending) {
    for (const [i, row] of rows.entries()) {
      const force = bent(row);
      for (const [k, other] of rows.entries()) bending[i * n + k] = dot(force, other);
    }
  }
  return {
    count: n,
    filmCount: kappa.length,
    mass: values.map((value) => 1 / value),
    bending,
    kappa,
    coupling,
    load: Float64Array.from(rows, (row) => dot(row, plate.load)),
    ones: film ? filmOnes(film) : new Float64Array(0),
    relief: null,
    nearField,
    hole: null,
  };
}
