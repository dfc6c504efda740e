/** How level a response stays up to a frequency: what is left of the room that it may use above and below. */
import { equalRatios } from "../../numerics/power.ts";
import { type Curve, squaredIn } from "./curve.ts";

/** Frequencies at which the level is looked at, beside the tops of peaks. */
const points = 96;

/** What is left of the room above and below the level [dB]. */
export interface FlatnessLeft {
  readonly above: number;
  readonly below: number;
}

/**
 * `within` less the largest rise, and less the largest fall, of |S| from its level at `reference`, between `reference` and `end`
 * [dB]; tops of narrow peaks among `besides` are looked at too. One of them is zero where the end of the band (band.ts) is `end`;
 * neither has the jump that the band's end makes where a peak just touches the room, nor the ridge that the smaller of both has.
 */
export function flatnessLeft(
  curve: Curve,
  given: {
    readonly reference: number;
    readonly end: number;
    readonly within: number;
    readonly besides: readonly number[];
  },
): FlatnessLeft {
  const { reference, within, besides } = given;
  const end = Math.min(curve.to, Math.max(curve.from, given.end));
  const [low, high] = [Math.min(reference, end), Math.max(reference, end)];
  const squaredAt = squaredIn(curve);
  const level = squaredAt(reference);
  let [least, most] = [level, level];
  const look = (frequency: number) => {
    const squared = squaredAt(frequency);
    least = Math.min(least, squared);
    most = Math.max(most, squared);
  };
  for (const frequency of equalRatios(reference, end, points + 1)) look(frequency);
  for (const frequency of besides) if (frequency > low && frequency < high) look(frequency);
  return { above: within - 10 * Math.log10(most / level), below: within + 10 * Math.log10(least / level) };
}
