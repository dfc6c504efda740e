/**
 * Poles about to meet on the axis of decay, or just parted there, as answers in time need them.
 *
 * Where two poles meet, each has a residue without limit, of which only the sum says something; and a constant loss factor, which
 * is not causal, parts them by sqrt(eta) of themselves, so that the mirror image of one is no longer the other. What both leave
 * behind is read without knowing either, by a circle around them on the device without its loss factor:
 *
 *     1 / (2 pi i) integral S(omega) e^(i omega t) d omega = sum_k (S(z_k) (z_k - c) / n) e^(i z_k t),   z_k = c + rho e^(i a_k)
 *
 * a sum over n points that looks like one over poles, off by (d / rho)^n of poles inside at a distance d from c and by
 * (rho / d)^n of those outside. Derivation: docs/theory/poles.md.
 */
import { absolute, type Complex, complex, multiply, scale, subtract } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { PoleWithResidue } from "../response/timeAnswers.ts";

/** Of a pole, its distance from its mirror image or from its partner on the axis, below which both are taken together. */
const close = 0.2;
/** Points of a circle; a multiple of four, so that none lies on the axis. */
const points = 24;
/** A circle must keep this ratio to the poles within and to those outside. */
const apart = 0.75;

export interface ClosePoles {
  readonly lossFactor: number;
  /** S of the device without its loss factor [rad/Pa]. */
  readonly lossless: (omega: Complex) => Complex;
  /** Rate of the first singularity of holes and cavities on the axis of decay [1/s]. */
  readonly singular: number;
}

/** The poles, but of those about to meet the points of a circle around them; mirror images stand for themselves, as everywhere. */
export function withoutClosePoles(poles: readonly PoleWithResidue[], given: ClosePoles): readonly PoleWithResidue[] {
  let left = poles;
  for (const { omega } of poles) {
    if (!left.some((pole) => pole.omega === omega)) continue;
    const center = centerOf(
      omega,
      left.map((pole) => pole.omega),
    );
    const circle = center === null ? null : circleAround(center, left, given);
    if (circle) left = [...circle.outside, ...circle.points];
  }
  return left;
}

/** Rate of the middle between a pole and its close partner; null where it has none. */
function centerOf(omega: Complex, all: readonly Complex[]): number | null {
  if (omega.re !== 0) return 2 * omega.re < close * absolute(omega) ? omega.im : null;
  const partner = all.find(
    (other) => other.re === 0 && other !== omega && Math.abs(other.im - omega.im) < close * omega.im,
  );
  return partner ? (omega.im + partner.im) / 2 : null;
}

function circleAround(rate: number, poles: readonly PoleWithResidue[], { lossFactor, lossless, singular }: ClosePoles) {
  const center = complex(0, rate);
  const away = (omega: Complex) => absolute(subtract(omega, center));
  // The loss factor turns squares of distances by eta.
  const lossy = (distance: number) => Math.hypot(distance, Math.sqrt(lossFactor) * rate);
  const inside = poles.filter(({ omega }) => away(omega) < close * rate);
  const outside = poles.filter(({ omega }) => away(omega) >= close * rate);
  const within = Math.max(...inside.map(({ omega }) => lossy(away(omega))));
  const beyond = Math.min(rate, Math.abs(singular - rate), ...outside.map(({ omega }) => away(omega)));
  const radius = Math.sqrt(within * beyond);
  if (within > apart * radius) return null;
  const around = Array.from({ length: points }, (_, k) => (2 * Math.PI * (k + 0.5)) / points)
    .filter((angle) => cos(angle) > 0)
    .map((angle): PoleWithResidue => {
      const step = scale(complex(cos(angle), sin(angle)), radius);
      const omega = complex(step.re, rate + step.im);
      return { omega, residue: scale(multiply(lossless(omega), step), 1 / points) };
    });
  return { outside, points: around };
}
