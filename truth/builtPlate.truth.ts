/** Plates as a project describes them: edges held by glue, sheets of layers, a guide in a crystal. Read through the whole program. */

import type { Microphone } from "../src/core/microphone/microphone.ts";
import { staticSensitivity } from "../src/core/microphone/response/staticSensitivity.ts";
import { biasAtRest } from "../src/core/microphone/rest/biasAtRest.ts";
import { bucklingStep } from "../src/core/microphone/rest/buckling.ts";
import { plateModes } from "../src/core/parts/diaphragm/modes.ts";
import { plateShape } from "../src/core/parts/diaphragm/shape.ts";
import { bendingStress } from "../src/core/parts/diaphragm/stress.ts";
import { describe } from "../src/core/project/describe.ts";
import { loadProject } from "../src/core/project/load.ts";
import type { TruthRow } from "./row.ts";

/** The microphone that a project with these parts describes. */
function described(parts: Readonly<Record<string, unknown>>): Microphone {
  const project = loadProject(JSON.stringify({ format: "glassdrum-project", version: 1, ...parts }));
  const outcome = project.ok ? describe(project.value) : project;
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join(" "));
  return outcome.value;
}

const glass = {
  youngsModulus: "72.9 GPa",
  poissonRatio: 0.21,
  density: "2510 kg/m^3",
  index: 1.46,
  p11: 0.121,
  p12: 0.27,
};

const sensitivity = ({ diaphragm, guides, light }: Microphone) =>
  staticSensitivity({ diaphragm, guide: guides[0], wavelength: light.wavelength, functions: 24 });

const square = (edges: unknown, at: string) =>
  described({
    materials: { glass },
    microphone: {
      diaphragm: { material: "glass", across: "5.5 mm", along: "5.5 mm", thickness: "30 um", edges },
      guide: { at },
    },
  });
const glue = { bond: { thickness: "10 um", youngsModulus: "3 GPa" } };
/** D = 72.9e9 (30e-6)^3 / (12 (1 - 0.21^2)) = 1.71587e-4 N m; k_r = 10 D / a. */
const soft = { rotation: `${(10 * 1.71587e-4) / 5.5e-3} N` };

const glued: readonly TruthRow[] = [
  {
    what: "project with glued edges, 3 GPa, 10 um thick, a = 5.5 mm, h = 30 um: k_r a / D [-]",
    got: () => plateShape(square(glue, "0 mm").diaphragm).sides,
    expected: 141,
    within: 0.5 / 141,
    why: "digits printed",
    origin: "own derivation",
    source: "beam on an elastic foundation [hetenyi-1946], evaluated by hand",
  },
  {
    what: "project with edges of k_r a / D = 10: sensitivity at the edge over that of clamped edges [-]",
    got: () => sensitivity(square(soft, "2.75 mm")) / sensitivity(square("clamped", "2.75 mm")),
    expected: 0.022249 / 0.029058,
    within: 5e-5,
    why: "digits printed; k_r rounded",
    origin: "independent method",
    source: "two methods agree on <w_xx> D / (q a^2) = 0.022249 and, clamped, 0.029058",
  },
];

/**
 * Two layers of one Poisson's ratio, front 70 GPa 10 um, behind it 140 GPa 30 um, by the transformed section:
 * neutral plane 22.142857 um under the front face, D = 5.8670712e-4 N m, mass 0.0949 kg/m2.
 */
const bilayer = (at: string) =>
  described({
    materials: {
      front: { ...glass, youngsModulus: "70 GPa", density: "2500 kg/m^3" },
      sheet: { youngsModulus: "140 GPa", poissonRatio: 0.21, density: "2330 kg/m^3" },
    },
    microphone: {
      diaphragm: {
        material: "sheet",
        thickness: "30 um",
        layers: [{ material: "front", thickness: "10 um" }],
      },
      guide: { at, depth: "3 um" },
    },
  });

const bySection =
  "closed form of two layers about their common neutral plane (transformed section), by hand; plate coefficients";
const layered: readonly TruthRow[] = [
  {
    what: "project with a layer: first frequency of a clamped 5 mm square [Hz]",
    got: () => (plateModes(bilayer("0 mm").diaphragm, { functions: 8 })[0]?.omega ?? 0) / (2 * Math.PI),
    expected: 18012.816,
    within: 2e-6,
    why: "coefficient 35.9852 has six digits",
    origin: "exact",
    source: `${bySection} 35.9852 of [leissa-1973]`,
  },
  {
    what: "project with a layer, guide 3 um deep in it, center: static sensitivity [rad/Pa]",
    got: () => sensitivity(bilayer("0 mm")),
    expected: 0.113798e-3,
    within: 1e-4,
    why: "coefficient -0.009578 has four digits",
    origin: "exact",
    source: `${bySection} -0.009578, strain of the front layer from its height over the neutral plane`,
  },
  {
    what: "project with a layer, guide 3 um deep in it, edge: static sensitivity [rad/Pa]",
    got: () => sensitivity(bilayer("2.5 mm")),
    expected: -0.345243e-3,
    within: 2e-4,
    why: "edge curvature of 24 functions; coefficient 0.029058 has five digits",
    origin: "exact",
    source: `${bySection} 0.029058, strain of the front layer from its height over the neutral plane`,
  },
];

