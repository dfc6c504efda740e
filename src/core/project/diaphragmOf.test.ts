import { describe, expect, it } from "vitest";
import { described, microphone, said } from "../../../tests/describedDemo.ts";

describe("edges held by glue", () => {
  const glue = '"bond": { "thickness": "10 um", "youngsModulus": "3 GPa" }';

  it("become a stiffness, for all or by pairs", () => {
    const { edges } = microphone({ "microphone.diaphragm.edges": `{ ${glue} }` }).diaphragm;
    expect(edges.sides).toEqual(edges.ends);
    expect(edges.sides).toMatchObject({ rotation: expect.closeTo(4.41, 2) });
    const mixed = microphone({ "microphone.diaphragm.edges": `{ "sides": { ${glue} }, "ends": "clamped" }` }).diaphragm;
    expect(mixed.edges).toEqual({ sides: edges.sides, ends: "clamped" });
  });

  it.each([
    ['{ "bond": { "thickness": "10 um" } }', "missing-bond-value microphone.diaphragm.edges.bond.youngsModulus"],
    [
      '{ "sides": { "bond": { "youngsModulus": "3 GPa" } } }',
      "missing-bond-value microphone.diaphragm.edges.sides.bond.thickness",
    ],
    [`{ "ends": { "rotation": "1 N", ${glue} } }`, "two-edge-stiffnesses microphone.diaphragm.edges.ends.bond"],
    [`{ ${glue}, "sides": "clamped", "ends": "clamped" }`, "unused-value microphone.diaphragm.edges.bond"],
    [
      '{ "bond": { "thickness": "10 um", "youngsModulus": "3 GPa", "overlap": "50 um" } }',
      "short-overlap microphone.diaphragm.edges.bond.overlap",
    ],
  ])("%s says what is wrong", (edges, expected) => {
    expect(said(described({ "microphone.diaphragm.edges": edges }))).toEqual([expected]);
  });
});

describe("a diaphragm of layers", () => {
  const layers = (text: string, more: Readonly<Record<string, string>> = {}) => ({
    "microphone.frame": "null",
    "microphone.diaphragm.layers": text,
    ...more,
  });

  it("adds them to the sheet, each on its face, and takes the guide's material from its depth", () => {
    const values = layers(
      '[{ "material": "fused-silica", "thickness": "2 um" }, { "material": "silicon-nitride", "thickness": "1 um", "face": "back" }]',
    );
    const { diaphragm, guides } = microphone({ ...values, "microphone.guide.depth": "1 um" });
    expect(diaphragm.thickness).toBeCloseTo(33e-6, 12);
    expect(diaphragm.stack?.layers.map(({ from, to }) => Math.round((to - from) * 1e6))).toEqual([2, 30, 1]);
    expect(diaphragm.density * diaphragm.thickness).toBeCloseTo(2203 * 2e-6 + 2510 * 30e-6 + 3050 * 1e-6, 9);
    expect(guides[0].optics.p12).toBe(0.27);
    expect(microphone({ ...values, "microphone.guide.depth": "3 um" }).guides[0].optics.p12).toBe(0.2406);
  });

  it("turns the stress of a layer into tension, and the guide in it bears that stress", () => {
    const { diaphragm, guides } = microphone(
      layers('[{ "material": "fused-silica", "thickness": "5 um", "stress": "-40 MPa" }]'),
    );
    expect(diaphragm.tension.across).toBeCloseTo(-200, 9);
    expect(guides[0].builtIn?.stress).toEqual({ across: -40e6, along: -40e6 });
    expect(guides[0].builtIn?.strain.x).toBeCloseTo((-40e6 * (1 - 0.17)) / 73e9, 12);
  });

  it("bears the mismatch of each layer with the frame", () => {
    const given = '[{ "material": "silicon-nitride", "thickness": "1 um", "face": "back" }]';
    const { diaphragm } = microphone({ "microphone.diaphragm.layers": given });
    // 72.9e9 * 30e-6 * 3.9e-6 * 3 / 0.792 = 32.308 N/m in compression, and 222e9 * 1e-6 * 1e-6 * 3 / 0.72 = 0.925 in tension.
    expect(diaphragm.tension.across).toBeCloseTo(-32.308 + 0.925, 3);
  });

  it.each([
    ['[{ "thickness": "1 um" }]', "missing-value microphone.diaphragm.layers[0].material"],
    ['[{ "material": "fused-silica" }]', "missing-value microphone.diaphragm.layers[0].thickness"],
    [
      '[{ "material": { "stiffness": { "q11": "1 GPa", "q12": "2 GPa", "q22": "1 GPa", "q66": "1 GPa" }, "density": "2000 kg/m^3" }, "thickness": "1 um" }]',
      "not-positive-definite microphone.diaphragm.layers[0].material.stiffness",
    ],
    ['[{ "material": "glue", "thickness": "1 um" }]', "unknown-material microphone.diaphragm.layers[0].material"],
  ])("%s is refused with its path", (text, problem) => {
    expect(said(described(layers(text)))).toEqual([problem]);
  });

  it("gives the moment of stressed layers to a diaphragm whose edges turn; clamped ones take it up", () => {
    const stressed = '[{ "material": "fused-silica", "thickness": "5 um", "stress": "10 MPa" }]';
    const { moment } = microphone(layers(stressed, { "microphone.diaphragm.edges": "supported" })).diaphragm;
    // In tension on the front it pulls the middle toward the film: 10 MPa on 5 um, some 15 um from the neutral plane.
    expect(moment?.across).toBeGreaterThan(-50 * 17.5e-6);
    expect(moment?.across).toBeLessThan(-50 * 14e-6);
    expect(microphone(layers(stressed)).diaphragm.moment).toBeUndefined();
  });
});
