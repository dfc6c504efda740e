/** A plane of two values: lines of equal sensitivity, resonance, damping ..., the region where the brief is met, the design. */
import * as Plot from "@observablehq/plot";
import { kindOf } from "../core/quantity/kinds.ts";
import type { ChartPlane } from "../core/tasks/chart/chart.ts";
import type { Measure } from "../core/tasks/predict/judge.ts";
import { measureText, measureWords } from "../words/en/measures.ts";
import { requirementWords } from "../words/en/requirements.ts";
import { type Axis, logAxis } from "./axis.ts";
import { type Colors, dashes } from "./colors.ts";
import { type Grid, type IsoLine, isoLines, isoRegion } from "./isoLines.ts";
import { type Box, textWidth } from "./labels.ts";
import type { FigureRoom } from "./responseFigures.ts";

export interface PlaneFigureInput extends FigureRoom {
  readonly plane: ChartPlane;
  /** Families to draw, the first four at most. */
  readonly families: readonly Measure[];
  /** Lines of the same families by power laws from the present design; null: none. */
  readonly laws?: ChartPlane | null;
}

export interface PlaneFigure {
  readonly svg: SVGSVGElement;
  readonly frame: Box;
  /** Values [SI] of a place in the picture [px], and back. */
  readonly valueAt: (x: number, y: number) => { readonly x: number; readonly y: number };
  readonly placeOf: (x: number, y: number) => { readonly x: number; readonly y: number };
}

const margins = { top: 20, right: 18, bottom: 44, left: 58 };
const fontSize = 12;
/** Lines of one family. */
const levelsWanted = 6;
const levelMeasures: readonly Measure[] = ["noise", "loudest", "vibration"];

export function planeFigure({
  plane,
  families,
  document,
  width,
  height,
  colors,
  laws = null,
}: PlaneFigureInput): PlaneFigure {
  const { x, y } = plane;
  const frame: Box = {
    left: margins.left,
    right: width - margins.right,
    top: margins.top,
    bottom: height - margins.bottom,
  };
  const [axisX, axisY] = [axisOf(x, frame.right - frame.left), axisOf(y, frame.bottom - frame.top)];
  const toX = between(x.values);
  const toY = between(y.values);
  const drawn = families.slice(0, 4).map((measure, k) => familyOf(plane, measure, k, colors));
  const lined = (lines: readonly IsoLine[], key: string) =>
    lines.flatMap((line, n) => line.map(([i, j]) => ({ x: toX(i), y: toY(j), z: `${key} ${n}` })));
  const marks: Plot.Markish[] = [
    Plot.gridX([...axisX.minor, ...axisX.ticks], { stroke: colors.grid, strokeOpacity: 1 }),
    Plot.gridY([...axisY.minor, ...axisY.ticks], { stroke: colors.grid, strokeOpacity: 1 }),
    ...(laws === null
      ? []
      : families.slice(0, 4).map((measure, k) => {
          const { lines } = familyOf(laws, measure, k, colors);
          const points = lines.flatMap(({ lines: of, level }) => lined(of, String(level)));
          return Plot.line(points, {
            x: "x",
            y: "y",
            z: "z",
            stroke: colors.soft,
            strokeWidth: 0.75,
            strokeDasharray: "1 3",
          });
        })),
    ...drawn.map(({ color, dash, lines }) =>
      Plot.line(
        lines.flatMap(({ lines: of, level }) => lined(of, String(level))),
        { x: "x", y: "y", z: "z", stroke: color, strokeWidth: 1.25, strokeDasharray: dash },
      ),
    ),
    ...boundaries(plane).map(({ lines }) =>
      Plot.line(lined(lines, "edge"), { x: "x", y: "y", z: "z", stroke: colors.ink, strokeWidth: 2.25 }),
    ),
  ];
  const svg = Plot.plot({
    document,
    width,
    height,
    marginTop: margins.top,
    marginRight: margins.right,
    marginBottom: margins.bottom,
    marginLeft: margins.left,
    x: { type: "log", domain: [x.from, x.to], axis: null },
    y: { type: "log", domain: [y.from, y.to], axis: null },
    marks,
  }) as unknown as SVGSVGElement;
  dress(
    svg,
    colors,
    `Lines of equal ${families.map((one) => measureWords[one].label.toLowerCase()).join(", ")} over ${x.label.toLowerCase()} and ${y.label.toLowerCase()}.`,
  );
  const place = (vx: number, vy: number) => ({
    x: frame.left + ((frame.right - frame.left) * Math.log(vx / x.from)) / Math.log(x.to / x.from),
    y: frame.bottom - ((frame.bottom - frame.top) * Math.log(vy / y.from)) / Math.log(y.to / y.from),
  });
  shadeAllowed(svg, document, { plane, at: (i, j) => place(toX(i), toY(j)), colors });
  const pen = penFor(svg, document, colors);
  writeAxes(pen, { axisX, axisY, frame, height, place, x, y });
  writeLabels(pen, { drawn, plane, toX, toY, place, frame, colors });
  if (plane.here.x !== null && plane.here.y !== null) {
    const at = place(plane.here.x, plane.here.y);
    if (within(at.x, frame.left, frame.right) && within(at.y, frame.top, frame.bottom)) pen.dot(at.x, at.y);
  }
  return {
    svg,
    frame,
    placeOf: place,
    valueAt: (px, py) => ({
      x: x.from * (x.to / x.from) ** ((px - frame.left) / (frame.right - frame.left)),
      y: y.from * (y.to / y.from) ** ((frame.bottom - py) / (frame.bottom - frame.top)),
    }),
  };
}