const strength: readonly TruthRow[] = [
  {
    what: "project with a layer: stress at its face, middle of an edge, per pressure [Pa/Pa]",
    got: () => bendingStress(bilayer("0 mm").diaphragm, { functions: 24 }).at(2.5e-3, 0, "front").x,
    expected: 3546.84,
    within: 2e-4,
    why: "edge curvature of 24 functions",
    origin: "exact",
    source: `${bySection} 0.0513339 at the middle of the edge, stress of the front layer`,
  },
  {
    what: "project with a layer: stress at the back of the sheet, middle of an edge, per pressure [Pa/Pa]",
    got: () => bendingStress(bilayer("0 mm").diaphragm, { functions: 24 }).at(2.5e-3, 0, "back").x,
    expected: -5720.72,
    within: 2e-4,
    why: "edge curvature of 24 functions",
    origin: "exact",
    source: `${bySection} 0.0513339 at the middle of the edge, stress of the sheet`,
  },
  {
    what: "project with a layer: compression at which the clamped square buckles [N/m]",
    got: () => {
      const { diaphragm } = bilayer("0 mm");
      const squeezed = { ...diaphragm, tensionPerKelvin: { across: -1, along: -1 } };
      return bucklingStep(squeezed, 2000) ?? Number.NaN;
    },
    expected: 1228.44,
    within: 5e-6,
    why: "six digits of 5.30363",
    origin: "exact",
    source: `${bySection} 5.30363 pi^2 D / a^2`,
  },
];

/** (100) silicon, edges along <110>, from c11, c12, c44 = 165.7, 63.9, 79.6 GPa; p11, p12, p44 are an example's. */
const wafer = (at: string) =>
  described({
    materials: {
      wafer: {
        stiffness: { q11: "169.76 GPa", q12: "10.56 GPa", q22: "169.76 GPa", q66: "50.90 GPa" },
        density: "2329 kg/m^3",
        index: 3.48,
        p11: -0.094,
        p12: 0.017,
        p44: -0.051,
      },
    },
    microphone: {
      diaphragm: { material: "wafer", thickness: "20 um" },
      guide: { at, depth: "2 um" },
      light: { wavelength: "1550 nm" },
    },
  });
const crystal = (place: string, at: string, coefficient: number, expected: number): TruthRow => ({
  what: `guide in (100) silicon along <110>, ${place}: static sensitivity [rad/Pa]`,
  got: () => sensitivity(wafer(at)),
  expected,
  within: 3e-4,
  why: "stiffness printed to four digits, coefficient to five; c12 / c11 follows from them",
  origin: "own derivation",
  source: `phi = (pi n^3 / lambda) P_x (-z) b <w_xx> with P_x = p11' - p12 + (p11 - p12) c12 / c11, <w_xx> D11 / (q a^2) = ${coefficient} (two methods)`,
});

/** Index 1.5 at 633 nm, glass of p11 0.121, p12 0.27, nu 0.21, E 72.9 GPa; 300 N/m in 30 um are 10 MPa. */
const stressed = (length: string, tension: unknown, frame: unknown) =>
  described({
    materials: {
      glass: { ...glass, index: 1.5, expansion: "7 um/(m K)" },
      holder: { ...glass, expansion: "5 um/(m K)" },
    },
    air: { temperature: "30 degC" },
    microphone: { diaphragm: { material: "glass", tension }, frame, guide: { length } },
  });
const pulled = (tension: unknown) => stressed("5 mm", tension, null);
const held = () => stressed("20 mm", null, { material: "holder", bondedAt: "20 degC" });
const biasOf = (microphone: Microphone) => biasAtRest(microphone)[0]!;

const bias: readonly TruthRow[] = [
  {
    what: "10 MPa across a guide of 5 mm: static phase [rad]",
    got: () => biasOf(pulled({ across: "300 N/m" })).stress,
    expected: -2.07,
    within: 0.005 / 2.07,
    why: "three digits printed",
    origin: "own derivation",
    source: "(2 pi / lambda) C sigma_x L, C = n^3 (p11 - p12) (1 + nu) / (2 E), by hand",
  },
  {
    what: "stress along the guide: static phase [rad]",
    got: () => biasOf(pulled({ along: "300 N/m" })).stress,
    expected: 0,
    within: 1e-12,
    why: "round-off",
    origin: "exact",
    source: "sigma_y does not enter the polarimeter's phase",
  },
  {
    what: "mismatch of 2e-6/K, 10 K, a guide of 20 mm on a frame that holds it fully: static phase [rad]",
    got: () => biasOf(held()).stress,
    expected: 1.5291,
    within: 1e-4,
    why: "digits by hand: sigma = -72.9e9 * 2e-5 / 0.79 Pa, -0.041425 rad per MPa and mm",
    origin: "own derivation",
    source: "(2 pi / lambda) C sigma_x L, by hand",
  },
  {
    what: "the same for each kelvin [degrees]",
    got: () => (biasOf(held()).stressPerKelvin * 180) / Math.PI,
    expected: 8.761,
    within: 1e-4,
    why: "digits by hand",
    origin: "own derivation",
    source: "a tenth of the row before",
  },
];

export const rows: readonly TruthRow[] = [
  ...glued,
  ...layered,
  ...strength,
  ...bias,
  crystal("center", "0 mm", -0.010586, 1.192944e-3),
  crystal("edge", "2.5 mm", 0.03021, -3.404386e-3),
];
