/** The plate's deflection on a grid of points over the whole diaphragm. */
import type { Plate } from "./plate.ts";
import { type Polynomials, valuesAt } from "./polynomials.ts";

/** -1 .. 1 in equal steps, both ends included. */
export const gridPlaces = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);

/**
 * sum q_ij phi_i(xi) psi_j(eta), dimensionless like q: row-major, one row an eta of `along`, from -1 upwards.
 */
export function deflectionOnGrid(
  plate: Plate,
  q: Float64Array,
  across: Float64Array,
  along: Float64Array,
): Float64Array {
  const byX = valueRows(plate.across, across);
  const byY = valueRows(plate.along, along);
  const { count } = plate.along;
  const result = new Float64Array(across.length * along.length);
  byY.forEach((psi, row) => {
    // The functions along summed first: what remains is one sum over those across at each point.
    const summed = Float64Array.from({ length: plate.across.count }, (_, i) => {
      let sum = 0;
      for (let j = 0; j < count; j++) sum += q[i * count + j]! * psi[j]!;
      return sum;
    });
    byX.forEach((phi, column) => {
      let sum = 0;
      for (let i = 0; i < phi.length; i++) sum += summed[i]! * phi[i]!;
      result[row * across.length + column] = sum;
    });
  });
  return result;
}

const valueRows = (basis: Polynomials, places: Float64Array): readonly Float64Array[] =>
  Array.from(places, (place) => valuesAt(basis, place).value);
