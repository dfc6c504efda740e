import { describe, expect, it } from "vitest";
import { bare, changed, demo } from "../../../tests/demoProject.ts";
import { described, microphone, said } from "../../../tests/describedDemo.ts";
import { airAt } from "../material/humidAir.ts";
import { describe as describeProject, partsOf } from "./describe.ts";
import { forcedStress } from "./heldByFrame.ts";
import { changeValue, removeValue } from "./load.ts";

/** All numbers in a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe("describing a project", () => {
  it("gives the demo in SI", () => {
    const { diaphragm, guides, light, film, air, front, back } = microphone({});
    expect(diaphragm).toMatchObject({
      across: 5.5e-3,
      along: 5.5e-3,
      thickness: 30e-6,
      density: 2510,
      lossFactor: 0.001,
    });
    expect(diaphragm.edges).toEqual({ sides: "clamped", ends: "clamped" });
    expect(guides).toHaveLength(1);
    expect(guides[0]).toMatchObject({ at: 2.6e-3, face: "front", depth: 3e-6, width: 4e-6, length: 20e-3, weight: 1 });
    expect(guides[0].optics).toEqual({
      index: 1.523,
      indexPerKelvin: 2e-6,
      p11: 0.121,
      p12: 0.2406,
      youngsModulus: 72.9e9,
      poissonRatio: 0.208,
    });
    expect(light.wavelength).toBe(633e-9);
    expect(film).toEqual({ gap: 38e-6, edges: { sides: "open", ends: "open" }, backPlate: null });
    expect(front?.holes).toEqual([{ diameter: 1.2e-3, length: 0.2e-3, at: [0, 0], ends: "piston" }]);
    expect(front?.cavity).toEqual({ volume: expect.closeTo(7.2e-9, 15), surface: expect.closeTo(76.8e-6, 12) });
    expect(back?.vent).toEqual({ shape: "round", diameter: 0.1e-3, length: 3e-3, exposed: false });
    const own = airAt({ temperature: 296.15, pressure: 101325, humidity: 0.5 });
    expect(own.ok && air).toEqual(own.ok && own.value);
  });

  it("fills a project that says nothing with the defaults", () => {
    const { diaphragm, guides, film } = microphone({}, bare);
    expect(diaphragm).toMatchObject({
      across: 5e-3,
      thickness: 30e-6,
      lossFactor: 0,
      tension: { across: 0, along: 0 },
    });
    expect(guides[0]).toMatchObject({ at: 0, depth: 3e-6, width: null });
    expect(film).toBeNull();
  });

  it("takes null as said, not as missing", () => {
    const said = changed(bare, { "microphone.readout.bias": "null" });
    expect(partsOf(said).microphone?.readout?.bias).toBeNull();
    expect(partsOf(bare).microphone?.readout?.bias).toBe(Math.PI / 2);
  });

  it("fills each missing key inside a part", () => {
    const { diaphragm, guides, film } = microphone(
      {
        "microphone.diaphragm.across": "6 mm",
        "microphone.guide": '[{ "at": "1 mm" }, { "weight": -1 }]',
        "microphone.film": '{ "gap": "9 um", "edges": { "sides": "closed" } }',
      },
      bare,
    );
    expect([diaphragm.across, diaphragm.along]).toEqual([6e-3, 5e-3]);
    expect(guides.map(({ at, weight, depth }) => [at, weight, depth])).toEqual([
      [1e-3, 1, 3e-6],
      [0, -1, 3e-6],
    ]);
    expect(film?.edges).toEqual({ sides: "closed", ends: "open" });
  });

  it("gives each pair of edges its own stiffness", () => {
    const edges = (text: string) => microphone({ "microphone.diaphragm.edges": text }).diaphragm.edges;
    expect(edges('"supported"')).toEqual({ sides: "supported", ends: "supported" });
    expect(edges('{ "rotation": "0.35 N" }')).toEqual({ sides: { rotation: 0.35 }, ends: { rotation: 0.35 } });
    expect(edges('{ "sides": { "rotation": "350 mN" }, "ends": "supported" }')).toEqual({
      sides: { rotation: 0.35 },
      ends: "supported",
    });
    expect(edges('{ "sides": "supported" }')).toEqual({ sides: "supported", ends: "clamped" });
  });

  it("says when a stiffness for all edges is not used", () => {
    const edges = '{ "rotation": "1 N", "sides": "clamped", "ends": "clamped" }';
    expect(said(described({ "microphone.diaphragm.edges": edges }))).toEqual([
      "unused-value microphone.diaphragm.edges.rotation",
    ]);
  });

  it("lets given air constants win, each alone or all", () => {
    const one = microphone({ "air.meanFreePath": "0 nm" }).air;
    expect(one.meanFreePath).toBe(0);
    expect(one.density).toBe(microphone({}).air.density);
    const all = {
      "air.density": "1.186 kg/m^3",
      "air.viscosity": "1.83e-5 Pa s",
      "air.heatRatio": "1.4",
      "air.prandtl": "0.71",
      "air.meanFreePath": "0 nm",
    };
    const air = microphone(all).air;
    expect(air).toMatchObject({ density: 1.186, viscosity: 1.83e-5, heatRatio: 1.4, prandtl: 0.71, meanFreePath: 0 });
    // Nothing is computed, so nothing is outside its range.
    expect(said(described({ ...all, "air.temperature": "80 degC", "microphone.frame": "null" }))).toEqual([]);
    expect(said(described({ "air.temperature": "80 degC" }))).toContain("air-outside-range air.temperature");
  });

  // N = -E h (alpha_plate - alpha_frame) dT / (1 - nu), by hand: 72.9e9 * 30e-6 * 3.9e-6 * 3 / 0.792 = 32.308 N/m in compression.
  it("adds the tension that the frame forces on the sheet to the residual one", () => {
    const { tension } = microphone({ "microphone.diaphragm.tension": '{ "across": "100 N/m" }' }).diaphragm;
    expect(tension.across).toBeCloseTo(100 - 32.308, 3);
    expect(tension.along).toBeCloseTo(-32.308, 3);
    expect(microphone({ "microphone.frame.bondedAt": "23 degC" }).diaphragm.tension).toEqual({ across: 0, along: 0 });
    expect(microphone({ "microphone.frame": "null" }).diaphragm.tension).toEqual({ across: 0, along: 0 });
  });

  // Fully held, eps_x = eps_y = -strain: sigma_x = -(q11 + q12) strain, sigma_y = -(q12 + q22) strain.
  it("takes each axis of an orthotropic sheet by itself", () => {
    const held = forcedStress({ q11: 160e9, q12: 40e9, q22: 80e9, q66: 50e9 }, 1e-5);
    expect(held.across).toBeCloseTo(-2e6, 4);
    expect(held.along).toBeCloseTo(-1.2e6, 4);
  });

  it("takes a material by built-in name, by the project's own, or as values", () => {
    const density = (text: string) => microphone({ "microphone.diaphragm.material": text }).diaphragm.density;
    expect(density('"fused-silica"')).toBe(2203);
    expect(density('"our-sheet"')).toBe(2510);
    const values =
      '{ "youngsModulus": "70 GPa", "poissonRatio": 0.2, "density": "2.4 g/cm^3", "index": 1.5, "p11": 0.12, "p12": 0.24, "expansion": "7e-6 1/K" }';
    expect(density(values)).toBe(2400);
    const shadowed = described({ "materials.fused-silica": values, "microphone.diaphragm.material": "fused-silica" });
    expect(said(shadowed)).toEqual(["material-shadowed materials.fused-silica"]);
    expect(shadowed.ok && shadowed.value.diaphragm.density).toBe(2400);
  });

  it("takes an orthotropic sheet with a guide of another material", () => {
    const silicon = { "microphone.diaphragm.material": "silicon-100-110", "microphone.frame": "null" };
    const { diaphragm, guides } = microphone({ ...silicon, "microphone.guide.material": "our-sheet" });
    expect(diaphragm.stiffness.q12 / diaphragm.stiffness.q11).toBeCloseTo(10.6 / 169.62, 3);
    expect(guides[0].optics.index).toBe(1.523);
    const own =
      '{ "stiffness": { "q11": "141 GPa", "q12": "39 GPa", "q22": "141 GPa", "q66": "80 GPa" }, "density": "2329 kg/m^3" }';
    expect(
      microphone({ ...silicon, "microphone.guide.material": "our-sheet", "microphone.diaphragm.material": own })
        .diaphragm.stiffness.q66,
    ).toBe(80e9);
    const inIt = described({
      ...silicon,
      "microphone.diaphragm.material": own.replace(/\}$/, ', "index": 3.48, "p11": 0.1, "p12": 0.2 }'),
    });
    expect(said(inIt)).toContain("not-isotropic microphone.diaphragm.material.stiffness");
  });

  it("takes an index formula", () => {
    // Fused silica at 633 nm from its three terms (Malitson 1965): about 1.4570.
    const formula =
      '{ "kind": "sellmeier", "b": [0.6961663, 0.4079426, 0.8974794], "c": ["0.00467914826 um^2", "0.0135120631 um^2", "97.9340025 um^2"], "from": "210 nm", "to": "3.71 um" }';
    expect(microphone({ "materials.our-sheet.index": formula }).guides[0].optics.index).toBeCloseTo(1.457, 4);
    expect(said(described({ "materials.our-sheet.index": formula, "microphone.light.wavelength": "5 um" }))).toEqual([
      "index-outside-range materials.our-sheet.index",
    ]);
    expect(said(described({ "materials.our-sheet.index": '{ "kind": "sellmeier", "b": [1, 1, 1] }' }))).toEqual([
      "missing-material-value materials.our-sheet.index.c",
      "missing-material-value materials.our-sheet.index.from",
      "missing-material-value materials.our-sheet.index.to",
    ]);
  });

  it.each([
    [{ "microphone.guide.at": "2.76 mm" }, "guide-outside microphone.guide.at"],
    [{ "microphone.guide.at": "-3 mm" }, "guide-outside microphone.guide.at"],
    [{ "microphone.guide": '[{ "at": "0 mm" }, { "at": "9 mm" }]' }, "guide-outside microphone.guide[1].at"],
    [{ "microphone.guide.depth": "30 um" }, "guide-too-deep microphone.guide.depth"],
    [{ "microphone.film": "{}" }, "missing-gap microphone.film.gap"],
    [{ "microphone.diaphragm.material": "our-shet" }, "unknown-material microphone.diaphragm.material"],
    [{ "microphone.diaphragm.material": "toString" }, "unknown-material microphone.diaphragm.material"],
    [{ "microphone.guide.material": "x" }, "unknown-material microphone.guide.material"],
    [{ "microphone.guide.material": "silicon-nitride" }, "missing-photoelastic microphone.guide.material"],
    [{ "microphone.frame.material": "x" }, "unknown-material microphone.frame.material"],
  ])("%j is %s", (values, expected) => expect(said(described(values))).toEqual([expected]));

  it("fills no missing value of a material", () => {
    expect(said(described({ "microphone.diaphragm.material": "{}" }))).toEqual([
      "missing-material-value microphone.diaphragm.material.youngsModulus",
      "missing-material-value microphone.diaphragm.material.poissonRatio",
      "missing-material-value microphone.diaphragm.material.density",
    ]);
    const withoutExpansion = removeValue(demo, "materials.our-sheet.expansion");
    expect(withoutExpansion.ok && said(describeProject(withoutExpansion.value))).toEqual([
      "missing-expansion microphone.diaphragm.material",
    ]);
    const withoutIndex = removeValue(demo, "materials.our-sheet.index");
    expect(withoutIndex.ok && said(describeProject(withoutIndex.value))).toEqual([
      "missing-index materials.our-sheet.index",
    ]);
    const impossible =
      '{ "stiffness": { "q11": "1 GPa", "q12": "2 GPa", "q22": "1 GPa", "q66": "1 GPa" }, "density": "2329 kg/m^3" }';
    expect(said(described({ "microphone.diaphragm.material": impossible }))).toEqual([
      "not-positive-definite microphone.diaphragm.material.stiffness",
    ]);
    const half = '{ "stiffness": { "q11": "1 GPa", "q12": "0 GPa" }, "density": "2329 kg/m^3" }';
    expect(said(described({ "microphone.diaphragm.material": half }))).toEqual([
      "missing-material-value microphone.diaphragm.material.stiffness.q22",
      "missing-material-value microphone.diaphragm.material.stiffness.q66",
    ]);
  });

  it("refuses a strength that is said in part", () => {
    const part = '{ "scale": "90 MPa", "time": "60 s" }';
    expect(said(described({ "materials.our-sheet.strength": part }))).toEqual([
      "missing-material-value materials.our-sheet.strength.modulus",
      "missing-material-value materials.our-sheet.strength.area",
    ]);
  });

  it("names all that is wrong in one pass", () => {
    const outcome = described({
      "microphone.guide.at": "9 mm",
      "microphone.film": "{}",
      "microphone.frame.material": "x",
      "microphone.body": '{ "shape": "sphere" }',
    });
    expect(said(outcome).sort()).toEqual([
      "guide-outside microphone.guide.at",
      "missing-gap microphone.film.gap",
      "missing-value microphone.body.diameter",
      "unknown-material microphone.frame.material",
    ]);
  });

  it.each([
    [{ "microphone.diaphragm.thickness": "300 um" }, "plate-not-thin microphone.diaphragm.thickness"],
    [{ "microphone.film.gap": "1 m" }, "film-not-thin microphone.film.gap"],
  ])("computes outside a range with a remark: %j", (values, expected) =>
    expect(said(described(values))).toEqual([expected]),
  );

  it("says when a frame without bonding temperature counts for nothing", () => {
    const project = removeValue(demo, "microphone.frame.bondedAt");
    expect(project.ok && said(describeProject(project.value))).toEqual([
      "no-bonding-temperature microphone.frame.bondedAt",
    ]);
  });

  it("takes gaps from 1 nm to 1 m and stays finite", () => {
    for (const gap of ["1 nm", "1 um", "1 mm", "1 m"]) {
      const outcome = described({ "microphone.film.gap": gap });
      expect(outcome.ok && numbersIn(outcome.value).every(Number.isFinite)).toBe(true);
    }
  });

  it("a guide at the very edge lies inside", () => {
    expect(microphone({ "microphone.guide.at": "2.75 mm" }).guides[0].at).toBe(2.75e-3);
    expect(microphone({ "microphone.guide.at": "-2750 um" }).guides[0].at).toBe(-2.75e-3);
  });
});

describe("a guide in a crystal", () => {
  const inSilicon = { "microphone.frame": "null", "microphone.diaphragm.material": "silicon-100-110" };

  it("has weights of its own, and silicon passes no visible light", () => {
    const outcome = described({ ...inSilicon, "microphone.light.wavelength": "1550 nm" });
    expect(outcome.ok && outcome.value.guides[0].optics.weights?.x).toBeCloseTo(-0.1494, 3);
    expect(said(outcome)).toEqual([]);
    expect(said(described(inSilicon))).toContain("opaque-guide microphone.diaphragm.material");
  });

  it("is refused where no cubic crystal has such a sheet", () => {
    const odd =
      '{ "stiffness": { "q11": "141 GPa", "q12": "39 GPa", "q22": "120 GPa", "q66": "80 GPa" }, "density": "2329 kg/m^3", "index": 3.48, "p11": -0.09, "p12": 0.02, "p44": -0.05 }';
    expect(said(described({ ...inSilicon, "microphone.diaphragm.material": odd }))).toEqual([
      "not-cubic microphone.diaphragm.material.stiffness",
    ]);
  });
});

describe("what is given and not used", () => {
  it("a depth wins over a profile", () => {
    expect(microphone({ "microphone.guide.profile": '{ "kind": "erfc" }' }).guides[0].depth).toBe(3e-6);
  });

  it("reads light and readout into SI, with ideal parts where the file says nothing", () => {
    const { light, readout } = microphone({});
    expect(light).toMatchObject({ launched: 5e-3, noiseCorner: 1000, linewidth: 1e6, fiberMode: 4.3e-6 });
    expect(light.transmission).toBeCloseTo(0.19953, 5);
    expect(light.relativeIntensity).toBeCloseTo(1e-14, 18);
    expect(readout).toMatchObject({ kind: "polarimetric", outputs: "both", normalized: false, powerRatio: 1 });
    expect(readout.bias).toBeCloseTo(Math.PI / 2, 12);
    expect(readout.rejection).toBeCloseTo(0.0316228, 6);
    expect(readout.polarizer).toEqual({ angle: expect.closeTo(Math.PI / 4, 12), leak: expect.closeTo(1e-3, 9) });
    expect(readout.receiver).toMatchObject({ responsivity: 0.45, resistor: 20e3, bits: 24, sampling: 96e3 });
    const plain = microphone({}, bare).readout;
    expect(plain.analyzer).toEqual({ angle: expect.closeTo(-Math.PI / 4, 12), leak: 0 });
    expect(plain.receiver.bits).toBeNull();
  });

  it("an extinction below 0 dB is refused: crossed can't pass more than along", () => {
    const changed = changeValue(demo, "microphone.readout.polarizer.extinction", "-3 dB");
    expect(said(changed)).toEqual(["out-of-range microphone.readout.polarizer.extinction"]);
  });

  it("what feeds later results only is kept and changes nothing", () => {
    const lean = ["tolerances", "choices", "kept", "specimens", "calibrations", "workshop", "brief"].reduce(
      (project, path) => {
        const without = removeValue(project, path);
        return without.ok ? without.value : project;
      },
      demo,
    );
    expect(describeProject(lean)).toEqual(describeProject(demo));
  });
});
