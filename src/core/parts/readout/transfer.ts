/**
 * The transfer curve: power at the detectors against the phase between the two fields, by Jones calculus.
 *
 * Field after the polarizer (x: TE, z: TM), through the guide and a wave plate, onto the analyzer:
 *
 *     u = <analyzer| W |x> E_x,   v = <analyzer| W |z> E_z,   P = |u + v e^{-i phi}|^2 = offset + |a| cos(phi + angle)
 *
 * A polarizer of leak e passes 1 / (1 + e) of its output along its axis and e / (1 + e) crossed to it, without coherence
 * between them; an analyzer likewise, and its second port has the rest. So power is conserved: both ports together have all
 * of it. Each leak e lowers the contrast by (1 - e) / (1 + e). Derivation: docs/theory/readout.md.
 */

import { add, type Complex, complex, multiply } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { Readout, WavePlate } from "./readout.ts";

/** One port: share of the whole detected power, offset + amplitude cos(phi + angle) [-]. */
export interface Port {
  readonly offset: number;
  /** Not negative. */
  readonly amplitude: number;
  /** [rad] */
  readonly angle: number;
}

/** Both ports; they sum to 1 at every phase. `first` is the analyzer's own. */
export interface Transfer {
  readonly first: Port;
  readonly second: Port;
}

type Jones = readonly [readonly [Complex, Complex], readonly [Complex, Complex]];

/** Fields along (cos angle, sin angle), as a pair x, z. */
const along = (angle: number): readonly [number, number] => [cos(angle), sin(angle)];

/**
 * Jones matrix of a retarder with its slow axis at `angle` from x.
 *
 *     W = R(angle) diag(e^{-i delta}, 1) R(-angle)
 *
 * Source: [jones-1941] (from memory, to be confirmed), with e^{i(omega t - k z)}.
 */
export function retarder({ retardation, angle }: WavePlate): Jones {
  const [c, s] = along(angle);
  const slow = complex(cos(retardation), -sin(retardation));
  const entry = (slowShare: number, fastShare: number): Complex => ({
    re: slow.re * slowShare + fastShare,
    im: slow.im * slowShare,
  });
  return [
    [entry(c * c, s * s), entry(c * s, -c * s)],
    [entry(c * s, -c * s), entry(s * s, c * c)],
  ];
}

const unity: Jones = [
  [complex(1), complex(0)],
  [complex(0), complex(1)],
];

/** Transfer of a readout [-]. `visibility` multiplies the amplitudes. */
export function transferOf(readout: Readout): Transfer {
  return readout.kind === "polarimetric" ? polarimeter(readout) : interferometer(readout);
}

function polarimeter(readout: Readout): Transfer {
  const { polarizer, analyzer, powerRatio, wavePlate, visibility } = readout;
  const plate = wavePlate === null ? unity : retarder(wavePlate);
  const states = [
    { share: 1 / (1 + polarizer.leak), field: along(polarizer.angle) },
    { share: polarizer.leak / (1 + polarizer.leak), field: along(polarizer.angle + Math.PI / 2) },
  ];
  // The loss of the better mode is in `transmission`; what arrives is counted as 1.
  const arriving = states.reduce(
    (sum, { share, field }) => sum + share * (field[0] ** 2 + powerRatio * field[1] ** 2),
    0,
  );
  const through = (axis: number) => {
    const [c, s] = along(axis);
    let offset = 0;
    let beat = complex(0);
    for (const { share, field } of states) {
      const u = projected(plate, [c, s], 0, field[0]);
      const v = projected(plate, [c, s], 1, Math.sqrt(powerRatio) * field[1]);
      offset += share * (u.re ** 2 + u.im ** 2 + v.re ** 2 + v.im ** 2);
      // 2 Re (u conj(v) e^{i phi})
      const product = multiply(u, { re: v.re, im: -v.im });
      beat = add(beat, { re: 2 * share * product.re, im: 2 * share * product.im });
    }
    return { offset: offset / arriving, beat: { re: beat.re / arriving, im: beat.im / arriving } };
  };
  const pass = through(analyzer.angle);
  const crossed = through(analyzer.angle + Math.PI / 2);
  const own = 1 / (1 + analyzer.leak);
  const other = analyzer.leak / (1 + analyzer.leak);
  const port = (main: typeof pass, leaked: typeof pass): Port => ({
    offset: own * main.offset + other * leaked.offset,
    ...polar({
      re: visibility * (own * main.beat.re + other * leaked.beat.re),
      im: visibility * (own * main.beat.im + other * leaked.beat.im),
    }),
  });
  return { first: port(pass, crossed), second: port(crossed, pass) };
}

/** <axis| plate |mode> amplitude. */
function projected(plate: Jones, [c, s]: readonly [number, number], mode: 0 | 1, amplitude: number): Complex {
  const [x, z] = [plate[0][mode], plate[1][mode]];
  return { re: amplitude * (c * x.re + s * z.re), im: amplitude * (c * x.im + s * z.im) };
}

/**
 * Two arms on one coupler.
 *
 *     P = 1/2 (1 +- V cos phi),   V = 2 sqrt(r) / (1 + r), r the arms' power ratio
 */
function interferometer({ powerRatio, visibility }: Readout): Transfer {
  const amplitude = 0.5 * visibility * visibilityOf(powerRatio);
  return { first: { offset: 0.5, amplitude, angle: 0 }, second: { offset: 0.5, amplitude, angle: Math.PI } };
}

/** Visibility of two fields whose powers have the ratio r [-]: 2 sqrt(r) / (1 + r). */
const visibilityOf = (ratio: number): number => (2 * Math.sqrt(ratio)) / (1 + ratio);

/** Below round-off of the fields two of them do not interfere. */
const leastAmplitude = 1e-14;

function polar({ re, im }: Complex): { amplitude: number; angle: number } {
  const amplitude = Math.hypot(re, im);
  return amplitude < leastAmplitude ? { amplitude: 0, angle: 0 } : { amplitude, angle: Math.atan2(im, re) };
}

/** Share of the detected power in a port at a phase [-]. */
export const portPower = ({ offset, amplitude, angle }: Port, phase: number): number =>
  offset + amplitude * cos(phase + angle);
