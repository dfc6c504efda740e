/** Curves over one axis, as SVG, in a page and in Node. It only draws: no smoothing, no fitting, no hidden logarithm. */
import * as Plot from "@observablehq/plot";
import type { Axis } from "./axis.ts";
import { type Colors, dashes } from "./colors.ts";
import { type Box, type Leader, placeLabels, type Side, type Trace, textWidth, type Wanted } from "./labels.ts";

export interface Curve {
  /** Written at the end of the curve; empty where there is only one. */
  readonly name: string;
  readonly x: readonly number[];
  /** null: a gap. */
  readonly y: readonly (number | null)[];
}

export interface Marker {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** A line down to the axis. */
  readonly dropped?: boolean;
  readonly sides?: readonly Side[];
}

/** A requirement: the area where the curve has to stay. */
export interface Region {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly text: string;
}

/** A line across the figure at one x. */
export interface Rule {
  readonly x: number;
  readonly text: string;
  readonly color: string;
}

export interface CurveFigureInput {
  readonly document: Document;
  /** Outer size [px]; texts keep their size whatever it is. */
  readonly width: number;
  readonly height: number;
  readonly colors: Colors;
  /** What it shows, in a sentence, for those who can't see it. */
  readonly description: string;
  readonly x: Axis;
  readonly y: Axis;
  readonly curves: readonly Curve[];
  readonly markers?: readonly Marker[];
  readonly region?: Region | null;
  readonly rules?: readonly Rule[];
}

/** Room round the axes [px]. */
export const margins = { top: 28, right: 14, bottom: 42, left: 44 };
export const fontSize = 12;

export function curveFigure(input: CurveFigureInput): SVGSVGElement {
  const { document, width, height, colors, x, y, curves, markers = [], region = null, rules = [] } = input;
  const left = leftMargin(y);
  const right = margins.right + curves.reduce((widest, { name }) => Math.max(widest, nameWidth(name)), 0);
  const svg = Plot.plot({
    document,
    width,
    height,
    marginTop: margins.top,
    marginRight: right,
    marginBottom: margins.bottom,
    marginLeft: left,
    x: { type: x.scale, domain: [...x.domain], axis: null },
    y: { type: y.scale, domain: [...y.domain], axis: null },
    marks: [
      ...(region === null ? [] : [regionMark(region, x, y, colors)]),
      Plot.gridX([...x.minor, ...x.ticks], { stroke: colors.grid, strokeOpacity: 1 }),
      Plot.gridY([...y.ticks], { stroke: colors.grid, strokeOpacity: 1 }),
      ...(y.domain[0] < 0 && y.domain[1] > 0 && y.scale === "linear"
        ? [Plot.ruleY([0], { stroke: colors.hairline })]
        : []),
      ...rules.map((rule) => Plot.ruleX([rule.x], { stroke: rule.color, strokeWidth: 1.25 })),
      ...markers
        .filter(({ dropped }) => dropped === true)
        .map((marker) =>
          Plot.ruleX([marker.x], { y1: y.domain[0], y2: marker.y, stroke: colors.soft, strokeDasharray: "2 3" }),
        ),
      ...curves.map((curve, i) => curveMark(curve, i, colors)),
      ...markers.map(({ x: at, y: height }) => Plot.dot([[at, height]], { r: 3.5, fill: colors.ink })),
    ],
  }) as unknown as SVGSVGElement & Scaled;
  dress(svg, input);
  write(svg, input, left, right);
  return svg;
}

interface Scaled {
  scale(name: string): { apply(value: number): number } | undefined;
}

/** Room for the widest tick. */
const leftMargin = (y: Axis): number =>
  y.ticks.reduce((widest, tick) => Math.max(widest, textWidth(y.tickText(tick), fontSize) + 12), margins.left);

const nameWidth = (name: string): number => (name === "" ? 0 : textWidth(name, fontSize) + 4);

function curveMark({ x, y }: Curve, i: number, colors: Colors) {
  return Plot.line(
    x.map((value, k) => [value, y[k] ?? Number.NaN]),
    {
      stroke: colors.series[i % 4] ?? colors.ink,
      strokeWidth: 1.75,
      strokeDasharray: dashes[i % 4] ?? "none",
      clip: true,
      className: `curve curve-${i + 1}`,
    },
  );
}

function regionMark(region: Region, x: Axis, y: Axis, colors: Colors) {
  const within = (value: number, [low, high]: readonly [number, number]) => Math.min(Math.max(value, low), high);
  return Plot.rect([0], {
    x1: within(region.x[0], x.domain),
    x2: within(region.x[1], x.domain),
    y1: within(region.y[0], y.domain),
    y2: within(region.y[1], y.domain),
    fill: colors.wanted,
    stroke: colors.hairline,
  });
}

/** Style in attributes only: a page's content security policy forbids style elements, and files need no page. */
function dress(svg: SVGSVGElement, { description, colors }: CurveFigureInput): void {
  for (const style of [...svg.querySelectorAll("style")]) style.remove();
  for (const labeled of [...svg.querySelectorAll("[aria-label]")]) labeled.removeAttribute("aria-label");
  svg.removeAttribute("class");
  svg.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  svg.setAttribute("font-family", "Inter, sans-serif");
  svg.setAttribute("font-size", String(fontSize));
  svg.setAttribute("font-variant", "tabular-nums");
  svg.setAttribute("fill", colors.ink);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", description);
}

