/** Where a guide holds no mode, one, several: an area each over wavelength and size, with the present guide in it. */
import { formatNumber, formatQuantity } from "../core/quantity/format.ts";
import type { Held, ModeWindow } from "../core/tasks/light/modeWindow.ts";
import { type Axis, logAxis } from "./axis.ts";
import { scaleOf } from "./curvePath.ts";
import { textWidth } from "./labels.ts";
import { lines, mark } from "./marks.ts";
import type { FigureRoom } from "./responseFigures.ts";
import { fontSize, margins, sheet } from "./sheet.ts";
import type { Column } from "./tables.ts";

export interface WindowWords {
  /** Of the axis upward, with its unit. */
  readonly size: string;
  readonly wavelength: string;
  readonly held: Readonly<Record<Held, string>>;
  readonly now: string;
  readonly description: string;
}

const per = { time: 3600, depth: 1e-6, width: 1e-6 } as const;

export function windowFigure(
  window: ModeWindow,
  words: WindowWords,
  room: FigureRoom,
): { readonly svg: SVGSVGElement } {
  const { document, width, height, colors } = room;
  const { wavelength, size, held, present } = window;
  const frame = { left: margins.left, right: width - margins.right, top: margins.top, bottom: height - margins.bottom };
  const x = logAxis(words.wavelength, around(wavelength), { length: frame.right - frame.left, per: 1e-9 });
  const y = logAxis(words.size, around(size), { length: frame.bottom - frame.top, per: per[window.kind] });
  const [across, up] = [scaleOf(x, frame.left, frame.right), scaleOf(y, frame.bottom, frame.top)];
  const columns = edges(wavelength).map((value) => across.place(value));
  const rows = edges(size).map((value) => up.place(value));
  const at = (row: number, column: number) => held[row * wavelength.length + column] ?? null;
  const svg = sheet(document, { width, height }, { description: words.description, colors });
  const borders: [number, number, number, number][] = [];
  for (const row of size.keys()) {
    for (const column of wavelength.keys()) {
      const here = at(row, column);
      const [left = 0, right = 0, bottom = 0, top = 0] = [
        columns[column],
        columns[column + 1],
        rows[row],
        rows[row + 1],
      ];
      if (here !== null && here > 0)
        svg.append(
          mark(document, "rect", {
            x: left,
            y: top,
            // A hair wider: no seam between neighbors.
            width: right - left + 0.5,
            height: bottom - top + 0.5,
            fill: here === 1 ? colors.wanted : colors.grid,
            "data-held": here,
          }),
        );
      const beside = column + 1 < wavelength.length ? at(row, column + 1) : here;
      const above = row + 1 < size.length ? at(row + 1, column) : here;
      if (here !== null && beside !== null && beside !== here) borders.push([right, top, right, bottom]);
      if (here !== null && above !== null && above !== here) borders.push([left, top, right, top]);
    }
  }
  svg.append(mark(document, "path", { d: lines(borders), fill: "none", stroke: colors.soft, "stroke-width": 1.25 }));
  svg.append(
    mark(document, "path", {
      d: lines([
        [frame.left, frame.bottom, frame.right, frame.bottom],
        [frame.left, frame.top, frame.left, frame.bottom],
      ]),
      stroke: colors.hairline,
    }),
  );
  const say = (said: string, px: number, py: number, anchor: string, color: string) => {
    const element = mark(document, "text", { x: px, y: py, "text-anchor": anchor, fill: color });
    element.setAttribute("stroke", colors.ground);
    element.setAttribute("stroke-width", "3");
    element.setAttribute("paint-order", "stroke");
    element.textContent = said;
    svg.append(element);
  };
  ticks(x, y).forEach(({ axis, value, text }) => {
    if (axis === "x") say(text, across.place(value), frame.bottom + 16, "middle", colors.soft);
    else say(text, frame.left - 8, up.place(value) + 4, "end", colors.soft);
  });
  say(x.label, frame.right, height - 6, "end", colors.soft);
  say(y.label, 0, margins.top - 13, "start", colors.soft);
  const here = { x: across.place(present.wavelength), y: up.place(present.size) };
  const written = [{ x: here.x + 20, y: here.y - 6, half: 30 }];
  for (const kind of [0, 1, 2] as const) {
    const half = textWidth(words.held[kind], fontSize) / 2;
    const spots = runsOf(window, kind).map(({ row, from, to }) => ({
      x: Math.min(
        Math.max(((columns[from] ?? 0) + (columns[to + 1] ?? 0)) / 2, frame.left + half + 4),
        frame.right - half - 4,
      ),
      y: ((rows[row] ?? 0) + (rows[row + 1] ?? 0)) / 2 + 4,
      half,
    }));
    const free = spots.find((spot) =>
      written.every(({ x, y, half: other }) => Math.abs(spot.x - x) > half + other + 6 || Math.abs(spot.y - y) > 18),
    );
    if (free === undefined) continue;
    written.push(free);
    say(words.held[kind], free.x, free.y, "middle", colors.ink);
  }
  svg.append(mark(document, "circle", { cx: here.x, cy: here.y, r: 4, fill: colors.ink }));
  say(words.now, here.x + 8, here.y - 6, "start", colors.ink);
  return { svg };
}

