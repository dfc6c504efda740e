/** Words for what a tone that was too loud leaves behind: the command's answer and the Limits page. */
import { formatNumber, formatQuantity } from "../../core/quantity/format.ts";
import type { Limits } from "../../core/tasks/predict/limits.ts";
import { hanging, wrap } from "../wrap.ts";

type Recovery = NonNullable<Limits["recovery"]>;
type Overload = Recovery["overloads"][number];

const level = (value: number): string => formatQuantity(value, "decibel", { digits: 3 });
const span = (value: number): string => formatQuantity(value, "time", { digits: 2 });

export const recoveryWords = {
  title: "After an overload",
  aside: "stepped in time",
  tone: "Tone that stops",
  room: "Gap used",
  toLoudest: (decibel: string) => `Below ${decibel}, the loudest sound`,
  toSmall: (decibel: string) => `Below ${decibel}, 1 % of 1 Pa`,
  toNoise: (decibel: string) => `Below ${decibel}, the noise`,
  at: "at once",
  none: "–",
  asked: "asked for",
  above: (decibel: string) => `${decibel} above the loudest sound`,
  wall: "The diaphragm meets the wall behind the film: what follows is not computed.",
  lost: "No step in time follows this motion.",
  estimate: (time: string) => `at most about ${time}`,
  figure: "What is left of the output",
  description: "Largest output from each time on after the tone stops, as the level of a tone that puts out as much.",
  time: "Time after the tone stops (ms)",
  levelAxis: "Output as level (dB)",
  small: "1 % of 1 Pa",
  noise: "noise",
  timeColumn: "Time after the stop",
  leftColumn: (decibel: string) => `left of ${decibel} (dB)`,
} as const;

/** "10 dB above the loudest sound" */
export const overloadName = ({ above }: Overload): string =>
  above === null ? recoveryWords.asked : recoveryWords.above(formatQuantity(above, "decibel", { digits: 2 }));

/** "0.24 s", "at once", or a dash. */
export const fallText = (time: number | null): string =>
  time === null ? recoveryWords.none : time <= 0 ? recoveryWords.at : span(time);

/** "at most about 0.34 s"; nothing where there is nothing to wait for. */
export const sizeText = (time: number | null): string =>
  time === null || time <= 0 ? "" : recoveryWords.estimate(fallText(time));

/** Three headings. */
export const fallHeads = ({ loudest, small, noise }: Recovery): readonly string[] => [
  recoveryWords.toLoudest(level(loudest)),
  recoveryWords.toSmall(formatQuantity(small, "decibel", { digits: 2 })),
  ...(noise === null ? [] : [recoveryWords.toNoise(level(noise))]),
];

/** Times under those headings. */
export const fallTimes = (
  { noise }: Recovery,
  { loudest, small, noise: faint }: Overload["until"],
): readonly (number | null)[] => [loudest, small, ...(noise === null ? [] : [faint])];

export const usedText = ({ used }: Overload): string =>
  used === null ? recoveryWords.none : used >= 1 ? "all" : `${formatNumber(100 * used, { digits: 2 })} %`;

/** How it was found, and what it is not. */
export function recoveryNote({ frequency, poles, error, overloads }: Recovery): string {
  const burst = overloads.find(({ balanced }) => !balanced);
  const begun =
    burst === undefined
      ? "A tone that has stood for long"
      : `A tone that has stood for long (${burst.periods} periods from rest where no steady state was found)`;
  return `${begun} at ${formatQuantity(frequency, "frequency", { digits: 3 })} stops where its pressure is largest; diaphragm, film and readout are stepped in time with all their nonlinear terms, the linear device by ${poles} poles that meet its answers to ${formatNumber(error, { digits: 1 })}. "At most about" adds the poles' parts without their signs.${overloads.some(({ cut }) => cut) ? " Forces were still there when the steps ended: what was left then counts as linear, and its times are estimates." : ""}`;
}

/** What is the last to go: "creeps, 0.19 s", "rings at 5.5 kHz, 0.42 ms" */
export function lastText({ last }: Overload): string | null {
  if (last === null) return null;
  const decay = `falls to 1/e in ${span(last.decay)}`;
  return last.frequency === 0
    ? `The last of it creeps (vent, cavities or film): ${decay}.`
    : `The last of it rings at ${formatQuantity(last.frequency, "frequency", { digits: 2 })}: ${decay}.`;
}

const bracketed = (text: string) => (text === "" ? "" : ` (${text})`);

/** The command's lines. */
export function recoveryLines(recovery: Recovery, width: number): readonly string[] {
  const heads = fallHeads(recovery);
  return [
    `${recoveryWords.title}: a tone that stops`,
    ...recovery.overloads.flatMap((one) => {
      const times = fallTimes(recovery, one.until);
      const sizes = fallTimes(recovery, one.bySize);
      const name = `${level(one.level)} (${overloadName(one)})`;
      const gap = one.used === null ? "" : `, uses ${usedText(one)} of the gap`;
      const what =
        one.ended === "wall"
          ? recoveryWords.wall
          : one.ended === "lost"
            ? recoveryWords.lost
            : `${heads.map((head, i) => `${head.charAt(0).toLowerCase()}${head.slice(1)} ${fallText(times[i]!)}${bracketed(sizeText(sizes[i]!))}`).join("; ")}. ${lastText(one) ?? ""}`;
      return hanging("  ", `${name}${gap}: ${what}`, width);
    }),
    ...wrap(recoveryNote(recovery), width),
  ];
}
