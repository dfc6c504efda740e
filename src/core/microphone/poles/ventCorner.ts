import { absolute, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import type { Microphone } from "../microphone.ts";
import { type CoupledSystem, portFlows, setFrequency } from "../system/coupled.ts";
import { lumpedParts, type Ports, portMatrix } from "../system/network.ts";

/** Volume flows of plate and film at a frequency [Hz]. */
export interface FlowsAt {
  readonly frequency: number;
  readonly ports: Ports;
}

/** What the corner is found from: the device, and its flows at any frequency. */
interface Asked {
  readonly microphone: Microphone;
  /** That of `Prepared`, the air that a bare diaphragm moves. */
  readonly nearField: number | null;
  readonly flowsAt: (frequency: number) => FlowsAt;
}

/** So slow that every vent has let its air through [Hz]. */
const slow = 1e-3;

/** Change of the corner, over itself, that ends its repetitions: what is left is a few hundredths of that. */
const within = 1e-3;

/** Frequency below which vent and leak let the pressure behind follow [Hz]; null without either, or where nothing stores air. */
export const ventCorner = (system: CoupledSystem): number | null =>
  cornerFrom(
    {
      microphone: system.microphone,
      nearField: system.prepared.nearField,
      flowsAt: (frequency) => {
        const omega = complex(2 * Math.PI * frequency);
        setFrequency(system, omega);
        return { frequency, ports: portFlows(system, omega) };
      },
    },
    null,
  );

/**
 * The same of any device, its flows at a slow frequency given where they are known.
 *
 *     f_c = G / (2 pi C),   Y = G + i omega C: what the volume behind takes per pressure, front, film and diaphragm included
 *
 * at f_c itself: there as much leaves as is stored. What plate and film take goes with the frequency while that is slow, so that
 * only holes and volumes are asked again in finding f_c by repetition; then plate and film at f_c, until that changes nothing.
 */
export function cornerFrom(asked: Asked, known: FlowsAt | null): number | null {
  const { back } = asked.microphone;
  if (!back || !(back.vent || back.leak)) return null;
  let flows = known ?? asked.flowsAt(slow);
  let corner = cornerBy(asked, flows, flows.frequency);
  for (let step = 0; step < 8 && corner !== null; step++) {
    flows = asked.flowsAt(corner);
    const next = cornerBy(asked, flows, corner);
    if (next === null || Math.abs(next - corner) < within * next) return next;
    corner = next;
  }
  return corner;
}

/** The corner with flows that go with the frequency. */
function cornerBy({ microphone, nearField }: Asked, { frequency: from, ports }: FlowsAt, start: number): number | null {
  let frequency = start;
  for (let step = 0; step < 30; step++) {
    const omega = complex(2 * Math.PI * frequency);
    const taken = takenBehind(portMatrix(lumpedParts(microphone, omega, nearField), faster(ports, frequency / from)));
    // A volume behind that nothing fills follows at once.
    if (taken === null || !(taken.re > 0 && taken.im > 0)) return null;
    const next = (taken.re * frequency) / taken.im;
    if (!Number.isFinite(next) || next > 1e5) return null;
    if (Math.abs(next - frequency) < within * next) return next;
    frequency = next;
  }
  return frequency;
}

const faster = ({ frontFront, frontBack, backBack, film }: Ports, by: number): Ports => ({
  frontFront: scale(frontFront, by),
  frontBack: scale(frontBack, by),
  backBack: scale(backBack, by),
  film: scale(film, by),
});

/** Y, where nothing drives the front; null without a volume behind. */
function takenBehind({ front, mixed, back }: ReturnType<typeof portMatrix>): Complex | null {
  if (back === null || front === null || absolute(front) === 0) return back;
  return subtract(back, divide(multiply(mixed, mixed), front));
}
