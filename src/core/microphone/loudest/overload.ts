/**
 * What a tone that is too loud leaves behind when it stops, stepped in time with stretched diaphragm, squeezed film and the readout's
 * own curve (motionSteps.ts).
 *
 * The tone has stood for ever where a balance is found for it, else for some periods from rest; it stops where its pressure is
 * largest. Once the forces off the straight line are too small to be read the rest is the sum of poles. Derivation:
 * docs/theory/loudest.md.
 */
import { absolute, add, type Complex, complex, divide, multiply, scale, subtract } from "../../numerics/complex.ts";
import { cos, sin } from "../../numerics/sine.ts";
import type { Driven, MotionModel } from "../poles/motionModel.ts";
import { termsAt } from "../poles/motionModel.ts";
import { type Balance, type Balanced, balanceTone } from "./harmonicBalance.ts";
import { amplitudeOf } from "./loudest.ts";
import { type MotionSteps, motionSteps, type OffTheLine } from "./motionSteps.ts";

/** One guide's way to the output: weight / slope amplitude (cos(rest + phi) - cos rest) [rad]. */
export interface ReadGuide {
  readonly weight: number;
  readonly amplitude: number;
  readonly rest: number;
}

export interface OverloadedDevice {
  readonly model: MotionModel;
  readonly offTheLine: OffTheLine;
  readonly guides: readonly ReadGuide[];
  /** Deflection at the center per x [m/Pa], and the room that is left to the wall at rest [m]; null: no wall. */
  readonly center: number;
  readonly room: number | null;
  /** Of the tone [Hz], and of a step [s]. */
  readonly frequency: number;
  readonly step: number;
}

export interface Overloaded {
  /** Level of the tone, dB re 20 uPa. */
  readonly level: number;
  /** Whether it had stood for ever, balanced; else it began from rest `standing` periods before it stopped. */
  readonly balanced: boolean;
  readonly standing: number;
  /** Largest difference of x between two periods before the stop, over its size [-]: 0 is steady. */
  readonly unsteady: number;
  /** Largest share of the room to the wall that the center used [-]; null: no wall. */
  readonly used: number | null;
  /** How it ended: the output fell; the diaphragm met the wall; no step in time could follow it. */
  readonly ended: "recovered" | "wall" | "lost";
  /** After the stop: time [s], and the level of a tone that puts out as much as the largest output from then on, dB re 20 uPa. */
  readonly left: { readonly time: readonly number[]; readonly level: readonly number[] };
  /** Time from which on the output stays below a level [s], the faintest asked for or above; null: it did not recover. */
  readonly below: (level: number) => number | null;
  /** The same of all poles' parts added by their sizes, the forces as if they stood until the stop: an estimate from above. */
  readonly bySize: (level: number) => number | null;
  /** What is largest of the output at a time after the stop. */
  readonly carrier: (time: number) => Carrier | null;
  readonly steps: number;
  /** Whether forces could still be read when the steps ended: what was left then counts as linear all the same. */
  readonly cut: boolean;
}

/** A pole that carries what is left: its decay time [s], and how fast it turns [Hz]; 0: it creeps. */
export interface Carrier {
  readonly decay: number;
  readonly frequency: number;
}

/** Periods before the stop: of a tone that stands, and of one that begins from rest. */
const standingPeriods = 2;
const burstPeriods = 40;
/** Multiples of the tone in the balance. */
const multiples = 12;
/** Share of the faintest level's pressure that forces must fall below before the rest is linear [-]. */
const faint = 1e-2;
/** Most steps after the stop; what is left then counts as linear. */
const mostSteps = 60_000;
/** Points of the curve of what is left. */
const drawn = 121;

/** Times the step is cut to a quarter where it cannot be followed. */
const cuts = 2;

/** `faintest`: the lowest level that is asked for, dB re 20 uPa. */
export function overload(device: OverloadedDevice, level: number, faintest: number): Overloaded {
  let [found, step] = [steppedOverload(device, level, faintest), device.step];
  for (let cut = 0; cut < cuts && found.ended === "lost"; cut++) {
    step /= 4;
    found = steppedOverload({ ...device, step }, level, faintest);
  }
  return found;
}

