/** How strongly the frame's acceleration reads, as the sound level that reads the same. */

import type { EngineAnswer } from "../../microphone/engine.ts";
import { readCurve, sampleCurve } from "../../microphone/response/curve.ts";
import { equivalentLevelDb } from "../../microphone/response/vibration.ts";
import { type Complex, complex } from "../../numerics/complex.ts";
import { pow } from "../../numerics/power.ts";
import type { Brief } from "../../project/brief.ts";
import type { Prediction } from "./prediction.ts";

// A thousandth of a decibel.
const tolerance = 1e-4;

/** Points looked at inside the band asked for. */
const looked = 60;

/** Level over the response's frequencies, and the worst inside the brief's band (at its reference where it asks for no band). */
export function vibrationOf(
  answered: EngineAnswer,
  brief: Brief,
  given: {
    readonly response: Prediction["response"];
    readonly respond: (frequency: number) => Complex;
    readonly mass: number;
  },
): Prediction["vibration"] {
  const { curve, line } = answered;
  const accelerate = (frequency: number) => answered.accelerate(complex(2 * Math.PI * frequency));
  const shaken = sampleCurve(accelerate, {
    from: curve.from,
    to: curve.to,
    floor: 1e-3 * Math.abs(line.static) * given.mass,
    tolerance,
  });
  const inside = (frequency: number) => frequency >= curve.from && frequency <= curve.to;
  const read = (frequencies: readonly number[]): readonly Complex[] => {
    const within = readCurve(shaken, Float64Array.from(frequencies));
    return frequencies.map((frequency, i) =>
      shaken.converged && inside(frequency) ? complex(within.re[i]!, within.im[i]!) : accelerate(frequency),
    );
  };
  const { response } = given;
  const level = read(response.frequency).map((value, i) =>
    equivalentLevelDb(value, complex(response.re[i]!, response.im[i]!)),
  );
  const asked = bandOf(brief).filter(inside);
  const heard = readCurve(curve, Float64Array.from(asked));
  let worst: { frequency: number; level: number } | null = null;
  read(asked).forEach((value, i) => {
    const frequency = asked[i]!;
    const sound = curve.converged ? complex(heard.re[i]!, heard.im[i]!) : given.respond(frequency);
    const one = equivalentLevelDb(value, sound);
    if (one !== null && one > (worst?.level ?? Number.NEGATIVE_INFINITY)) worst = { frequency, level: one };
  });
  return { level, worst };
}

function bandOf({ band, reference }: Brief): readonly number[] {
  const from = band?.from ?? reference;
  const to = band?.to ?? reference;
  if (!(from > 0 && to > from)) return [reference];
  return Array.from({ length: looked }, (_, i) => from * pow(to / from, i / (looked - 1)));
}
