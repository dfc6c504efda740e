/** Whether the points show the resonance that a section was fitted with. Derivation: docs/theory/responseReading.md. */
import type { Problem } from "../problem.ts";
import { formatNumber, formatQuantity } from "../quantity/format.ts";
import type { ResponseReading } from "./response.ts";
import { dampingStops } from "./sectionSearch.ts";

/** Beyond the points by this factor a resonance is a guess from the slope: an octave, a convention. */
const farOutside = 2;

/** The problem `no-resonance` where a slope or noise was fitted; null where the points hold a resonance, or lie beside one. */
export function notShown(reading: ResponseReading, magnitudeOnly: boolean): Problem | null {
  const why = reasonAgainst(reading, magnitudeOnly);
  if (why === null) return null;
  const { from, to, count } = reading.used;
  return {
    code: "no-resonance",
    path: ["frequency"],
    message: `The ${count} points from ${hertz(from)} to ${hertz(to)} show no resonance: ${why}. Needed: a response that rises to a resonance and falls, with points on both sides of it. Measure over a wider band, or mark another part.`,
  };
}

function reasonAgainst(reading: ResponseReading, magnitudeOnly: boolean): string | null {
  const { used, included, sections, model } = reading;
  const { frequency, dampingRatio } = reading.values;
  const [least, most] = dampingStops;
  const read = `the best fit has the damping ratio ${number(dampingRatio.value)}`;
  if (dampingRatio.value <= least * (1 + 1e-6) || dampingRatio.value >= most * (1 - 1e-6))
    return `${read}, where the search stops`;
  if (dampingRatio.low !== null && dampingRatio.low <= 0)
    return `${read} with a standard uncertainty of ${number(dampingRatio.standardUncertainty ?? 0)}`;
  if (frequency.value < used.from / farOutside || frequency.value > used.to * farOutside)
    return `the best fit has it at ${hertz(frequency.value)}, more than an octave away from them`;
  if (!magnitudeOnly) return null;
  // A slope: the resonance is a guess where it lies beyond the points; where more than a section was needed for the curvature,
  // unless an octave of points lies on either side of it.
  const size = model.re.map((re, i) => Math.hypot(re, model.im[i]!));
  const top = size.indexOf(Math.max(...size));
  if (top > 0 && top < size.length - 1) return null;
  const room = included.length + sections.length > 1 ? 2 : 1;
  if (frequency.value >= used.from * room && frequency.value <= used.to / room) return null;
  return `the magnitude ${top === 0 ? "falls" : "rises"} from the first to the last one`;
}

const number = (value: number) => formatNumber(value, { digits: 2 });
const hertz = (value: number) => formatQuantity(value, "frequency", { digits: 4 });
