/** The shape of air and materials in a project file. */
import { group, length, list, notNegative, number, positive, quantity, ratio, share, text, word } from "./fields.ts";
import { either, type Of } from "./schema.ts";

export const airShape = group(
  "Air",
  {
    temperature: quantity("temperature", "Air temperature", positive).optional(),
    pressure: quantity("pressure", "Barometric pressure", positive).optional(),
    humidity: ratio("Relative humidity", share, "fraction").optional(),
    density: quantity("density", "Air density, given", positive).optional(),
    viscosity: quantity("viscosity", "Air viscosity, given", positive).optional(),
    heatRatio: number("Ratio of specific heats, given", { above: 1 }).optional(),
    prandtl: number("Prandtl number, given", positive).optional(),
    meanFreePath: quantity("length", "Mean free path, given; 0 nm is a film without slip", notNegative).optional(),
  },
  "air",
);

const plainStiffness = (label: string, bounds = positive) => quantity("modulus", label, bounds).optional();

const dispersion = group("Index by n^2 - 1 = sum b L^2 / (L^2 - c)", {
  kind: word("Kind of index formula", "sellmeier").optional(),
  b: list("Sellmeier b", number("Sellmeier b"))
    .counting({ exactly: 3, says: "Needed: three coefficients." })
    .optional(),
  c: list("Sellmeier c", quantity("area", "Sellmeier c", notNegative))
    .counting({ exactly: 3, says: "Needed: three coefficients." })
    .optional(),
  from: length("Shortest wavelength of the index formula"),
  to: length("Longest wavelength of the index formula"),
});

export const materialShape = group(
  "Material",
  {
    youngsModulus: quantity("modulus", "Young's modulus", positive).optional(),
    poissonRatio: number("Poisson's ratio", { above: -1, below: 0.5 }).optional(),
    stiffness: group("Plane-stress stiffness, axis 1 across", {
      q11: plainStiffness("Stiffness q11"),
      q12: plainStiffness("Stiffness q12", {}),
      q22: plainStiffness("Stiffness q22"),
      q66: plainStiffness("Stiffness q66"),
    }).optional(),
    density: quantity("density", "Density", positive).optional(),
    index: either(number("Refractive index", { atLeast: 1 }), dispersion).optional(),
    p11: number("Elasto-optic coefficient p11").optional(),
    p12: number("Elasto-optic coefficient p12").optional(),
    p44: number("Elasto-optic coefficient p44 of a cubic crystal, edges along <110>").optional(),
    stressOptic: quantity("perPascal", "Stress-optic constant").optional(),
    expansion: quantity("expansion", "Thermal expansion").optional(),
    indexPerKelvin: quantity("perKelvin", "Index change with temperature").optional(),
    strength: group("Strength of the surface (Weibull)", {
      scale: quantity("modulus", "Strength scale", positive).optional(),
      modulus: number("Weibull modulus", positive).optional(),
      area: quantity("area", "Area of the strength specimens", positive).optional(),
      time: quantity("time", "Load time of the strength specimens", positive).optional(),
    }).optional(),
    source: text("Where the values come from").optional(),
  },
  "material",
);

/** A built-in name, a name from `materials`, or the values themselves. */
export const material = either(text("Material"), materialShape);

export type MaterialFile = Of<typeof materialShape>;