function steppedOverload(device: OverloadedDevice, level: number, faintest: number): Overloaded {
  const { model, offTheLine, frequency, step, center, room } = device;
  const omega = 2 * Math.PI * frequency;
  const sound = { omega, amplitude: complex(amplitudeOf(level)) };
  const balanced = balancedAt(device, level);
  const steps = motionSteps(model, offTheLine, step);
  if (balanced) steps.stand(sound, balanced.forces);
  else steps.sound(sound);
  const standing = balanced ? standingPeriods : burstPeriods;
  const period = Math.round(1 / (frequency * step));
  let [most, unsteady, open] = [Math.abs(steps.moved()), 0, true];
  const before: number[] = [];
  const watch = () => {
    open = steps.advance();
    if (open) most = Math.max(most, Math.abs(steps.moved()));
    return open && (room === null || most * center < room);
  };
  for (let i = 0; i < standing * period && watch(); i++) {
    before.push(steps.moved());
    if (i >= (standing - 1) * period) unsteady = Math.max(unsteady, Math.abs(steps.moved() - before[i - period]!));
  }
  const perPascal = absolute(linearAt(device, complex(0, omega)));
  const levelOf = (output: number) => 20 * Math.log10(Math.max(output, 1e-30) / (perPascal * amplitudeOf(0)));
  const shared = () => ({
    level,
    balanced: balanced !== null,
    standing,
    unsteady: most === 0 ? 0 : unsteady / most,
    used: room === null ? null : (most * center) / room,
    steps: Math.round(steps.time() / step),
  });
  // A film that closes on average has let the center through to the wall.
  const stopped = () => !open || (room !== null && most * center >= room);
  const none = () => null;
  const ended = (): Overloaded => ({
    ...shared(),
    cut: false,
    ended: room !== null && (most * center >= room || offTheLine.closing * most > 0.9) ? "wall" : "lost",
    left: { time: [], level: [] },
    below: none,
    bySize: none,
    carrier: none,
  });
  if (stopped()) return ended();

  steps.sound(null);
  const stop = steps.time();
  const bounds = boundsOf(device, steps, balanced?.forces ?? []);
  const outputs: number[] = [outputNow(device, steps)];
  const quiet = faint * amplitudeOf(faintest);
  let calm = 0;
  // A whole period of the tone without a force that could be read.
  while (outputs.length < mostSteps && calm < period && watch()) {
    outputs.push(outputNow(device, steps));
    calm = Math.abs(steps.force()) < quiet ? calm + 1 : 0;
  }
  if (stopped()) return ended();
  const parts = partsOf(device, steps);
  const end = steps.time() - stop;
  const tail = tailOf(parts, end, perPascal * amplitudeOf(faintest - 20));
  // Outputs of the steps, then of the tail; each raised to the largest from then on.
  const time = [...outputs.map((_, i) => i * step), ...tail.time];
  const largest = [...outputs.map(Math.abs), ...tail.output];
  for (let i = largest.length - 2; i >= 0; i--) largest[i] = Math.max(largest[i]!, largest[i + 1]!);
  const from = Math.log(step);
  const times = Array.from({ length: drawn }, (_, i) =>
    Math.exp(from + ((Math.log(time.at(-1)!) - from) * i) / (drawn - 1)),
  );
  return {
    ...shared(),
    cut: calm < period,
    ended: "recovered",
    left: { time: times, level: times.map((at) => levelOf(largest[firstFrom(time, at)]!)) },
    below: (asked) => fallsBelow(time, largest.map(levelOf), asked),
    bySize: (asked) => boundBelow(bounds, perPascal * amplitudeOf(asked)),
    carrier: (at) => (at < end ? carrierOf(bounds, at) : carrierOf(parts, at - end)),
  };
}

/** When a falling level passes one, evenly between its points [s]; null: it does not. */
function fallsBelow(time: readonly number[], level: readonly number[], asked: number): number | null {
  const at = level.findIndex((one) => one < asked);
  if (at <= 0) return at < 0 ? null : 0;
  const share = (level[at - 1]! - asked) / (level[at - 1]! - level[at]!);
  return time[at - 1]! + share * (time[at]! - time[at - 1]!);
}