const ticks = (x: Axis, y: Axis) =>
  (
    [
      ["x", x],
      ["y", y],
    ] as const
  ).flatMap(([axis, one]) => one.ticks.map((value) => ({ axis, value, text: one.tickText(value) })));

/** Half a step beyond the first and the last of values in equal ratios. */
function around(values: readonly number[]): readonly [number, number] {
  const all = edges(values);
  return [all[0] ?? 1, all.at(-1) ?? 2];
}

function edges(values: readonly number[]): readonly number[] {
  const [first = 1, second = 2] = values;
  const half = Math.sqrt(second / first);
  return [first / half, ...values.map((value) => value * half)];
}

/** Runs of cells of a kind, the longest first, of the same length those in the middle. */
function runsOf({ wavelength, size, held }: ModeWindow, kind: Held) {
  const runs: { readonly row: number; readonly from: number; readonly to: number }[] = [];
  // Not in the outermost rows, where the axis is.
  const edge = size.length > 6 ? 2 : 0;
  for (let row = edge; row < size.length - edge; row++) {
    let from = 0;
    for (let column = 0; column <= wavelength.length; column++) {
      if (column < wavelength.length && held[row * wavelength.length + column] === kind) continue;
      if (column > from) runs.push({ row, from, to: column - 1 });
      from = column + 1;
    }
  }
  const away = (row: number) => Math.abs(row - size.length / 2);
  return runs.sort((a, b) => b.to - b.from - (a.to - a.from) || away(a.row) - away(b.row));
}

/** One row a point. */
export function windowColumns(window: ModeWindow, words: WindowWords): readonly Column[] {
  const { wavelength, size, held } = window;
  const count = wavelength.length;
  const all = Array.from({ length: held.length }, (_, i) => i);
  return [
    {
      title: words.wavelength,
      values: all.map((i) => wavelength[i % count] ?? null),
      text: (value) => (value === null ? "" : formatNumber(value / 1e-9, { digits: 4 })),
    },
    {
      title: words.size,
      values: all.map((i) => size[Math.floor(i / count)] ?? null),
      text: (value) => (value === null ? "" : formatNumber(value / per[window.kind], { digits: 3 })),
    },
    { title: "", values: held, text: (value) => (value === null ? "" : words.held[value as Held]) },
  ];
}

/** "4.2 h" or "3.1 µm". */
export const sizeText = (kind: ModeWindow["kind"], value: number): string =>
  kind === "time" ? `${formatNumber(value / 3600, { digits: 3 })} h` : formatQuantity(value, "length", { digits: 3 });
