import { describe, expect, test } from "vitest";
import { cubicPlate } from "./cubic.ts";
import { indexAt } from "./dispersion.ts";
import { given, isotropicConstants, type Material, planeStiffness } from "./material.ts";
import { builtInMaterial, builtInMaterials } from "./materials.ts";
import {
  photoelasticDifference,
  photoelasticFromStressOptic,
  photoelasticPair,
  stressOpticPair,
} from "./stressOptic.ts";

const silica = builtInMaterials["fused-silica"];
const sheet = builtInMaterials["thin-borosilicate"];
const silicon = builtInMaterials["silicon-100-110"];
const all: readonly Material[] = Object.values(builtInMaterials);

describe("the table of materials", () => {
  test("holds at least six diaphragm materials, each under its own name", () => {
    expect(all.length).toBeGreaterThanOrEqual(6);
    expect(Object.entries(builtInMaterials).filter(([name, material]) => name !== material.name)).toEqual([]);
  });

  test("gives every value a source in brackets and a value inside its own range", () => {
    for (const material of all) {
      const { density, p11, p12, stressOptic, expansion, indexPerKelvin, elasticity } = material;
      const elastic = elasticity.kind === "isotropic" ? [elasticity.youngsModulus, elasticity.poissonRatio] : [];
      for (const value of [density, p11, p12, stressOptic, expansion, indexPerKelvin, ...elastic]) {
        if (value === null) continue;
        expect(value.source).toMatch(/^\[[a-z0-9.-]+\]/);
        const [low, high] = value.range ?? [value.value, value.value];
        expect(value.value).toBeGreaterThanOrEqual(low);
        expect(value.value).toBeLessThanOrEqual(high);
      }
    }
  });

  test("holds only stable sheets: positive stiffness in bending and shear", () => {
    for (const material of all) {
      const { q11, q12, q22, q66 } = planeStiffness(material.elasticity);
      expect(Math.min(q11, q22, q66, q11 * q22 - q12 * q12)).toBeGreaterThan(0);
    }
  });

  test("knows no material by a name that every object has", () => {
    expect(builtInMaterial("toString")).toBeNull();
    expect(builtInMaterial("thin-borosilicate")).toBe(sheet);
  });
});

describe("elastic constants", () => {
  test("a guide in silicon is refused: its phase is not that of glass", () => {
    const outcome = isotropicConstants(silicon);
    expect(outcome.ok ? [] : outcome.problems.map((problem) => problem.code)).toEqual(["not-isotropic"]);
  });

  test("an isotropic crystal is the same plate in both directions", () => {
    const isotropic = { c11: 90e9, c12: 30e9, c44: 30e9 };
    const across = cubicPlate(isotropic, "100");
    const turned = cubicPlate(isotropic, "110");
    for (const key of ["q11", "q12", "q22", "q66"] as const) expect(turned[key] / across[key]).toBeCloseTo(1, 14);
  });
});

describe("refractive index", () => {
  test("a single value far from its wavelength is used with a remark, at its own without", () => {
    const near = indexAt(sheet, 588e-9);
    const far = indexAt(sheet, 633e-9);
    expect(near).toEqual({ ok: true, value: 1.523, remarks: [] });
    expect(far.ok && far.remarks.map((remark) => remark.code)).toEqual(["index-without-dispersion"]);
  });

  test("a user's own value belongs to the wavelength in use", () => {
    const own: Material = { ...sheet, index: { kind: "fixed", index: given(1.6), at: null } };
    expect(indexAt(own, 1550e-9)).toEqual({ ok: true, value: 1.6, remarks: [] });
  });

  test("outside its range the formula still answers and says so, up to its absorption", () => {
    const outside = indexAt(silica, 4e-6);
    expect(outside.ok && outside.remarks.map((remark) => remark.code)).toEqual(["index-outside-range"]);
    const absorbed = indexAt(silica, 9.8e-6);
    expect(absorbed.ok ? [] : absorbed.problems.map((problem) => problem.code)).toEqual(["index-not-computable"]);
  });

  test("a material without an index is a problem", () => {
    const outcome = indexAt({ ...sheet, index: null }, 633e-9);
    expect(outcome.ok ? [] : outcome.problems.map((problem) => problem.code)).toEqual(["missing-index"]);
  });
});

describe("photoelastic coefficients", () => {
  test("come back from the stress-optic coefficients that they make", () => {
    const solid = { index: 1.5, youngsModulus: 7e10, poissonRatio: 0.22 };
    const back = photoelasticFromStressOptic({ ...solid, ...stressOpticPair({ ...solid, p11: 0.12, p12: 0.25 }) });
    expect(back.p11).toBeCloseTo(0.12, 14);
    expect(back.p12).toBeCloseTo(0.25, 14);
  });

  test("known as a pair they are used as they are", () => {
    expect(photoelasticPair(silica, 1.457)).toEqual({ ok: true, value: { p11: 0.121, p12: 0.27 }, remarks: [] });
  });

  test("known by the stress-optic constant alone, the difference is right and the split is called assumed", () => {
    const pair = photoelasticPair(sheet, 1.523);
    if (!pair.ok) throw new Error("the default diaphragm material has no photoelastic pair");
    expect(pair.remarks.map((remark) => remark.code)).toEqual(["photoelastic-split-assumed"]);
    expect(pair.value.p11 - pair.value.p12).toBeCloseTo(photoelasticDifference(sheet, 1.523) ?? Number.NaN, 15);
    const { k11, k12 } = stressOpticPair({ ...pair.value, index: 1.523, youngsModulus: 72.9e9, poissonRatio: 0.208 });
    expect((k11 - k12) / 3.5e-12).toBeCloseTo(1, 12);
  });

  test("unknown they are a problem; nothing fills them", () => {
    for (const material of [builtInMaterials["silicon-nitride"], { ...silica, p12: null }]) {
      const pair = photoelasticPair(material, 2);
      expect(pair.ok ? [] : pair.problems.map((problem) => problem.code)).toEqual(["missing-photoelastic"]);
      expect(photoelasticDifference(material, 2)).toBeNull();
    }
  });
});