/** Index of the first of ascending times that is not before one. */
function firstFrom(times: readonly number[], at: number): number {
  let [low, high] = [0, times.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The balanced tone, from a quiet one in steps of 2 dB; null: none is found. */
function balancedAt({ model, offTheLine, frequency }: OverloadedDevice, level: number): Balanced | null {
  const zero = complex(0);
  const at = ({ sound, plate }: Driven, k: number) => {
    const s = complex(0, 2 * Math.PI * frequency * k);
    return { sound: k === 1 ? termsAt(model.poles, sound, s) : zero, plate: termsAt(model.poles, plate, s) };
  };
  const sum = (a: Complex, b: Complex) => add(a, b);
  const balance: Balance = {
    ...offTheLine,
    multiples: Array.from({ length: multiples + 1 }, (_, k) => {
      const [slow, spring] = [at(model.slow, k), at(model.spring, k)];
      const film = { sound: sum(slow.sound, spring.sound), plate: sum(slow.plate, spring.plate) };
      const some = absolute(film.plate) > 0;
      return { moved: at(model.moved, k), film, slow: some ? divide(slow.plate, film.plate) : zero };
    }),
  };
  let state: Balanced | null = null;
  for (let down = 12; down >= 0; down--) {
    state = balanceTone(balance, amplitudeOf(level - 2 * down), state?.forces ?? null);
    if (state === null) return null;
  }
  return state;
}

/** Output per pascal of sound without any force off the line [rad/Pa]. */
function linearAt({ model, guides }: OverloadedDevice, s: Complex): Complex {
  return guides.reduce(
    (sum, { weight }, g) => add(sum, scale(termsAt(model.poles, model.phases[g]!.sound, s), weight)),
    complex(0),
  );
}

/** [rad] */
function outputNow({ guides }: OverloadedDevice, steps: MotionSteps): number {
  const phases = steps.phases();
  return guides.reduce((sum, { weight, rest }, g) => {
    // cos(rest + phi) - cos(rest) over -sin(rest), without the difference of two near numbers.
    const phi = phases[g]!;
    return sum + weight * (sin(phi) + (cos(rest) / sin(rest)) * 2 * sin(phi / 2) ** 2);
  }, 0);
}

/** A pole's part in the output [rad]; a real one keeps its sign. */
interface Part {
  readonly pole: Complex;
  readonly size: number;
}

function partsOf({ model, guides }: OverloadedDevice, steps: MotionSteps): readonly Part[] {
  const { free, forced } = steps.states();
  return model.poles.map((pole, k) => {
    const sum = guides.reduce((total, { weight }, g) => {
      const { sound, plate } = model.phases[g]!;
      const part = add(multiply(sound.residues[k]!, free[k]!), multiply(plate.residues[k]!, forced[k]!));
      return add(total, scale(part, weight));
    }, complex(0));
    return { pole, size: pole.im === 0 ? sum.re : 2 * absolute(sum) };
  });
}

/** Points a decade of the tail. */
const tailPoints = 100;

/** What is left after the steps, until all of it is surely below an output: real poles by their sum, the others by their sizes. */
function tailOf(parts: readonly Part[], end: number, until: number) {
  const at = (time: number) => {
    let [real, turning, all] = [0, 0, 0];
    for (const { pole, size } of parts) {
      const now = size * Math.exp(pole.re * time);
      if (pole.im === 0) real += now;
      else turning += now;
      all += Math.abs(now);
    }
    return { output: Math.abs(real) + turning, all };
  };
  const time: number[] = [];
  const output: number[] = [];
  let after = end / tailPoints || 1e-6;
  for (let i = 0; i < 20 * tailPoints; i++, after *= 1 + Math.LN10 / tailPoints) {
    const here = at(after);
    time.push(end + after);
    output.push(here.output);
    if (here.all < until) break;
  }
  return { time, output };
}

function carrierOf(parts: readonly Part[], time: number): Carrier | null {
  const now = parts.map(({ pole, size }) => ({ pole, size: Math.abs(size) * Math.exp(pole.re * time) }));
  const [first] = now.filter(({ pole }) => pole.re < 0).sort((a, b) => b.size - a.size);
  return first ? { decay: -1 / first.pole.re, frequency: first.pole.im / (2 * Math.PI) } : null;
}

/** Sizes of the poles' parts when the sound stops, what the balanced forces move at each multiple by its size. */
function boundsOf(device: OverloadedDevice, steps: MotionSteps, forces: readonly Complex[]): readonly Part[] {
  const { model, guides, frequency } = device;
  const { free, forced } = steps.states();
  return model.poles.map((pole, k) => {
    const stands = forces.reduce((sum, force, m) => {
      const states = [1, -1].map(
        (turn) => absolute(force) / absolute(subtract(complex(0, turn * m * 2 * Math.PI * frequency), pole)),
      );
      return sum + (states[0]! + states[1]!) / 2;
    }, absolute(forced[k]!));
    const size = guides.reduce((sum, { weight, rest }, g) => {
      const { sound, plate } = model.phases[g]!;
      const own = absolute(multiply(sound.residues[k]!, free[k]!)) + absolute(plate.residues[k]!) * stands;
      return sum + Math.abs(weight) * own * (1 + Math.abs(cos(rest) / sin(rest)));
    }, 0);
    return { pole, size: (pole.im === 0 ? 1 : 2) * size };
  });
}

/** Time from which on the sum of sizes stays below an output [s]; null: a part that does not decay. */
function boundBelow(parts: readonly Part[], output: number): number | null {
  const at = (time: number) => parts.reduce((sum, { pole, size }) => sum + size * Math.exp(pole.re * time), 0);
  if (at(0) <= output) return 0;
  let high = 1e-6;
  while (at(high) > output) {
    high *= 2;
    if (high > 1e6) return null;
  }
  let low = high / 2;
  while (high - low > 1e-6 * high) {
    const middle = (low + high) / 2;
    if (at(middle) > output) low = middle;
    else high = middle;
  }
  return high;
}
