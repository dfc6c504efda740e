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

/** Change of the corner, over itself, that ends its repetitions. */
const within = 1e-3;

/** Of itself, the change by the flows at a first guess beyond which they do not go with the frequency up to it. */
const guessed = 0.1;
const most = 60;

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
 * only holes and volumes are asked again for a first guess. Then all of them, by repetition, until that changes nothing; from the
 * slow side where the guess is none, because a film that creeps has more than one such frequency: the lowest counts.
 */
export function cornerFrom(asked: Asked, known: FlowsAt | null): number | null {
  const { back } = asked.microphone;
  if (!back || !(back.vent || back.leak)) return null;
  const slowly = known ?? asked.flowsAt(slow);
  let corner = guessFrom(asked, slowly);
  let next = corner && nextBy(asked, asked.flowsAt(corner), corner);
  if (corner === null || next === null || Math.abs(next - corner) > guessed * corner) {
    corner = slowly.frequency;
    next = nextBy(asked, slowly, corner);
  }
  for (let step = 0; step < most && next !== null && Math.abs(next - corner) >= within * next; step++) {
    corner = next;
    next = nextBy(asked, asked.flowsAt(corner), corner);
  }
  return next;
}

/** The corner with flows that go with the frequency. */
function guessFrom(asked: Asked, flows: FlowsAt): number | null {
  let corner = flows.frequency;
  for (let step = 0; step < most; step++) {
    const next = nextBy(asked, flows, corner);
    if (next === null || Math.abs(next - corner) < within * next) return next;
    corner = next;
  }
  return corner;
}

/** G / (2 pi C) at a frequency, of flows that go with it; null: a volume behind that nothing fills follows at once. */
function nextBy(
  { microphone, nearField }: Asked,
  { frequency: from, ports }: FlowsAt,
  frequency: number,
): number | null {
  const omega = complex(2 * Math.PI * frequency);
  const taken = takenBehind(portMatrix(lumpedParts(microphone, omega, nearField), faster(ports, frequency / from)));
  if (taken === null || !(taken.re > 0 && taken.im > 0)) return null;
  const next = (taken.re * frequency) / taken.im;
  return Number.isFinite(next) && next <= 1e5 ? next : null;
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
