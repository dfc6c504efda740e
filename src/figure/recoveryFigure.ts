/** What is left of the output after a tone that was too loud, over the logarithm of time. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Limits } from "../core/tasks/predict/limits.ts";
import { recoveryWords as words } from "../words/en/recovery.ts";
import { linearAxis, logAxis } from "./axis.ts";
import { curveFigure, type Figure } from "./curveFigure.ts";
import type { FigureRoom } from "./responseFigures.ts";
import type { Column } from "./tables.ts";

type Recovery = NonNullable<Limits["recovery"]>;

/** What names at the curves' ends leave of the width for the axis. */
const beside = 0.6;
/** So far below the faintest line [dB] the picture goes. */
const under = 12;

const decibels = (value: number) => formatQuantity(value, "decibel", { digits: 3 });
const recovered = ({ overloads }: Recovery) => overloads.filter(({ left }) => left.time.length > 0);

/** Of the overloads that recovered, one of them at least. */
export function recoveryFigure(recovery: Recovery, room: FigureRoom): Figure {
  const shown = recovered(recovery);
  const { small, noise } = recovery;
  const lines = [{ name: words.small, level: small }, ...(noise === null ? [] : [{ name: words.noise, level: noise }])];
  const lowest = Math.min(...lines.map(({ level }) => level)) - under;
  const drawn = shown.map(({ left, level }) => {
    const end = left.level.findIndex((one) => one < lowest);
    const count = end < 0 ? left.level.length : end + 1;
    return { name: decibels(level), x: left.time.slice(0, count), y: left.level.slice(0, count) };
  });
  const from = Math.min(...drawn.map(({ x }) => x[0]!));
  const to = Math.max(...drawn.map(({ x }) => x.at(-1)!));
  const top = Math.max(...drawn.flatMap(({ y }) => y));
  return curveFigure({
    ...room,
    description: words.description,
    x: logAxis(words.time, [from, to], { length: beside * room.width, per: 1e-3 }),
    y: linearAxis(words.levelAxis, [lowest, top], { count: 6 }),
    curves: [...drawn, ...lines.map(({ name, level }) => ({ name, x: [from, to], y: [level, level] }))],
  });
}

export const sayLeft = (x: number, y: number | null): string =>
  `${formatQuantity(x, "time", { digits: 2 })}: ${y === null ? words.none : decibels(y)}`;

/** Every sixth point: a row for a fifth of a decade or so. */
const every = 6;

/** The numbers behind the picture. */
export function recoveryColumns(recovery: Recovery): readonly Column[] {
  const shown = recovered(recovery);
  const [longest] = [...shown].sort((a, b) => b.left.time.at(-1)! - a.left.time.at(-1)!);
  const times = (longest?.left.time ?? []).filter((_, i) => i % every === 0);
  return [
    { title: words.timeColumn, values: times, text: (value) => formatQuantity(value ?? 0, "time", { digits: 3 }) },
    ...shown.map(({ left, level }) => ({
      title: words.leftColumn(decibels(level)),
      values: times.map((time) => left.level[left.time.findIndex((one) => one >= time)] ?? null),
      text: (value: number | null) => (value === null ? words.none : formatNumber(value, { digits: 3 })),
    })),
  ];
}
