/** Pictures of the limits: noise over frequency by source, third octaves, and the room between the faintest and the loudest sound. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Limits } from "../core/tasks/predict/limits.ts";
import type { Noise } from "../core/tasks/predict/prediction.ts";
import { askedShare, shortSourceWords, sourceWords } from "../words/en/limits.ts";
import { limitFigureWords as words } from "../words/en/limitsPage.ts";
import { frequencyAxis, linearAxis, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { Region } from "./curveInput.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

/** What names at the curves' ends leave of the width for the axis. */
const beside = 0.6;

/** Below it names stand short beside the curves [px]. */
const narrow = 480;

/** Sources drawn beside the sum: more lines than this can't be told apart. */
const drawnSources = 3;

/** Phase noise [rad/sqrt(Hz)] over frequency: the sum, heat, and what else is strongest. */
export function noiseFigure({ spectrum, bySource }: Noise, room: FigureRoom): Figure {
  const strongest = [...bySource]
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share)
    .slice(0, drawnSources)
    .map(({ source }) => source);
  const wanted = strongest.includes("thermal")
    ? strongest
    : [...strongest.slice(0, drawnSources - 1), "thermal" as const];
  const shown = spectrum.bySource.filter(({ source, density }) => wanted.includes(source) && Math.max(...density) > 0);
  const alone = shown.length === 1 && spectrum.bySource.filter(({ density }) => Math.max(...density) > 0).length === 1;
  const top = Math.max(...spectrum.total);
  const lowest = Math.min(...shown.flatMap(({ density }) => density).filter((value) => value > 0), ...spectrum.total);
  return curveFigure({
    ...room,
    description: words.noiseDescription,
    x: frequencyAxis([20, 20e3], beside * room.width),
    y: logAxis(words.phaseNoise, [Math.max(lowest, top / 1e4) / 1.3, top * 1.5], { length: room.height, per: 1e-9 }),
    curves: [
      { name: alone ? "" : words.total, x: spectrum.frequency, y: spectrum.total },
      ...(alone
        ? []
        : shown.map(({ source, density }) => ({
            name: (room.width < narrow ? shortSourceWords : sourceWords)[source],
            x: spectrum.frequency,
            y: density,
          }))),
    ],
  });
}

export const sayNoise = (x: number, y: number | null): string =>
  `${formatQuantity(x, "frequency", { digits: 3 })}: ${y === null ? words.none : `${formatNumber(y * 1e9, { digits: 3 })} nrad/√Hz`}`;

/** Third octaves of noise as sound, as steps. */
export function octaveFigure({ range }: Limits, room: FigureRoom): Figure {
  const half = 10 ** (1 / 20);
  const x = range.frequency.flatMap((mid) => [mid / half, mid * half]);
  const y = range.floor.flatMap((level) => [level, level]);
  const known = y.filter((level) => level !== null);
  return curveFigure({
    ...room,
    description: words.octaveDescription,
    x: frequencyAxis([17.8, 22.4e3], room.width - 60),
    y: linearAxis(words.octaves, known.length > 0 ? [Math.min(...known) - 3, Math.max(...known) + 3] : [0, 60], {
      count: 5,
    }),
    curves: [{ name: "", x, y }],
  });
}

export const sayLevel = (x: number, y: number | null): string =>
  `${formatQuantity(x, "frequency", { digits: 3 })}: ${y === null ? words.none : formatQuantity(y, "decibel", { digits: 3 })}`;

/** A kept design's limits. */
export interface NamedLimits {
  readonly name: string;
  readonly limits: Limits;
}

/** Floor and ceiling as one curve, with a gap between them. */
function roomOf(name: string, { frequency, floor, ceiling }: Limits["range"]) {
  return { name, x: [...frequency, frequency.at(-1) ?? 1, ...frequency], y: [...floor, null, ...ceiling] };
}

/** Floor, ceiling and what is asked for between them; beside kept designs the floor and ceiling of each alone. */
export function rangeFigure(limits: Limits, room: FigureRoom, kept: readonly NamedLimits[] = []): Figure {
  const { range, loudest, noise } = limits;
  const short = room.width < narrow;
  const { frequency, floor, ceiling, onePercent, asked } = range;
  const others = kept.flatMap((one) => [...one.limits.range.floor, ...one.limits.range.ceiling]);
  const known = [...floor, ...ceiling, ...onePercent, ...others].filter((level) => level !== null);
  const [low, high] = known.length > 0 ? [Math.min(...known), Math.max(...known)] : [20, 140];
  const percent = askedShare(loudest.distortion);
  const alone = [
    { name: short ? percent : words.ceiling(percent), x: frequency, y: ceiling },
    {
      name: short ? "1 %" : words.ceiling("1 %"),
      x: frequency,
      y: loudest.distortion === 0.01 ? [] : onePercent,
    },
    { name: short ? words.shortSum : words.sum, x: frequency, y: frequency.map(() => noise.levelA) },
    { name: short ? words.shortFloor : words.floor, x: frequency, y: floor },
  ];
  const withKept = [roomOf(words.now, range), ...kept.map((one) => roomOf(one.name, one.limits.range))];
  const box: Region | null =
    asked.noise !== null && asked.loudest !== null
      ? {
          x: [asked.from ?? 20, asked.to ?? 20e3],
          y: [asked.noise, asked.loudest],
          text: words.asked,
        }
      : null;
  return curveFigure({
    ...room,
    description: words.rangeDescription,
    x: frequencyAxis([20, 20e3], beside * room.width),
    y: linearAxis(words.level, [Math.min(low, asked.noise ?? low) - 5, Math.max(high, asked.loudest ?? high) + 5], {
      count: 8,
    }),
    curves: (kept.length > 0 ? withKept : alone).filter(({ y }) => y.some((level) => level !== null)),
    region: box,
  });
}

/** The numbers behind the three pictures. */
export function limitColumns(limits: Limits): readonly Column[] {
  const level = (value: number | null) => (value === null ? words.none : formatNumber(value, { digits: 4 }));
  const { range } = limits;
  return [
    {
      title: words.bandColumn,
      values: range.frequency,
      text: (value) => formatQuantity(value, "frequency", { digits: 3 }),
    },
    { title: words.floorColumn, values: range.floor, text: level },
    { title: words.ceilingColumn("1 %"), values: range.onePercent, text: level },
    {
      title: words.ceilingColumn(askedShare(limits.loudest.distortion)),
      values: range.ceiling,
      text: level,
    },
    ...(range.balanced.some((value) => value !== null)
      ? [{ title: words.balancedColumn, values: range.balanced, text: level }]
      : []),
  ];
}

/** Densities by source over frequency [nrad/sqrt(Hz)]. */
export function noiseColumns({ spectrum }: Noise): readonly Column[] {
  const text = (value: number | null) => (value === null ? words.none : formatNumber(value * 1e9, { digits: 3 }));
  return [
    {
      title: words.frequencyColumn,
      values: spectrum.frequency,
      text: (value) => formatQuantity(value, "frequency", { digits: 3 }),
    },
    { title: `${words.total} (nrad/√Hz)`, values: spectrum.total, text },
    ...spectrum.bySource
      .filter(({ density }) => Math.max(...density) > 0)
      .map(({ source, density }) => ({ title: sourceWords[source], values: density, text })),
  ];
}