/** Values of a grid at places between its points, in equal ratios: a coarse grid's last step may be a shorter one. */
const between =
  (values: readonly number[]) =>
  (place: number): number => {
    const below = Math.min(values.length - 2, Math.max(0, Math.floor(place)));
    const [low, high] = [values[below]!, values[below + 1]!];
    return low * (high / low) ** (place - below);
  };

const within = (value: number, low: number, high: number) => value >= low - 1e-6 && value <= high + 1e-6;

/** Size of the axis' unit in SI and its name. */
function unitOf({ kind, from, to }: ChartPlane["x"]): { readonly per: number; readonly name: string } {
  const middle = Math.sqrt(from * to);
  if (kind === "length") return middle >= 0.7e-3 ? { per: 1e-3, name: "mm" } : { per: 1e-6, name: "µm" };
  return { per: 1, name: kindOf(kind).si };
}

const axisOf = (axis: ChartPlane["x"], length: number): Axis => {
  const { per, name } = unitOf(axis);
  return logAxis(name === "" ? axis.label : `${axis.label} (${name})`, [axis.from, axis.to], { length, per });
};

interface Family {
  readonly measure: Measure;
  readonly color: string;
  readonly dash: string;
  readonly lines: readonly { readonly level: number; readonly lines: readonly IsoLine[] }[];
}

function familyOf({ measures, x, y }: ChartPlane, measure: Measure, k: number, colors: Colors): Family {
  const known = measures[measure].filter((value): value is number => value !== null && value > 0);
  const linear = levelMeasures.includes(measure);
  const scaled = (value: number | null) =>
    value === null || (!linear && value <= 0) ? null : linear ? value : Math.log(value);
  const grid: Grid = { columns: x.values.length, rows: y.values.length, values: measures[measure].map(scaled) };
  const [low, high] = known.length === 0 ? [1, 1] : [Math.min(...known), Math.max(...known)];
  const levels = known.length === 0 ? [] : linear ? evenLevels(low, high) : roundLevels(low, high);
  return {
    measure,
    color: colors.series[k] ?? colors.ink,
    dash: dashes[k] ?? "none",
    lines: levels.map((level) => ({ level, lines: isoLines(grid, scaled(level) ?? 0) })),
  };
}

