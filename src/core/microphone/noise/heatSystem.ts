/** Small bases for thermal noise, kept with a shape: they know nothing of gap, thickness, guide or air. */

import type { ShapeEntry } from "../engine.ts";
import type { Microphone } from "../microphone.ts";
import { coupledSystem } from "../system/coupled.ts";
import { type Line, prepareLine } from "../system/line.ts";
import { type Functions, type Prepared, prepareClass, type Resolution, wavesAt } from "../system/prepare.ts";
import type { LineSystem } from "./lineAnswer.ts";
import { structuralCompliance } from "./structuralNoise.ts";

export interface HeatBases {
  readonly functions: Functions;
  readonly even: Prepared;
  readonly odd: Prepared;
  /** The last lines of light and their c^T K^-1 c with a width, by what they depend on. */
  lines: { readonly key: string; readonly even: Line; readonly odd: Line; readonly structural: number } | null;
}

/** Highest frequency that noise is weighted at [Hz]. */
const audible = 20e3;

/**
 * Resolution for heat: the influence function carries the line, so few functions do. At least 5 a direction, 1.5 + 0.65 times
 * the half waves that fit into half the side at 20 kHz, and never more than the response has.
 *
 * 5, 1.5, 0.65 and 16 film terms: smallest that kept the density of a thin film, a whole device and a wide plate to 1e-4 up to
 * 20 kHz; not derived. Odd shapes carry a twentieth of the power and get less.
 */
export function heatDetail(microphone: Microphone, response: Resolution): Resolution {
  const waves = wavesAt(microphone, 2 * Math.PI * audible);
  const functions = (count: number, most: number) => Math.min(most, Math.max(5, Math.ceil(1.5 + 0.65 * count)));
  return {
    functions: {
      across: functions(waves.across, response.functions.across),
      along: functions(waves.along, response.functions.along),
    },
    fine: response.fine,
    filmTerms: 16,
  };
}

/** What thermal noise is computed with, and c^T K^-1 c of light with a width [rad^2/(N m)]; 0 without a loss factor. */
export interface HeatSystem extends LineSystem {
  readonly structural: number;
}

export function heatSystem(entry: ShapeEntry, microphone: Microphone): HeatSystem {
  const wanted = heatDetail(microphone, entry.detail);
  const covers =
    entry.heat &&
    entry.heat.functions.across >= wanted.functions.across &&
    entry.heat.functions.along >= wanted.functions.along;
  const bases = covers && entry.heat ? entry.heat : newBases(entry, microphone, wanted);
  entry.heat = bases;
  const { diaphragm, guides, light } = microphone;
  const systems = { even: coupledSystem(bases.even, microphone), odd: coupledSystem(bases.odd, microphone) };
  const key = JSON.stringify([diaphragm, guides, light.wavelength]);
  if (bases.lines?.key !== key) {
    const [even, odd] = [prepareLine(bases.even, microphone), prepareLine(bases.odd, microphone)];
    const whole = { even: { system: systems.even, line: even }, odd: { system: systems.odd, line: odd } };
    bases.lines = { key, even, odd, structural: diaphragm.lossFactor > 0 ? structuralCompliance(whole) : 0 };
  }
  const { even, odd, structural } = bases.lines;
  return { even: { system: systems.even, line: even }, odd: { system: systems.odd, line: odd }, structural };
}

function newBases({ prepared }: ShapeEntry, microphone: Microphone, detail: Resolution): HeatBases {
  return {
    functions: detail.functions,
    even: prepareClass(microphone, "even", detail, prepared.rest, prepared),
    odd: prepareClass(microphone, "odd", lessThan(detail), prepared.rest),
    lines: null,
  };
}

const lessThan = ({ functions, fine, filmTerms }: Resolution): Resolution => ({
  functions: { across: functions.across - 1, along: functions.along - 1 },
  fine: { across: Math.ceil(0.75 * fine.across), along: Math.ceil(0.75 * fine.along) },
  filmTerms: filmTerms - 4,
});
