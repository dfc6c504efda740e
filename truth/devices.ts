/** Devices that several truth tables share, in SI, with the constants that their published numbers belong to. */

import type { Air } from "../src/core/material/air.ts";
import type { Microphone } from "../src/core/microphone/microphone.ts";
import type { Diaphragm, Edge } from "../src/core/parts/diaphragm/diaphragm.ts";
import type { FilmEdge } from "../src/core/parts/film/film.ts";
import type { Guide } from "../src/core/parts/guide/guide.ts";
import { idealLight, idealReadout } from "../src/core/parts/readout/ideal.ts";

/** Plane-stress stiffness of an isotropic sheet. */
export function isotropic(youngsModulus: number, poissonRatio: number) {
  const q11 = youngsModulus / (1 - poissonRatio ** 2);
  return { q11, q12: poissonRatio * q11, q22: q11, q66: youngsModulus / (2 * (1 + poissonRatio)) };
}

/** A plate with a = 1, D11 = 1 and unit mass per area, so that handbook coefficients read off directly. */
export function unitPlate(options: {
  along?: number;
  poissonRatio?: number;
  edges?: { sides: Edge; ends: Edge };
  tension?: { across: number; along: number };
  /** D12, D22, D66 over D11; isotropic when absent. */
  ratios?: { d12: number; d22: number; d66: number };
}): Diaphragm {
  const nu = options.poissonRatio ?? 0.3;
  const ratios = options.ratios ?? { d12: nu, d22: 1, d66: (1 - nu) / 2 };
  const thickness = 1e-3;
  const q11 = 12 / thickness ** 3;
  return {
    across: 1,
    along: options.along ?? 1,
    thickness,
    stiffness: { q11, q12: q11 * ratios.d12, q22: q11 * ratios.d22, q66: q11 * ratios.d66 },
    density: 1 / thickness,
    edges: options.edges ?? { sides: "clamped", ends: "clamped" },
    tension: options.tension ?? { across: 0, along: 0 },
    lossFactor: 0,
  };
}

/** Air constants that the worked numbers of the model's derivation belong to: no slip. */
export const workedAir: Air = {
  pressure: 101325,
  temperature: 296.15,
  humidity: 0.5,
  density: 1.186,
  viscosity: 1.83e-5,
  heatRatio: 1.4,
  prandtl: 0.71,
  meanFreePath: 0,
};

/** Glass of the worked numbers: E 72.9 GPa, nu 0.21, rho 2510 kg/m3. */
export function workedDiaphragm(across: number, along: number, thickness: number, lossFactor = 0): Diaphragm {
  return {
    across,
    along,
    thickness,
    stiffness: isotropic(72.9e9, 0.21),
    density: 2510,
    edges: { sides: "clamped", ends: "clamped" },
    tension: { across: 0, along: 0 },
    lossFactor,
  };
}

export function workedGuide(at: number, index = 1.46): Guide {
  return {
    at,
    face: "front",
    depth: 3e-6,
    width: null,
    length: 20e-3,
    weight: 1,
    birefringence: 0,
    optics: { index, p11: 0.121, p12: 0.27, poissonRatio: 0.21, youngsModulus: 72.9e9 },
  };
}

export function workedMicrophone(options: {
  across: number;
  along?: number;
  thickness: number;
  gap: number | null;
  edges?: FilmEdge;
  at?: number;
  air?: Air;
  lossFactor?: number;
}): Microphone {
  const edge = options.edges ?? "open";
  return {
    diaphragm: workedDiaphragm(
      options.across,
      options.along ?? options.across,
      options.thickness,
      options.lossFactor ?? 0,
    ),
    guides: [workedGuide(options.at ?? 0)],
    light: idealLight(633e-9),
    readout: idealReadout,
    air: options.air ?? workedAir,
    film: options.gap === null ? null : { gap: options.gap, edges: { sides: edge, ends: edge }, backPlate: null },
    front: null,
    back: null,
    body: null,
  };
}

/** The whole worked case: 5 mm across, 6 mm along, 40 um; guide in the front face at 2.25 mm; open film 50 um; hole, cavities, hidden vent. */
export function wholeDevice(lossFactor: number): Microphone {
  const bare = workedMicrophone({ across: 5e-3, along: 6e-3, thickness: 40e-6, gap: 50e-6, lossFactor });
  return {
    ...bare,
    guides: [workedGuide(2.25e-3, 1.5)],
    front: {
      holes: [{ diameter: 0.5e-3, length: 0.5e-3, at: [0, 0], ends: "piston" }],
      cavity: { volume: 15e-9, surface: 80e-6 },
    },
    back: {
      cavity: { volume: 400e-9, surface: 350e-6 },
      vent: { shape: "round", diameter: 0.1e-3, length: 2e-3, exposed: false },
      leak: null,
    },
  };
}
