/** What holes, slits and cavities turn into heat, from the profiles of velocity and temperature across them; real frequencies. */
import type { Air } from "../../material/air.ts";
import { roundFunctions } from "../../numerics/besselRatio.ts";
import { slitFunctions } from "../../numerics/complex.ts";
import { layerBessel } from "../../numerics/layerBessel.ts";
import { layerLoss } from "../../numerics/layerLoss.ts";
import { gaussLegendre } from "../../numerics/legendre.ts";
import type { Cavity, Hole, Leak, Vent } from "./acoustics.ts";

interface RealTone {
  readonly air: Air;
  /** [rad/s] */
  readonly omega: number;
}

const { nodes, weights } = gaussLegendre(32);

/**
 * Mean power lost to friction in a round hole per squared volume flow [W per (m3/s)^2], of amplitudes.
 *
 *     (mu l / 2) integral |dv/dr|^2 2 pi r dr,   v / v_mean = (1 - I0(k r) / I0(k a)) / (1 - F),   k = (1 + i) / layer
 *
 * Derivation: docs/theory/losses.md. By Gauss's rule over the last 40 layers before the wall; further in nothing moves apart.
 * Holds: as `holeImpedance`; its ends lose nothing.
 */
export function holeLoss({ diameter, length, air, omega }: RealTone & Pick<Hole, "diameter" | "length">): number {
  const radius = diameter / 2;
  const layer = Math.sqrt((2 * air.viscosity) / (air.density * omega));
  const size = radius / layer;
  const { flow } = roundFunctions({ re: 0, im: 2 * size * size });
  const atWall = layerBessel(0, size);
  // |k a|^2 |I1(k r) / I0(k a)|^2 over |k a|^4 |flow|^2: squared slope of v over (v_mean / a)^2.
  const perSlope = 1 / (2 * size * size * squared(flow) * squared(atWall));
  let integral = 0;
  const depths = [0, 12, 40].map((layers) => Math.min(1, layers / size));
  for (let panel = 0; panel + 1 < depths.length; panel++) {
    const [near, far] = [depths[panel]!, depths[panel + 1]!];
    for (let i = 0; i < nodes.length; i++) {
      const r = 1 - (near + far) / 2 - (nodes[i]! * (far - near)) / 2;
      const slope = layerBessel(1, size * r);
      integral += ((weights[i]! * (far - near)) / 2) * r * squared(slope) * Math.exp(2 * size * (r - 1));
    }
  }
  const area = Math.PI * radius * radius;
  return (air.viscosity * length * Math.PI * integral * perSlope) / (area * area);
}

const squared = ({ re, im }: { readonly re: number; readonly im: number }): number => re * re + im * im;

/**
 * The same for a slit between parallel walls [W per (m3/s)^2].
 *
 *     (mu l b / 2) integral |dv/dz|^2 dz,   v / v_mean = (1 - cosh(k z) / cosh(k g / 2)) / (1 - tanh(k g / 2) / (k g / 2))
 */
export function slitLoss({
  height,
  width,
  length,
  air,
  omega,
}: RealTone & Pick<Leak, "height" | "width" | "length">): number {
  const layer = Math.sqrt((2 * air.viscosity) / (air.density * omega));
  const x = height / layer;
  const kSquared = (x * x) / 2;
  // 1 - tanh k / k, squared, without its cancellation.
  const mean = kSquared * kSquared * squared(slitFunctions({ re: 0, im: kSquared }).flow);
  const area = width * height;
  return ((air.viscosity / layer) * layerLoss(x) * length * width) / (area * area * mean);
}

export function ventLoss({ vent, ...tone }: RealTone & { readonly vent: Vent }): number {
  return vent.shape === "slit" ? slitLoss({ ...vent, ...tone }) : holeLoss({ ...vent, ...tone });
}

/**
 * Mean power lost by a cavity to heat that flows to its wall and back, per squared pressure [W/Pa^2], of amplitudes.
 *
 *     (kappa / (2 T0)) integral |grad T|^2 dV,   T as between two walls 2 V / (wall area) apart
 *
 * Derivation and holds: as `cavityAdmittance`.
 */
export function cavityLoss({ volume, surface, air, omega }: RealTone & Cavity): number {
  const diffusivity = air.viscosity / (air.density * air.prandtl);
  const layer = Math.sqrt((2 * diffusivity) / omega);
  const perPressure = (diffusivity * (air.heatRatio - 1)) / (air.heatRatio * air.pressure);
  return (perPressure / layer) * layerLoss((2 * volume) / surface / layer) * (surface / 2);
}
