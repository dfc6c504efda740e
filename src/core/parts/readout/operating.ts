/** The operating point: what one radian does to the output at the bias, and how much light comes with it. */
import { cos, sin } from "../../numerics/sine.ts";
import type { Readout } from "./readout.ts";
import { type Port, portPower, type Transfer } from "./transfer.ts";

export interface OperatingPoint {
  /** Retardation at rest [rad]. */
  readonly bias: number;
  /** Share of the detected power at rest in each port [-]; they sum to 1. */
  readonly first: number;
  readonly second: number;
  /** Output at rest: the first port's share, or (first - second) of both [-]. */
  readonly output: number;
  /** Slope d output / d phi [1/rad], curvature d2 output / d phi2 [1/rad^2], signed. */
  readonly slope: number;
  readonly curvature: number;
  /** Contrast of the output, (most - least) / (most + least) of the first port [-]. */
  readonly visibility: number;
  /** |slope| over the largest that this readout reaches at any bias [-]; 0: no linear signal. */
  readonly quadrature: number;
}

/** The curve that is read: one port, or the first less the second. Sum of the ports is 1. */
export function outputCurve(transfer: Transfer, outputs: Readout["outputs"]): Port {
  const { first, second } = transfer;
  if (outputs === "one") return first;
  const re = first.amplitude * cos(first.angle) - second.amplitude * cos(second.angle);
  const im = first.amplitude * sin(first.angle) - second.amplitude * sin(second.angle);
  return { offset: first.offset - second.offset, amplitude: Math.hypot(re, im), angle: Math.atan2(im, re) };
}

/** Where a readout works at a bias [rad]. */
export function operatingPoint(transfer: Transfer, outputs: Readout["outputs"], bias: number): OperatingPoint {
  const curve = outputCurve(transfer, outputs);
  const { first, second } = transfer;
  const sine = sin(bias + curve.angle);
  return {
    bias,
    first: portPower(first, bias),
    second: portPower(second, bias),
    output: portPower(curve, bias),
    // At its null a sine is round-off; nothing is read of it.
    slope: Math.abs(sine) < 1e-12 ? 0 : -curve.amplitude * sine,
    curvature: -curve.amplitude * cos(bias + curve.angle),
    visibility: first.offset > 0 ? first.amplitude / first.offset : 0,
    quadrature: curve.amplitude > 0 && Math.abs(sine) >= 1e-12 ? Math.abs(sine) : 0,
  };
}

/**
 * Phase that a relative change of the light's power imitates [rad]: dphi = share * dP / P. Null: no slope.
 *
 *     one output         |output / slope|
 *     both               sqrt(output^2 + rejection^2) / |slope|
 *     normalized         rejection / |slope|
 *
 * The difference of two ports keeps its own value at rest of every change of power, and of the rest what the rejection leaves;
 * divided by the power (their sum, or a monitor), only the latter. Derivation: docs/theory/readout.md.
 */
export function phasePerRelativePower(
  { output, slope }: OperatingPoint,
  { outputs, rejection, normalized }: Pick<Readout, "outputs" | "rejection" | "normalized">,
): number | null {
  if (slope === 0) return null;
  if (normalized) return Math.abs(rejection / slope);
  return Math.hypot(output, outputs === "both" ? rejection : 0) / Math.abs(slope);
}
