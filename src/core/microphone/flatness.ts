/** How level a response stays up to a frequency: what is left of the room that it may use. */
import { type Curve, readCurve } from "./curve.ts";

const points = 96;

/**
 * `within` less the largest departure of |S| from its level at `reference`, between `reference` and `end` [dB]; tops of narrow
 * peaks among `besides` are looked at too. Zero where the end of the band (band.ts) is `end`; without the jump that the band's
 * end makes where a peak just touches the room.
 */
export function flatnessLeft(
  curve: Curve,
  given: {
    readonly reference: number;
    readonly end: number;
    readonly within: number;
    readonly besides: readonly number[];
  },
): number {
  const { reference, within, besides } = given;
  const end = Math.min(curve.to, Math.max(curve.from, given.end));
  const [low, high] = [Math.min(reference, end), Math.max(reference, end)];
  const places = [
    reference,
    ...Array.from({ length: points }, (_, i) => reference * (end / reference) ** ((i + 1) / points)),
    ...besides.filter((frequency) => frequency > low && frequency < high),
  ];
  const { re, im } = readCurve(curve, Float64Array.from(places));
  const level = Math.hypot(re[0]!, im[0]!);
  let off = 0;
  for (let i = 1; i < places.length; i++)
    off = Math.max(off, Math.abs(20 * Math.log10(Math.hypot(re[i]!, im[i]!) / level)));
  return within - off;
}
