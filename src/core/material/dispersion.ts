/** Refractive index at a wavelength. */
import { answer, type Outcome, refuse } from "../problem.ts";
import type { Index, Material } from "./material.ts";

/** A fixed index is taken as it is within this share of its own wavelength; beyond it a remark says so. */
const fixedIndexReach = 0.01;

const nanometers = (wavelength: number) => `${Math.round(wavelength * 1e10) / 10} nm`;

/**
 * Refractive index relative to air at 20 degC [-] at a vacuum wavelength [m].
 *
 *     n^2 - 1 = sum B_i L^2 / (L^2 - C_i)
 *
 * Source: the material's own, in `material.index`.
 * Remarks: `index-outside-range` outside the fit's wavelengths; `index-without-dispersion` for a single value far from its wavelength.
 * Problems: `missing-index`; `index-not-computable` where the fit gives no index (an absorption line).
 */
export function indexAt(material: Material, wavelength: number): Outcome<number> {
  const { index } = material;
  if (index === null)
    return refuse({
      code: "missing-index",
      path: ["index"],
      message: `"${material.name}" has no refractive index; give one, for example "index": 1.52.`,
    });
  return index.kind === "fixed"
    ? fixedIndex(material.name, index, wavelength)
    : sellmeier(material.name, index, wavelength);
}

function fixedIndex(name: string, index: Index & { kind: "fixed" }, wavelength: number): Outcome<number> {
  const { value, source } = index.index;
  if (index.at === null || Math.abs(wavelength / index.at - 1) <= fixedIndexReach) return answer(value);
  return answer(value, [
    {
      code: "index-without-dispersion",
      path: ["index"],
      message: `Index ${value} of "${name}" belongs to ${nanometers(index.at)} (${source}) and is used at ${nanometers(wavelength)}: no dispersion is known for it. Give "index" at your wavelength to do better.`,
    },
  ]);
}

function sellmeier(name: string, index: Index & { kind: "sellmeier" }, wavelength: number): Outcome<number> {
  const square = wavelength * wavelength;
  const [b1, b2, b3] = index.b;
  const [c1, c2, c3] = index.c;
  const n2 = 1 + (b1 * square) / (square - c1) + (b2 * square) / (square - c2) + (b3 * square) / (square - c3);
  if (!(n2 >= 1 && Number.isFinite(n2)))
    return refuse({
      code: "index-not-computable",
      path: ["index"],
      message: `The index formula of "${name}" (${index.source}) gives no index at ${nanometers(wavelength)}; it holds from ${nanometers(index.from)} to ${nanometers(index.to)}.`,
    });
  const inside = wavelength >= index.from && wavelength <= index.to;
  return answer(
    Math.sqrt(n2),
    inside
      ? []
      : [
          {
            code: "index-outside-range",
            path: ["index"],
            message: `The index formula of "${name}" (${index.source}) holds from ${nanometers(index.from)} to ${nanometers(index.to)}; it is used at ${nanometers(wavelength)}.`,
          },
        ],
  );
}