/** 1, 2, 5 within the range; thinned or filled until there are about as many as wanted. */
function roundLevels(low: number, high: number): readonly number[] {
  const within = (digits: readonly number[]) => {
    const list: number[] = [];
    for (let power = Math.floor(Math.log10(low)); power <= Math.log10(high); power++)
      for (const digit of digits) {
        const value = digit * 10 ** power;
        if (value > low && value < high) list.push(value);
      }
    return list;
  };
  const sets = [[1], [1, 3], [1, 2, 5], [1, 1.5, 2, 3, 4, 5, 7]].map(within);
  return sets.find((set) => set.length >= levelsWanted - 2) ?? sets[3]!;
}

function evenLevels(low: number, high: number): readonly number[] {
  const step = [1, 2, 5, 10, 20].find((one) => (high - low) / one <= levelsWanted + 1) ?? 50;
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.max(0, Math.floor(high / step) - first + 1) }, (_, i) => (first + i) * step);
}

/** The region where everything that is computed is met, laid under the lines. */
function shadeAllowed(
  svg: SVGSVGElement,
  document: Document,
  given: {
    readonly plane: ChartPlane;
    readonly at: (column: number, row: number) => { readonly x: number; readonly y: number };
    readonly colors: Colors;
  },
): void {
  const { plane, at, colors } = given;
  const rings = isoRegion({ columns: plane.x.values.length, rows: plane.y.values.length, values: plane.least }, 0);
  if (rings.length === 0) return;
  const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
  const d = rings.map((ring) => {
    const points = ring.map(([i, j]) => at(i, j)).map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`);
    return `M${points.join("L")}Z`;
  });
  path.setAttribute("d", d.join(""));
  path.setAttribute("fill", colors.wanted);
  path.setAttribute("fill-rule", "evenodd");
  path.setAttribute("class", "allowed");
  svg.prepend(path);
}

interface Boundary {
  readonly requirement: string;
  readonly lines: readonly IsoLine[];
}

/** For each requirement the part of its limit that bounds the allowed region: there it is the scarcest. */
function boundaries({ reserves, least, x, y }: ChartPlane): readonly Boundary[] {
  const [columns, rows] = [x.values.length, y.values.length];
  return Object.entries(reserves).flatMap(([requirement, values]) => {
    const scarcest = (column: number, row: number): boolean => {
      const at = Math.round(row) * columns + Math.round(column);
      const [own, all] = [values[at] ?? null, least[at] ?? null];
      return own !== null && all !== null && own - all < 1e-9;
    };
    const lines = isoLines({ columns, rows, values }, 0).flatMap((line) => {
      const runs: (readonly [number, number])[][] = [[]];
      for (const point of line) {
        if (scarcest(...point)) runs.at(-1)!.push(point);
        else if (runs.at(-1)!.length > 0) runs.push([]);
      }
      return runs.filter((run) => run.length > 1);
    });
    return lines.length === 0 ? [] : [{ requirement, lines }];
  });
}

/** Style in attributes only: a page's content security policy forbids style elements, and files need no page. */
function dress(svg: SVGSVGElement, colors: Colors, description: string): void {
  for (const style of [...svg.querySelectorAll("style")]) style.remove();
  for (const labeled of [...svg.querySelectorAll("[aria-label]")]) labeled.removeAttribute("aria-label");
  svg.removeAttribute("class");
  const attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    "font-family": "Inter, sans-serif",
    "font-size": String(fontSize),
    "font-variant": "tabular-nums",
    fill: colors.ink,
    role: "img",
    "aria-label": description,
  };
  for (const [name, value] of Object.entries(attributes)) svg.setAttribute(name, value);
}

interface Pen {
  readonly text: (
    x: number,
    y: number,
    text: string,
    options?: { color?: string; anchor?: string; turn?: number },
  ) => void;
  readonly dot: (x: number, y: number) => void;
}

function penFor(svg: SVGSVGElement, document: Document, colors: Colors): Pen {
  const add = (name: string, attributes: Record<string, string | number>) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
    svg.append(made);
    return made;
  };
  return {
    text: (x, y, text, { color = colors.soft, anchor = "middle", turn = 0 } = {}) => {
      const made = add("text", {
        x: x.toFixed(1),
        y: y.toFixed(1),
        fill: color,
        "text-anchor": anchor,
        stroke: colors.ground,
        "stroke-width": 4,
        "stroke-linejoin": "round",
        "paint-order": "stroke",
        ...(turn !== 0 && { transform: `rotate(${turn.toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})` }),
      });
      made.textContent = text;
    },
    dot: (x, y) => {
      add("circle", {
        cx: x,
        cy: y,
        r: 5,
        fill: colors.ground,
        stroke: colors.ink,
        "stroke-width": 2,
        class: "design",
      });
    },
  };
}

function writeAxes(
  pen: Pen,
  given: {
    readonly axisX: Axis;
    readonly axisY: Axis;
    readonly frame: Box;
    readonly height: number;
    readonly place: (x: number, y: number) => { x: number; y: number };
    readonly x: ChartPlane["x"];
    readonly y: ChartPlane["y"];
  },
): void {
  const { axisX, axisY, frame, height, place, x, y } = given;
  for (const tick of axisX.ticks) pen.text(place(tick, y.from).x, frame.bottom + 16, axisX.tickText(tick));
  for (const tick of axisY.ticks)
    pen.text(frame.left - 6, place(x.from, tick).y + 4, axisY.tickText(tick), { anchor: "end" });
  pen.text((frame.left + frame.right) / 2, height - 8, axisX.label);
  pen.text(frame.left - 44, 12, axisY.label, { anchor: "start" });
}

/** A label on each line, along it, where it covers no other; the boundary's name beside its middle. */
function writeLabels(
  pen: Pen,
  given: {
    readonly drawn: readonly Family[];
    readonly plane: ChartPlane;
    readonly toX: (column: number) => number;
    readonly toY: (row: number) => number;
    readonly place: (x: number, y: number) => { x: number; y: number };
    readonly frame: Box;
    readonly colors: Colors;
  },
): void {
  const { drawn, plane, toX, toY, place, frame, colors } = given;
  const taken: Box[] = [];
  const put = (line: IsoLine, text: string, color: string, wanted: number): boolean => {
    const points = line.map(([i, j]) => place(toX(i), toY(j)));
    const half = textWidth(text, fontSize) / 2;
    const length = points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - points[i]!.x, p.y - points[i]!.y), 0);
    if (length < 2.2 * half) return false;
    for (const share of [wanted, 0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6]) {
      const at = Math.min(points.length - 2, Math.max(1, Math.round(share * (points.length - 1))));
      const here = points[at];
      if (here === undefined) continue;
      const [before, after] = [points[Math.max(0, at - 2)]!, points[Math.min(points.length - 1, at + 2)]!];
      let turn = (Math.atan2(after.y - before.y, after.x - before.x) * 180) / Math.PI;
      if (turn > 90) turn -= 180;
      if (turn < -90) turn += 180;
      const [across, up] = [
        half * Math.abs(Math.cos((turn * Math.PI) / 180)) + 8,
        half * Math.abs(Math.sin((turn * Math.PI) / 180)) + 9,
      ];
      const box = { left: here.x - across, right: here.x + across, top: here.y - up, bottom: here.y + up };
      const free = taken.every(
        (o) => o.right < box.left || o.left > box.right || o.bottom < box.top || o.top > box.bottom,
      );
      if (!free || box.left < frame.left || box.right > frame.right || box.top < frame.top || box.bottom > frame.bottom)
        continue;
      taken.push(box);
      // Centered on the line, whatever its direction.
      const down = 4;
      pen.text(here.x, here.y + down, text, { color, turn });
      return true;
    }
    return false;
  };
  const longest = (lines: readonly IsoLine[]) => [...lines].sort((a, b) => b.length - a.length)[0];
  for (const { requirement, lines } of boundaries(plane)) {
    const line = longest(lines);
    if (line !== undefined) put(line, requirementWords(requirement).label, colors.ink, 0.5);
  }
  for (const [k, { measure, color, lines }] of drawn.entries())
    for (const [n, { level, lines: of }] of lines.entries()) {
      const line = longest(of);
      const name = `${measureWords[measure].short} ${measureText(measure, level, 2)}`;
      if (line !== undefined) put(line, name, color, 0.25 + 0.15 * ((k + n) % 4));
    }
}
