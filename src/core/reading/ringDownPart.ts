/** What is asked of a ring-down, and the part of the record that answers: from the loudest sample on, with its rest and its tone. */
import { answer, type Outcome, refuse } from "../problem.ts";
import { envelopeOf, guessDecay, restOf, startOfDecay, strongestTone } from "./decayStart.ts";

export interface RingDownQuestion {
  /** The output, evenly sampled, in volts or radians; a missing sample is NaN. */
  readonly y: Float64Array;
  /** Between samples [s]. */
  readonly step: number;
  /** Time of the first sample [s]; 0 where absent. */
  readonly start?: number;
  /** Part to fit [s]; found and to the end where absent. */
  readonly from?: number;
  readonly to?: number;
  /** Where the tone lies, about [Hz]; the strongest one where absent. */
  readonly near?: number;
  /** Number of modes; found (one or two) where absent. */
  readonly modes?: number;
  /** Offset always; drift, hum of 50 or 60 Hz, a tone that is still there: found where absent, or as told. */
  readonly drift?: boolean;
  /** Mains frequency [Hz]; null for none. */
  readonly hum?: number | null;
  /** Frequency of a tone that does not die [Hz]; null for none. */
  readonly tone?: number | null;
  /** First sample that is clipped, from 0, and the last; a fit starts after it. */
  readonly clippedUntil?: number | null;
}

export interface Piece {
  readonly y: Float64Array;
  /** First sample used, in the record. */
  readonly first: number;
  readonly rest: number;
  /** Cycles per sample. */
  readonly tone: number;
  readonly guess: { readonly rate: number; readonly speed: number };
  readonly foundStart: boolean;
}

export function pieceOf({ y, step, start = 0, from, to, near, clippedUntil }: RingDownQuestion): Outcome<Piece> {
  if (!(step > 0) || !Number.isFinite(step))
    return refuse({
      code: "wrong-step",
      path: ["step"],
      message: `Found a step of ${step} s between samples; needed: more than zero.`,
    });
  const low = from === undefined ? 0 : Math.max(0, Math.ceil((from - start) / step - 1e-9));
  const high = to === undefined ? y.length : Math.min(y.length, Math.floor((to - start) / step + 1e-9) + 1);
  if (high - low < 12)
    return refuse({
      code: from === undefined && to === undefined ? "too-few-samples" : "part-outside",
      path: ["use"],
      message: `Samples in the part to fit: ${Math.max(0, high - low)} of ${y.length}; needed: 12 or more.`,
    });
  const filled = withoutHoles(y.subarray(low, high));
  const rest = restOf(filled);
  if (filled.every((value) => value === filled[0]))
    return refuse({
      code: "silent",
      path: ["y"],
      message: `All ${filled.length} samples are ${filled[0]}; needed: a record with a tone in it. Is it the right channel?`,
    });
  // The strongest tone of the whole, then of what follows the start: a drive may have another frequency than the decay.
  const outer = near === undefined ? strongestTone(filled) : near * step;
  const half = Math.max(1, Math.round(0.5 / Math.max(outer, 1 / filled.length)));
  const envelope = envelopeOf(filled, rest, half);
  let offset = from === undefined ? startOfDecay(envelope) : 0;
  if (clippedUntil !== null && clippedUntil !== undefined) offset = Math.max(offset, clippedUntil + 1 - low);
  if (filled.length - offset < 12)
    return refuse({
      code: "no-decay",
      path: ["y"],
      message: `The record ends ${filled.length - offset} samples after its loudest part; needed: the decay that follows. Record longer.`,
    });
  const used = filled.subarray(offset);
  const tone = near === undefined ? toneOfDecay(used, outer) : outer;
  const guess = guessDecay(used, rest, tone, near === undefined ? 0.7 : 0.1);
  return answer({
    y: y.subarray(low + offset, high),
    first: low + offset,
    rest,
    tone: guess.speed / (2 * Math.PI),
    guess,
    foundStart: from === undefined,
  });
}

/** Tone of the loud beginning: long silence behind it only adds noise. */
function toneOfDecay(used: Float64Array, outer: number): number {
  const periods = Math.max(64, Math.ceil(60 / Math.max(outer, 1e-6)));
  const found = strongestTone(used.subarray(0, Math.min(used.length, periods)));
  return found > 0 ? found : outer;
}

function withoutHoles(y: Float64Array): Float64Array {
  if (!y.some(Number.isNaN)) return y;
  let last = y.find((value) => !Number.isNaN(value)) ?? 0;
  return y.map((value) => {
    if (!Number.isNaN(value)) last = value;
    return last;
  });
}