/** Axis labels, then the labels of what is drawn, each where it covers nothing. */
function write(svg: SVGSVGElement & Scaled, input: CurveFigureInput, left: number, right: number): void {
  const { width, height, colors, x, y, curves, markers = [], region = null, rules = [] } = input;
  const place = (value: number, axis: "x" | "y") => svg.scale(axis)?.apply(value) ?? 0;
  const frame: Box = { left, right: width - right, top: margins.top, bottom: height - margins.bottom };
  const traces: Trace[] = curves.map((curve) =>
    curve.x.map((value, i) => {
      const level = curve.y[i];
      return level === null || level === undefined ? null : { x: place(value, "x"), y: place(level, "y") };
    }),
  );
  for (const tick of x.ticks) text(svg, x.tickText(tick), place(tick, "x"), frame.bottom + 16, "middle", colors.soft);
  for (const tick of y.ticks) text(svg, y.tickText(tick), frame.left - 8, place(tick, "y") + 4, "end", colors.soft);
  text(svg, y.label, 0, margins.top - 13, "start", colors.soft);
  text(svg, x.label, width - right, height - 6, "end", colors.soft);
  for (const [i, { name }] of curves.entries()) {
    const last = traces[i]?.findLast((point) => point !== null);
    if (name !== "" && last) text(svg, name, last.x + 6, last.y + 4, "start", colors.series[i % 4] ?? colors.ink);
  }
  const drops = markers.map((marker) => [
    { x: place(marker.x, "x"), y: place(marker.y, "y") },
    { x: place(marker.x, "x"), y: marker.dropped === true ? frame.bottom : place(marker.y, "y") },
  ]);
  const lines = rules.map((rule) => [
    { x: place(rule.x, "x"), y: frame.top },
    { x: place(rule.x, "x"), y: frame.bottom },
  ]);
  const dots = markers.map((marker) => around(place(marker.x, "x"), place(marker.y, "y"), 5));
  const wanted: (Wanted & { readonly color: string })[] = [
    ...markers.map((marker) => ({
      text: marker.text,
      x: place(marker.x, "x"),
      y: place(marker.y, "y"),
      size: fontSize,
      sides: marker.sides ?? (["above-right", "right", "above-left"] as const),
      color: colors.ink,
    })),
    ...(region === null ? [] : [regionLabel(region, place, frame, colors)]),
    ...rules.map((rule) => ({
      text: rule.text,
      x: place(rule.x, "x"),
      y: frame.top + 8,
      size: fontSize,
      sides: ["left", "right"] as const,
      joined: false,
      color: colors.soft,
    })),
  ].filter((label) => label.text !== "");
  const placed = placeLabels(wanted, { frame, traces: [...traces, ...drops, ...lines], taken: dots });
  for (const label of placed) if (label.leader !== null) leader(svg, label.leader, colors.soft);
  for (const [i, label] of placed.entries())
    text(svg, label.text, label.x, label.y, "start", wanted[i]?.color ?? colors.ink, colors.ground);
}

/** At any corner of the region. */
function regionLabel(region: Region, place: (value: number, axis: "x" | "y") => number, frame: Box, colors: Colors) {
  const left = Math.max(place(region.x[0], "x"), frame.left);
  const right = Math.min(place(region.x[1], "x"), frame.right);
  const top = Math.max(place(region.y[1], "y"), frame.top);
  const bottom = Math.min(place(region.y[0], "y"), frame.bottom);
  return {
    text: region.text,
    x: left,
    y: top,
    also: [
      { x: left, y: bottom },
      { x: (left + right) / 2, y: top },
      { x: (left + right) / 2, y: bottom },
    ],
    size: fontSize,
    sides: ["above-right", "below-right"] as const,
    onlySides: true,
    joined: false,
    color: colors.soft,
  };
}

/** A thin line from a label that had to move away to what it names. */
function leader(svg: SVGSVGElement, { from, to }: Leader, color: string): void {
  const line = svg.ownerDocument.createElementNS("http://www.w3.org/2000/svg", "line");
  line.setAttribute("x1", from.x.toFixed(1));
  line.setAttribute("y1", from.y.toFixed(1));
  line.setAttribute("x2", to.x.toFixed(1));
  line.setAttribute("y2", to.y.toFixed(1));
  line.setAttribute("stroke", color);
  svg.append(line);
}

const around = (x: number, y: number, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r });

function text(
  svg: SVGSVGElement,
  said: string,
  x: number,
  y: number,
  anchor: "start" | "middle" | "end",
  color: string,
  halo: string | null = null,
): void {
  const element = svg.ownerDocument.createElementNS("http://www.w3.org/2000/svg", "text");
  element.setAttribute("x", x.toFixed(1));
  element.setAttribute("y", y.toFixed(1));
  element.setAttribute("text-anchor", anchor);
  element.setAttribute("fill", color);
  if (halo !== null) {
    element.setAttribute("stroke", halo);
    element.setAttribute("stroke-width", "3");
    element.setAttribute("stroke-linejoin", "round");
    element.setAttribute("paint-order", "stroke");
  }
  element.textContent = said;
  svg.append(element);
}
